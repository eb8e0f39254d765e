// The form of a participation record: what boards commonly ask for, typed here and kept nowhere.
import {courseCore} from './course_core.js';
import {button, field, make, paragraph, table} from './dialog.js';
import {saveFile} from './files.js';
import {tableIn} from './phrases.js';

const WORDS = {
  intro: 'Fill in what you know; what stays empty is a line to write on. What you type goes into the file and is kept nowhere else.',
  name: 'Name',
  provider: 'Provider',
  title: 'Course',
  dates: 'Date or dates',
  place: 'Place or format',
  instructor: 'Instructor',
  hours: 'Hours',
  hoursHelp: 'Entered by the provider. The program counted {} minutes in attempts.',
  objectives: 'Objectives, one a line',
  lesson: 'lesson',
  attempts: 'attempts',
  minutes: 'minutes in attempts',
  result: 'result',
  'not-assessed': 'not assessed',
  met: 'criterion met',
  'not-met': 'criterion not met',
  foot: 'Not a certificate. Credit is decided by the provider.',
  save: 'Save the record to print',
  data: 'Save it as data',
};

const TEXTS = ['name', 'provider', 'title', 'dates', 'place', 'instructor', 'hours'];
const MINUTE_s = 60;

const randomId = () => [...crypto.getRandomValues(new Uint8Array(12))].map(byte => byte.toString(16).padStart(2, '0')).join('');

/**
 * Fills `room` with the form and `foot` with its buttons. about: {code_name, name, dates, set_id, set_revision, objectives,
 * lessons: [{id, title, sha256, revision, attempts, engaged_s, result, note}], isResultFixed}.
 */
export function recordForm({room, foot, say = text => text, about}) {
  const words = tableIn(say, WORDS);
  const engaged_s = about.lessons.reduce((sum, lesson) => sum + lesson.engaged_s, 0);
  const inputs = Object.fromEntries(TEXTS.map(key => [key, make('input', {type: 'text', maxlength: 200, value: about[key] ?? '', autocomplete: 'off'})]));
  const objectives = make('textarea', {rows: 3, value: (about.objectives ?? []).join('\n')});
  const results = about.lessons.map(lesson => about.isResultFixed ? words[lesson.result]
    : make('select', {'aria-label': `${words.result}: ${lesson.title || lesson.id}`}, ['not-assessed', 'met', 'not-met'].map(value =>
      make('option', {value, text: words[value], selected: value === lesson.result}))));
  const status = make('p', {role: 'status'});
  room.replaceChildren(
    paragraph(words.intro, 'muted'),
    make('div', {class: 'db-fields'}, TEXTS.map(key => field(words[key], inputs[key],
      key === 'hours' ? words.hoursHelp.replace('{}', (engaged_s / MINUTE_s).toFixed(1)) : '')),
      make('div', {class: 'db-wide'}, field(words.objectives, objectives))),
    table([words.lesson, words.attempts, words.minutes, words.result], about.lessons.map((lesson, i) => [
      lesson.note ? make('span', {}, make('span', {text: lesson.title || lesson.id}), make('br'), make('span', {class: 'db-muted', text: lesson.note}))
        : lesson.title || lesson.id,
      lesson.attempts, (lesson.engaged_s / MINUTE_s).toFixed(1), results[i],
    ]), [1, 2]),
    paragraph(words.foot, 'warn'));

  async function answer() {
    const core = await courseCore();
    const made = core.ask('participation', JSON.stringify({
      format: 'driftbench-participation', version: 1, record_id: randomId(), code_name: about.code_name ?? '',
      ...Object.fromEntries(TEXTS.map(key => [key, inputs[key].value.trim()])),
      set_id: about.set_id ?? '', set_revision: about.set_revision ?? '',
      objectives: objectives.value.split('\n').map(line => line.trim()).filter(Boolean).slice(0, 30),
      lessons: about.lessons.map(({id, title, sha256, revision, attempts, engaged_s: seconds, result}, i) => ({
        id, title: title ?? '', sha256: sha256 ?? '', revision: revision ?? '', attempts, engaged_s: seconds,
        result: about.isResultFixed ? result : results[i].value,
      })),
    }));
    status.className = made.error ? 'db-error' : '';
    status.textContent = made.error ? say(made.error) : '';
    return made.error ? null : made;
  }
  const fileName = `participation-${(about.code_name || 'record').replace(/[^a-z0-9-]+/gi, '-')}`;
  foot.replaceChildren(
    button(words.save, async () => {
      const made = await answer();
      if (made) saveFile(`${fileName}.html`, made.html, 'text/html');
    }, {primary: true}),
    button(words.data, async () => {
      const made = await answer();
      if (made) saveFile(`${fileName}.participation.json`, made.json, 'application/json');
    }),
    status);
}
