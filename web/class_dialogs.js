// The Classroom's small dialogs: a turn-in code by pasting, and the participation record of one attendee.
import {button, field, make, openDialog, paragraph} from './dialog.js';
import {tableIn} from './phrases.js';
import {recordForm} from './record_form.js';

const WORDS = {
  paste: 'Paste a turn-in code',
  close: 'Close',
  pasteIntro: 'A learner copies the code in the logbook and sends it by any way you both use. Paste the whole message here; what stands around the code does not matter.',
  pasteProves: 'A code holds numbers without the recorded movement: it cannot be repeated, so it counts like a row of a table. Its check sum finds accidents of copying, not intent.',
  codeLabel: 'Turn-in code',
  take: 'Take it',
  empty: 'Paste a code first.',
  record: 'Participation record',
  who: 'Whose record?',
  noLearners: 'Nobody has turned anything in yet.',
  rows: 'rows of tables',
  inside: '{} of {} inside every tolerance',
};


/** {theme, say, take(text)}. */
export function openPaste({theme, say = text => text, take}) {
  const words = tableIn(say, WORDS);
  const {body, foot, shut} = openDialog({title: words.paste, close: words.close, theme});
  const area = make('textarea', {class: 'db-code', rows: 8, spellcheck: 'false', autocomplete: 'off'});
  const status = make('p', {role: 'status', class: 'db-error'});
  body.append(paragraph(words.pasteIntro), field(words.codeLabel, area), paragraph(words.pasteProves, 'muted'));
  foot.append(button(words.take, () => {
    if (area.value.trim() === '') {
      status.textContent = words.empty;
      area.focus();
      return;
    }
    take(area.value);
    shut();
  }, {primary: true}), status);
  area.focus();
}

/** {theme, say, learners: [{code, name, lessons: [{id, sha256, attempts, judged, inside, engaged_s}]}]}. */
export function openClassRecord({theme, say = text => text, learners}) {
  const words = tableIn(say, WORDS);
  const {body, foot} = openDialog({title: words.record, close: words.close, theme});
  if (learners.length === 0) {
    body.append(paragraph(words.noLearners));
    return;
  }
  const form = make('div');
  const show = learner => recordForm({
    room: form, foot, say,
    about: {
      code_name: learner.code,
      name: learner.name,
      lessons: learner.lessons.map(({id, sha256, attempts, judged, inside, engaged_s}) => ({
        id: id || words.rows, title: id || words.rows, sha256, attempts, engaged_s, result: 'not-assessed',
        note: judged > 0 ? words.inside.replace('{}', inside).replace('{}', judged) : '',
      })),
    },
  });
  const choice = make('select', {on: {change: event => show(learners[event.target.selectedIndex])}},
    learners.map(learner => make('option', {text: learner.name ? `${learner.name} (${learner.code})` : learner.code})));
  body.append(make('div', {class: 'db-fields'}, field(words.who, choice)), form);
  show(learners[0]);
  choice.focus();
}
