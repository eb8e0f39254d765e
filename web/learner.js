// The logbook's dialog: turn attempts in, compare privately with a class, take a record of taking part away.
import {courseCore} from './course_core.js';
import {button, drawing, field, list, make, openDialog, paragraph, tabs} from './dialog.js';
import {saveFile} from './files.js';
import {tableIn} from './phrases.js';
import {recordForm} from './record_form.js';
import {zipOf} from './zip_write.js';

const WORDS = {
  title: 'Turn in, compare, take away',
  close: 'Close',
  turnIn: 'Turn in',
  compare: 'Compare with the class',
  record: 'Participation record',
  what: 'What do you turn in?',
  set: 'Set: {}',
  lesson: 'Lesson: {}',
  count: '{} ({} attempts)',
  countOne: '{} (1 attempt)',
  nothing: 'There is no attempt to turn in yet: drill a lesson first.',
  file: 'As one file',
  fileHelp: 'Whole attempts with the recorded movement. The Classroom repeats them, so they count as checked.',
  saveFile: 'Save the file',
  code: 'As a code to paste',
  codeHelp: 'Numbers only, for a mail or a chat. Without the movement it cannot be repeated, so it counts like a row of a table.',
  copyCode: 'Copy the code',
  copied: 'Copied: {} characters for {} attempts. Paste it where your instructor reads it.',
  notCopied: 'The browser does not let the page copy. Mark the code and copy it by hand.',
  savedFile: 'Saved: {} attempts. Give the file to your instructor by any way you both use.',
  codeLabel: 'The code',
  inside: 'What is inside',
  insideBoth: 'Your code name {}, the lesson, the kind of device (mouse, pen, touch), the measured numbers, your own estimates and critical events.',
  insideFile: 'In the file also: the block, the kit and every movement of the drill.',
  outside: 'Not inside: your name, an address, the date or time, anything else of this computer. Nothing is sent by this page: you hand it over yourself.',
  compareIntro: 'Your instructor can give out class-summary.json: the class without any individual. Open it here, or drop it on the page. Nobody sees the comparison but you.',
  choose: 'Choose the file…',
  another: 'Another file…',
  classIs: 'The class: {} people, {} attempts.',
  real: 'The class drilled real blocks; your holes are simulated. They are not the same thing.',
  noOwn: 'You have no attempt of this lesson in this browser.',
  otherVersion: '{} of your attempts are of another version of the lesson and are left out.',
  hidden: 'Attempts that the lesson does not show yet are left out.',
  rank: 'The band is the middle half of the class. There is no order of people: with a few holes each it would be mostly chance.',
  classResult: 'What the class found',
  recordWhat: 'What is it about?',
  reading: 'Reading your attempts…',
};

const fill = (text, ...values) => values.reduce((all, value) => all.replace('{}', String(value)), text);

/**
 * about: {theme, code_name, lessons: [{id, title, revision, result}], sets: [{id, title, revision, lessons: [id]}],
 * hidden: [attempt id], lesson (shown now), summary: {name, text} or null}; logbook(): text of the whole logbook.
 */
