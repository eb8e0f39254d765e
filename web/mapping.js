// The dialog that says which column of a foreign table is which of ours, in which unit, and what its plus sign means.
import {csvRows, csvText} from './csv_text.js';
import {button, field, list, make, openDialog, paragraph} from './dialog.js';
import {measuringCore} from './measuring_core.js';
import {tableIn} from './phrases.js';

const WORDS = {
  title: 'What stands in these columns?',
  close: 'Leave this table out',
  intro: '{}: {} rows, parted by {}. Its columns have other names than ours. Say what each of them is; the figures are turned into mm and degrees here, and the file stays as it is.',
  commas: 'commas',
  semicolons: 'semicolons',
  tabs: 'tabs',
  latin1: 'The file is no UTF-8; it was read as spreadsheets of the West write it. Look at letters with accents.',
  known: 'Set as for the last table with the same columns.',
  column: 'Column of the table',
  line: 'Line {}',
  is: 'is our',
  unit: 'in',
  plus: 'plus means',
  nothing: 'not taken',
  allRows: 'For all rows',
  allRowsHelp: 'The table has no column for it, so one word holds for every row.',
  whatWords: 'Which technique do these words mean?',
  freehand: 'Free-hand',
  pilot: 'Pilot-guided',
  sleeve: 'Drill-guided',
  choose: 'not known',
  result: 'What will be taken',
  good: '{} rows can be taken.',
  bad: '{} rows cannot, and are left out:',
  more: 'And {} more.',
  remember: 'Remember this for the next table with these columns',
  take: 'Take {} of {} rows',
  of_column: '{}: what it is',
  unit_of: '{}: unit',
  plus_of: '{}: what plus means',
};

const TARGETS = {
  attempt_id: 'Identifier of the attempt',
  operator: 'Learner (code name)',
  cohort: 'Group',
  approach: 'Technique',
  implant_through_guide: 'Implant through the guide',
  measured: 'Hole or implant',
  site: 'Site',
  specimen: 'Block or jaw',
  boundary_deg: 'Direction of the boundary',
  period: 'Order of the attempt, from 1',
  entry_md_mm: 'Entry, mesio-distal',
  entry_bl_mm: 'Entry, bucco-lingual',
  depth_mm: 'Depth beside the plan',
  apex_md_mm: 'End, mesio-distal',
  apex_bl_mm: 'End, bucco-lingual',
  tilt_md_deg: 'Lean, mesio-distal',
  tilt_bl_deg: 'Lean, bucco-lingual',
  angle_deg: 'Angle in space',
  hole_diameter_mm: 'Diameter 1 to 3 mm below the rim',
  time_s: 'Time',
  source: 'Simulated or real (simulated, bench)',
};

// By the end of the name: ours first.
const SIGNS = {
  md_mm: ['distal, soft half', 'mesial, dense half'],
  bl_mm: ['lingual', 'buccal'],
  depth_mm: ['deeper', 'shallower'],
  md_deg: ['end distal, soft half', 'end mesial, dense half'],
  bl_deg: ['end lingual', 'end buccal'],
};

const UNITS = {mm: 'mm', cm: 'cm', inch: 'inch', um: 'µm', deg: '°', rad: 'rad', s: 's', min: 'min'};
const APPROACHES = ['freehand', 'pilot', 'sleeve'];
const SEPARATORS = {',': 'commas', ';': 'semicolons', '\t': 'tabs'};
const KEPT = 'driftbench-mappings';
const MOST_KEPT = 20;
const MOST_LISTED = 50;
const SAMPLES = 3;

const fill = (text, ...values) => values.reduce((filled, value) => filled.replace('{}', value), text);

function keptMappings() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? '[]');
    return Array.isArray(kept) ? kept : [];
  } catch {
    return [];
  }
}

function keep(key, mapping) {
  const others = keptMappings().filter(([one]) => one !== key);
  try {
    localStorage.setItem(KEPT, JSON.stringify([[key, mapping], ...others].slice(0, MOST_KEPT)));
  } catch { /* no room: it is guessed again */ }
}

/** Choices of a mapping as text, by column; those without a column under "constants". */
function readMapping(text) {
  const columns = new Map();
  const constants = new Map();
  for (const [column, as, unit, sign, words] of csvRows(text).slice(1)) {
    if (column === '') constants.set(as, words);
    else columns.set(column, {as, unit, isReversed: sign === '-', words});
  }
  return {columns, constants};
}

