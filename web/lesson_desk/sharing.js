// Two dialogs: a link that carries what is on the desk, and the files to save.
import {button, field, make, openDialog, paragraph, tabs} from '../dialog.js';
import {saveFile} from '../files.js';
import {kLongest, pack} from '../share.js';
import {zipOf} from '../zip_write.js';
import {appAddress} from './addresses.js';
import {say} from './words.js';

const address = () => new URL('./', location.href).href;

// A link, ready to be copied and tried.
function linkBox() {
  const text = make('textarea', {class: 'db-code', rows: '4', readonly: true, 'aria-label': say('shareLink')});
  const about = make('p', {class: 'db-muted'});
  const trouble = make('p', {class: 'db-error', role: 'status', hidden: true});
  const said = make('span', {class: 'db-good', role: 'status'});
  const copy = button(say('shareCopy'), async () => {
    text.select();
    try {
      await navigator.clipboard.writeText(text.value);
    } catch {
      document.execCommand('copy');
    }
    said.textContent = say('shareCopied');
  }, {primary: true});
  const test = button(say('shareTest'), () => open(text.value, '_blank', 'noopener'));
  const box = make('div', {}, make('h3', {text: say('shareLink')}), text, about, trouble, make('div', {class: 'db-row'}, copy, test, said));
  return {box, show({link = '', words = '', problem = ''}) {
    text.value = link;
    about.textContent = words;
    trouble.textContent = problem;
    trouble.hidden = !problem;
    text.hidden = !link;
    copy.disabled = test.disabled = !link;
    said.textContent = '';
  }};
}

const tick = (label, change, isOn = false) => {
  const box = make('input', {type: 'checkbox', on: {change}});
  box.checked = isOn;
  return {box, node: make('label', {class: 'db-choice'}, box, label)};
};

/**
 * about: {set: {id, title} or null, lessons: [{at, id, title, isOwn}], filesFor(at): files of an item's lesson or, at
 * -1, of the whole set; errors, mend(), shipped: {sets, lessons}: [{id, title}], theme, at: the chosen item}.
 */
export function openShare(about) {
  const {body, foot, shut, dialog} = openDialog({title: say('shareTitle'), close: say('close'), theme: about.theme});
  dialog.classList.add('desk-dialog');

  function fillOwn(panel) {
    if (about.lessons.length === 0) {
      panel.append(paragraph(say('shareNothing')));
      return;
    }
    if (about.errors > 0) {
      panel.append(paragraph(say('shareMend', about.errors), 'error'), button(say('showMe'), () => { shut(); about.mend(); }, {primary: true}));
      return;
    }
    const options = [...(about.set ? [[-1, say('shareSet', about.set.title)]] : []),
      ...about.lessons.map(({at, title}) => [at, say('shareLessonOf', title)])];
    const what = make('select', {on: {change: () => update()}}, options.map(([value, text]) => make('option', {value, text})));
    what.value = String(about.set ? -1 : Math.max(0, about.at));
    const lock = tick(say('shareLock'), () => update());
    const link = linkBox();
    const zip = button(say('saveAll'), () => about.save());
    const update = async () => {
      const at = Number(what.value);
      const files = about.filesFor(at);
      const lesson = at >= 0 ? about.lessons.find(one => one.at === at) : null;
      const id = lesson ? lesson.id : about.set.id;
      const named = lesson ? {lesson: id} : {set: id};
      const locked = lock.box.checked ? {...named, lock: 1} : {};
      zip.hidden = true;
      if (files.length === 0) {
        const plain = appAddress(address(), {...named, ...locked});
        link.show({link: plain, words: say('shareShort')});
        return;
      }
      const hash = await pack({...named, files});
      if (hash.length > kLongest) {
        zip.hidden = false;
        link.show({problem: say('shareTooLong', hash.length.toLocaleString('en'), kLongest.toLocaleString('en'))});
      } else {
        const whole = appAddress(address(), locked, hash);
        link.show({link: whole, words: say('shareLength', whole.length.toLocaleString('en'))});
      }
    };
    panel.append(field(say('shareWhat'), what), lock.node, paragraph(say('shareLockHelp'), 'muted'), link.box, zip);
    update();
  }

  function fillCourse(panel) {
    const group = (label, kind, list) => make('optgroup', {label}, list.map(({id, title}) => make('option', {value: `${kind}=${id}`, text: title})));
    const what = make('select', {on: {change: () => update()}}, make('option', {value: '', text: say('shareShelf')}),
      group(say('groupSets'), 'set', about.shipped.sets), group(say('groupLessons'), 'lesson', about.shipped.lessons));
    const seed = make('input', {type: 'text', inputmode: 'numeric', on: {input: () => update()}});
    const cohort = make('input', {type: 'text', on: {input: () => update()}});
    const lock = tick(say('shareLock'), () => update());
    const link = linkBox();
    const update = () => {
      const [kind, id] = what.value.split('=');
      const isSeed = seed.value === '' || (/^\d+$/.test(seed.value.trim()) && Number(seed.value) <= Number.MAX_SAFE_INTEGER);
      const isClass = cohort.value === '' || /^[a-z0-9-]{1,64}$/.test(cohort.value.trim());
      lock.box.disabled = !id;
      if (!isSeed || !isClass) {
        link.show({problem: isSeed ? say('shareBadClass', cohort.value) : say('shareBadSeed', seed.value)});
        return;
      }
      const parameters = {...(id ? {[kind]: id} : {}), seed: seed.value.trim(), class: cohort.value.trim(), ...(id && lock.box.checked ? {lock: 1} : {})};
      link.show({link: appAddress(address(), parameters)});
    };
    panel.append(paragraph(say('shareCourseAbout'), 'muted'), make('div', {class: 'db-fields'}, field(say('shareOpens'), what),
      field(say('shareSeed'), seed, say('shareSeedHelp')), field(say('shareClass'), cohort, say('shareClassHelp'))), lock.node, link.box);
    update();
  }

  const {strip, panels} = tabs([{name: say('shareOwn'), fill: fillOwn}, {name: say('shareCourse'), fill: fillCourse}]);
  body.before(strip);
  body.append(...panels);
  foot.hidden = true;
}

export function saveZip(name, files) {
  saveFile(`${name}.zip`, zipOf(files), 'application/zip');
}

/** files: [{name, text, trouble}]; what has a trouble cannot be saved. */
export function openSave({files, name, theme}) {
  const {body, foot, dialog} = openDialog({title: say('saveTitle'), close: say('close'), theme});
  dialog.classList.add('desk-dialog');
  const good = files.filter(({text}) => text);
  body.append(paragraph(say('saveAbout'), 'muted'));
  if (good.length > 1) {
    body.append(button(say('saveAll'), () => saveZip(name, good), {primary: true}));
    if (good.length < files.length) body.append(paragraph(say('saveSkipped'), 'warn'));
  }
  body.append(make('div', {class: 'file-list'}, files.map(file => (file.text
    ? button(say('saveOne', file.name), () => saveFile(file.name, file.text, 'application/json'))
    : paragraph(say('saveMend', file.name, file.trouble), 'error')))));
  foot.hidden = true;
}