export async function openLearner({about, logbook, say = text => text}) {
  const words = tableIn(say, WORDS);
  const {dialog, body, foot} = openDialog({title: words.title, close: words.close, theme: about.theme});
  body.append(paragraph(words.reading));
  const core = await courseCore();
  const kept = JSON.parse((await logbook()) || '{"attempts": []}').attempts;
  core.forget();
  kept.forEach(({attempt}, i) => core.attempt(`attempt ${i + 1}`, attempt));
  const own = core.ask('list').attempts;
  const textOf = new Map(own.map(({id}) => [id, kept.find(({attempt}) => attempt.includes(`"${id}"`))]));

  // What can be chosen: sets with attempts, then lessons.
  const title = id => about.lessons.find(lesson => lesson.id === id)?.title ?? id;
  const counted = (name, count) => count === 1 ? fill(words.countOne, name) : fill(words.count, name, count);
  const ids = [...new Set(own.map(one => one.lesson_id))];
  const bundle = (lessons, name, set) => ({name, set, lessons, attempts: own.filter(one => lessons.includes(one.lesson_id))});
  const bundles = [
    ...about.sets.map(set => bundle(set.lessons, fill(words.set, set.title), set)),
    ...ids.map(id => bundle([id], fill(words.lesson, title(id)), null)),
  ].filter(one => one.attempts.length > 0);
  const start = Math.max(0, bundles.findIndex(one => !one.set && one.lessons[0] === about.lesson));
  const chooser = onChange => make('select', {on: {change: event => onChange(bundles[event.target.selectedIndex])}},
    bundles.map((one, i) => make('option', {text: counted(one.name, one.attempts.length), selected: i === start})));

  function turnInPanel(panel) {
    if (bundles.length === 0) {
      panel.append(paragraph(words.nothing));
      return;
    }
    const status = make('p', {role: 'status', class: 'db-good'});
    const code = make('textarea', {class: 'db-code', readonly: true, rows: 4, spellcheck: 'false'});
    let chosen = bundles[start];
    const show = one => {
      chosen = one;
      status.textContent = '';
      const made = core.ask('turn_in', JSON.stringify(one.attempts.map(({id}) => id)));
      code.value = made.code ?? say(made.error);
    };
    const folder = (about.code_name || 'attempts').replace(/[^\p{L}\p{N}]+/gu, '-');
    const baseName = () => `${folder}-${chosen.set?.id ?? chosen.lessons[0]}`;
    panel.append(
      make('div', {class: 'db-fields'}, make('div', {class: 'db-wide'}, field(words.what, chooser(show)))),
      make('div', {class: 'db-card'}, make('h3', {text: words.file}), paragraph(words.fileHelp, 'muted'),
        button(words.saveFile, () => {
          const files = chosen.attempts.map(({id, approach}, i) => ({
            name: `${folder}/${chosen.attempts[i].lesson_id}-${approach}-${id.slice(0, 8)}.attempt.json`, text: textOf.get(id).attempt,
          }));
          saveFile(`${baseName()}.zip`, zipOf(files), 'application/zip');
          status.textContent = fill(words.savedFile, files.length);
        }, {primary: true})),
      make('div', {class: 'db-card'}, make('h3', {text: words.code}), paragraph(words.codeHelp, 'muted'),
        field(words.codeLabel, code), make('div', {class: 'db-row'}, button(words.copyCode, async () => {
          try {
            await navigator.clipboard.writeText(code.value);
            status.textContent = fill(words.copied, code.value.length, chosen.attempts.length);
          } catch {
            code.select();
            status.textContent = words.notCopied;
          }
        }))),
      status, make('h3', {text: words.inside}),
      list([fill(words.insideBoth, about.code_name), words.insideFile, words.outside]));
    show(chosen);
  }

  function comparePanel(panel) {
    const result = make('div');
    const input = make('input', {type: 'file', accept: '.json,application/json', hidden: true, 'aria-hidden': 'true', tabindex: '-1',
      on: {change: async () => {
        const file = input.files[0];
        input.value = '';
        if (file) show({name: file.name, text: await file.text()});
      }}});
    const open = button(words.choose, () => input.click(), {primary: true});
    panel.append(paragraph(words.compareIntro, 'muted'), make('div', {class: 'db-row'}, open, input), result);
    function show({name, text}) {
      const answer = core.ask('compare', text, name, JSON.stringify(about.hidden));
      if (answer.error) {
        result.replaceChildren(paragraph(say(answer.error), 'error'));
        return;
      }
      open.textContent = words.another;
      const isMine = answer.rows.some(row => row.holes > 0);
      result.replaceChildren(
        make('h3', {text: title(answer.lesson_id) || name}), paragraph(fill(words.classIs, answer.learners, answer.attempts)),
        ...(answer.is_real ? [paragraph(words.real, 'warn')] : []),
        ...(isMine ? [] : [paragraph(words.noOwn, 'warn')]),
        ...(answer.svg ? [drawing(answer.svg)] : []),
        ...answer.rows.flatMap(row => [make('h3', {text: say(row.approach)}), ...row.sentences.map(one => paragraph(say(one)))]),
        ...(answer.other_version > 0 ? [paragraph(fill(words.otherVersion, answer.other_version), 'warn')] : []),
        ...(answer.hidden > 0 ? [paragraph(words.hidden, 'muted')] : []),
        paragraph(words.rank, 'muted'), make('h3', {text: words.classResult}), paragraph(say(answer.result)));
    }
    if (about.summary) show(about.summary);
    showSummary = show;
  }

  function recordPanel(panel) {
    const form = make('div');
    const buttons = make('div', {class: 'db-row'});
    const show = one => {
      const days = one.attempts.map(({id}) => (textOf.get(id)?.when ?? '').slice(0, 10)).filter(Boolean).sort();
      const lessons = one.lessons.map(id => {
        const attempts = one.attempts.filter(attempt => attempt.lesson_id === id);
        const lesson = about.lessons.find(known => known.id === id);
        return {
          id, title: title(id), sha256: attempts.at(-1)?.lesson_sha256 ?? '', revision: lesson?.revision ?? '', attempts: attempts.length,
          engaged_s: attempts.reduce((sum, attempt) => sum + attempt.engaged_s, 0), result: lesson?.result ?? 'not-assessed',
        };
      }).filter(lesson => lesson.attempts > 0);
      recordForm({room: form, foot: buttons, say, about: {
        code_name: about.code_name, lessons, isResultFixed: true, set_id: one.set?.id, set_revision: one.set?.revision,
        title: one.set?.title ?? title(one.lessons[0]), objectives: one.set?.objectives ?? [],
        dates: days.length === 0 ? '' : days[0] === days.at(-1) ? days[0] : `${days[0]} – ${days.at(-1)}`,
      }});
    };
    if (bundles.length === 0) {
      panel.append(paragraph(words.nothing));
      return;
    }
    panel.append(make('div', {class: 'db-fields'}, make('div', {class: 'db-wide'}, field(words.recordWhat, chooser(show)))), form, buttons);
    show(bundles[start]);
  }

  const pages = tabs([
    {name: words.turnIn, fill: turnInPanel}, {name: words.compare, fill: comparePanel}, {name: words.record, fill: recordPanel},
  ], about.summary ? 1 : 0);
  body.replaceChildren(...pages.panels);
  dialog.insertBefore(pages.strip, body);
  foot.remove();
  pages.strip.querySelector('[aria-selected="true"]').focus();
  dialog.addEventListener('close', () => { showSummary = null; });
  isOpen = pages;
}

let showSummary = null;
let isOpen = null;

/** A class summary that came while the dialog is open; false: it is not. */
export function giveSummary(summary) {
  if (!isOpen || !document.querySelector('dialog[open]')) return false;
  isOpen.show(1);
  showSummary?.(summary);
  return true;
}
