// What comes with the address: lessons in a link, taken only when the person says so, or a try-out of the Lesson desk.
// Loaded on first use.
import {button, list, openDialog, paragraph} from './dialog.js';
import {inOrder} from './files.js';
import {language} from './language.js';
import {kMark, titleOf, unpack} from './share.js';

const WORDS = {
  title: 'Open these lessons?',
  set: 'Set: {}',
  lesson: 'Lesson: {}',
  kit: 'Kit: {}',
  specimen: 'Piece of jaw: {}',
  about: 'Somebody shared them with this link. They will be kept in this browser, on your shelf. Nothing is sent anywhere.',
  replaces: 'A lesson or set of the same name that you opened before is replaced.',
  open: 'Open',
  close: 'Close',
  leave: 'Not now',
  troubleTitle: 'This link cannot be opened',
  goOn: 'Go to the shelf',
};

const nothing = {files: [], words: []};

// The link has done its work: a reload must not ask again.
const forgetLink = () => history.replaceState(null, '', location.pathname + location.search);

function ask({title, body, buttons, theme}) {
  return new Promise(resolve => {
    let answer = false;
    const {body: inside, foot, shut} = openDialog({title, close: WORDS.close, theme, onClose: () => resolve(answer)});
    inside.append(...body);
    foot.append(...buttons.map(({text, is, primary}) => button(text, () => { answer = is; shut(); }, {primary})));
    foot.firstChild.focus();
  });
}

async function shared(theme) {
  let content;
  try {
    content = await unpack(location.hash);
  } catch (failure) {
    await ask({title: WORDS.troubleTitle, theme, body: [paragraph(language.say(failure.message))], buttons: [{text: WORDS.goOn, is: true, primary: true}]});
    forgetLink();
    return nothing;
  }
  const kind = name => name.split('.').at(-2);
  const lines = inOrder(content.files).reverse().map(file => WORDS[kind(file.name)].replace('{}', titleOf(file)));
  const isWanted = await ask({
    title: WORDS.title, theme,
    body: [list(lines), paragraph(WORDS.about), paragraph(WORDS.replaces, 'muted')],
    buttons: [{text: WORDS.open, is: true, primary: true}, {text: WORDS.leave, is: false}],
  });
  forgetLink();
  if (!isWanted) return nothing;
  const words = [];
  const query = new URLSearchParams(location.search);
  if (content.set && !query.has('set')) words.push(`--set=${content.set}`);
  if (content.lesson && !query.has('lesson')) words.push(`--lesson=${content.lesson}`);
  return {files: content.files.map(file => ({...file, isNew: true})), words};
}

// The Lesson desk, in whose frame this page runs, says what to try.
function trial() {
  return new Promise(resolve => {
    addEventListener('message', function take({origin, source, data}) {
      if (origin !== location.origin || source !== parent || data?.driftbench !== 'try') return;
      removeEventListener('message', take);
      const words = ['--lock=1', `--lesson=${data.lesson}`, `--trial-block=${data.block}`, `--theme=${data.theme}`];
      resolve({files: data.files, words});
    });
    parent.postMessage({driftbench: 'ready'}, location.origin);
  });
}

/** {files: [{name, text, isNew}], words: arguments of the program}. */
export async function given(isTrial, theme) {
  for (const [name, text] of Object.entries(WORDS)) WORDS[name] = language.say(text);
  document.getElementById('loading').hidden = !isTrial;
  const taken = isTrial ? await trial() : location.hash.startsWith(kMark) ? await shared(theme) : nothing;
  document.getElementById('loading').hidden = false;
  return taken;
}