/**
 * Opens the dialog over the bytes of a table: {name, bytes, theme, say}. Gives {rows: holes.csv, problems: sentences}, or
 * {reason} when nothing is to be taken.
 */
export async function openMapping({name, bytes, theme, say = text => text}) {
  const core = await measuringCore();
  const table = core.open(name, bytes);
  if (table.error) return {reason: table.error};

  const words = tableIn(say, WORDS);
  const names = tableIn(say, TARGETS);
  const signs = tableIn(say, SIGNS);
  const key = JSON.stringify(table.header);
  const known = keptMappings().find(([one]) => one === key)?.[1];
  const {columns, constants} = readMapping(known ?? table.mapping);
  const ofWord = new Map();  // word of the technique -> approach
  for (const {as, words: pairs} of columns.values()) {
    if (as !== 'approach' || !pairs) continue;
    for (const pair of pairs.split('|')) ofWord.set(pair.slice(0, pair.lastIndexOf('=')), pair.slice(pair.lastIndexOf('=') + 1));
  }
  const targetOf = target => table.targets.find(one => one.name === target);
  const signsOf = target => Object.entries(signs).find(([end]) => target.endsWith(end))?.[1];

  let answer = null;
  let taken = null;
  let finish;
  const done = new Promise(resolve => { finish = resolve; });
  const {dialog, body, foot, shut} = openDialog({title: words.title, close: words.close, theme, onClose: () => finish()});
  dialog.classList.add('db-large');
  body.append(paragraph(fill(words.intro, name, table.rows, words[SEPARATORS[table.separator]])));
  if (table.is_latin1) body.append(paragraph(words.latin1, 'warn'));
  if (known) body.append(paragraph(words.known, 'muted'));

  // --- One line a column: its name, its first cells, what it is ---
  const choiceOf = column => columns.get(column) ?? {as: '', unit: '', isReversed: false, words: ''};
  const option = (value, text, chosen) => make('option', {value, text, selected: value === chosen});
  const samples = table.preview.slice(0, SAMPLES);

  function controls(column) {
    const choice = choiceOf(column);
    const target = targetOf(choice.as);
    const is = make('select', {'aria-label': fill(words.of_column, column), 'data-column': column, on: {change: event => {
      const as = event.target.value;
      for (const [other, one] of columns) if (one.as === as && other !== column) columns.delete(other);
      if (as === '') columns.delete(column);
      else columns.set(column, {as, unit: sameDimension(as, choice.unit) ? choice.unit : '', isReversed: false, words: ''});
      constants.delete(as);
      showColumns(column);
      compute();
    }}}, option('', words.nothing, choice.as), table.targets.map(one => option(one.name, names[one.name], choice.as)));
    const units = table.units.filter(unit => unit.dimension === target?.dimension);
    const unit = units.length === 0 ? null : make('select', {'aria-label': fill(words.unit_of, column), on: {change: event => {
      choice.unit = event.target.value;
      compute();
    }}}, units.map(one => option(one.name, UNITS[one.name], choice.unit || units[0].name)));
    const both = target?.is_signed ? signsOf(choice.as) : null;
    const plus = both && make('select', {'aria-label': fill(words.plus_of, column), on: {change: event => {
      choice.isReversed = event.target.value === '-';
      compute();
    }}}, option('+', both[0], choice.isReversed ? '-' : '+'), option('-', both[1], choice.isReversed ? '-' : '+'));
    return [is, unit, plus];
  }

  const sameDimension = (as, unit) => table.units.find(one => one.name === unit)?.dimension === targetOf(as)?.dimension;
  const rows = make('tbody');
  function showColumns(focused) {
    rows.replaceChildren(...table.header.map((column, i) => make('tr', {class: columns.has(column) ? null : 'db-idle'},
      make('th', {scope: 'row', text: column}),
      samples.map(({cells}) => make('td', {class: 'db-sample', text: cells[i] ?? ''})),
      controls(column).map(control => make('td', {}, control)))));
    if (focused !== undefined) rows.querySelector(`select[data-column="${CSS.escape(focused)}"]`)?.focus();
  }
  const head = [words.column, ...samples.map(({line}) => fill(words.line, line)), words.is, words.unit, words.plus];
  body.append(make('div', {class: 'db-scroll'}, make('table', {class: 'db-mapping'},
    make('thead', {}, make('tr', {}, head.map(text => make('th', {scope: 'col', text})))), rows)));

  // --- One word for all rows; words of the technique ---
  const extras = make('div');
  const setOrDelete = (map, one, value) => (value === '' ? map.delete(one) : map.set(one, value));
  function showExtras() {
    const has = target => [...columns.values()].some(choice => choice.as === target);
    const parts = [];
    if (!has('operator')) {
      parts.push(field(names.operator, make('input', {type: 'text', maxlength: 100, autocomplete: 'off', name: 'operator',
        value: constants.get('operator') ?? '', on: {input: event => { setOrDelete(constants, 'operator', event.target.value); compute(false); }}})));
    }
    if (!has('approach')) {
      parts.push(field(names.approach, make('select', {name: 'approach', on: {change: event => {
        setOrDelete(constants, 'approach', event.target.value);
        compute(false);
      }}}, option('', words.choose, constants.get('approach') ?? ''), APPROACHES.map(one => option(one, words[one], constants.get('approach'))))));
    }
    const blocks = parts.length === 0 ? [] : [make('h3', {text: words.allRows}), paragraph(words.allRowsHelp, 'muted'), make('div', {class: 'db-fields'}, parts)];
    const unknown = [...new Set([...ofWord.keys(), ...answer.unknown_words])];
    if (has('approach') && unknown.length > 0) {
      blocks.push(make('h3', {text: words.whatWords}), make('div', {class: 'db-fields'}, unknown.map(word =>
        field(word, make('select', {'data-word': word, on: {change: event => {
          setOrDelete(ofWord, word, event.target.value);
          compute(false);
        }}}, option('', words.choose, ofWord.get(word) ?? ''), APPROACHES.map(one => option(one, words[one], ofWord.get(word))))))));
    }
    extras.replaceChildren(...blocks);
  }

  // --- What comes of it ---
  const outcome = make('div', {role: 'status', 'aria-live': 'polite'});
  body.append(extras, make('h3', {text: words.result}), outcome);
  const remember = make('input', {type: 'checkbox', checked: true});
  const take = button('', () => {
    if (remember.checked) keep(key, mappingText());
    taken = {rows: core.rows(), problems: answer.problems};
    shut();
  }, {primary: true});
  foot.append(take, make('label', {class: 'db-choice'}, remember, make('span', {text: words.remember})));

  function mappingText() {
    const lines = [['column', 'as', 'unit', 'sign', 'words']];
    for (const [column, choice] of columns) {
      const pairs = choice.as === 'approach' ? [...ofWord].map(([word, approach]) => `${word}=${approach}`).join('|') : '';
      lines.push([column, choice.as, choice.unit, choice.isReversed ? '-' : '', pairs]);
    }
    for (const [as, word] of constants) lines.push(['', as, '', '', word]);
    return csvText(lines);
  }

  function compute(withExtras = true) {
    answer = core.map(mappingText());
    answer.problems ??= [];
    answer.unknown_words ??= [];
    if (withExtras) showExtras();
    const parts = [];
    if (answer.error) parts.push(paragraph(say(answer.error), 'error'));
    for (const sentence of answer.missing ?? []) parts.push(paragraph(say(sentence), 'error'));
    if (!answer.error && answer.missing.length === 0) {
      parts.push(paragraph(fill(words.good, answer.good), answer.good > 0 ? 'good' : 'error'));
      if (answer.bad > 0) {
        parts.push(paragraph(fill(words.bad, answer.bad), 'warn'), list(answer.problems.slice(0, MOST_LISTED).map(say)));
        if (answer.bad > MOST_LISTED) parts.push(paragraph(fill(words.more, answer.bad - MOST_LISTED), 'muted'));
      }
    }
    outcome.replaceChildren(...parts);
    take.textContent = fill(words.take, answer.good ?? 0, table.rows);
    take.disabled = !answer.good;
  }

  showColumns();
  compute();
  rows.querySelector('select')?.focus();
  await done;
  return taken ?? {reason: `${name}: found columns with other names than ours, and nobody said what they are; the table is left out`};
}
