// The dialog that plans a fair experiment: how many, in which order, and what the result will not say.
import {courseCore} from './course_core.js';
import {button, field, list, make, openDialog, paragraph, table} from './dialog.js';
import {saveFile} from './files.js';
import {tableIn} from './phrases.js';

const WORDS = {
  title: 'Plan a fair experiment',
  close: 'Close',
  intro: 'Free-hand against sleeve, decided before anybody drills: how many people and holes, who goes in which order, and which difference would matter.',
  who: 'Whom shall the result speak about?',
  kindClass: 'People like these: a class drills, everyone by both techniques',
  kindOne: 'One person: one operator drills many pairs of sites',
  people: 'People who drill',
  pairs: 'Pairs of sites',
  holes: 'Holes by each technique, of each person',
  difference: 'Difference that would matter, mm',
  differenceHelp: 'Mean entry error, free-hand against sleeve. Smaller differences may be real and still not matter.',
  order: 'In which order does a person drill?',
  switchOnce: 'One technique, then the other: simple to run',
  mixed: 'Both in short mixed runs: practice is shared more fairly',
  name: 'Name of the experiment',
  nameHelp: 'Stands in the file and on the sheet. May stay empty.',
  assumed: 'What the plan assumes',
  assumedHelp: 'Teaching values. A class of your own shows better ones: its report has them as spreads.',
  effect: 'Between people, SD of the change, mm',
  freehand: 'Same person, hole to hole, free-hand, SD, mm',
  sleeve: 'The same by sleeve, SD, mm',
  chance: 'Chance to find the difference',
  answer: 'What it takes',
  others: 'With other numbers of holes',
  othersHolds: 'holes by each technique',
  others80: 'people, your chance',
  others90: 'people, 90 %',
  cannot: 'What this cannot say',
  drawn: 'Who goes in which order',
  drawnHelp: 'Drawn by the seed, in runs of 2 or 4 of random length. F: free-hand, S: by sleeve. Enter the code names when the places are given out; then the Classroom sees whether the order was followed.',
  seed: 'Seed of the draw',
  seedHelp: 'The same seed gives the same orders. Draw once: drawing until it pleases is no draw.',
  place: 'place',
  operator: 'the operator',
  code: 'code name',
  codeFor: 'Code name at place',
  orderHead: 'order',
  save: 'Save the plan',
  sheet: 'Save the sheet to print',
  use: 'Use it for this class',
  saved: 'Saved. Give the file to the Classroom together with the attempts.',
  used: 'The class is now held against this plan.',
  notUsed: 'The plan could not be used:',
};

const CHANCES = [['0.8', '80 %'], ['0.9', '90 %'], ['0.95', '95 %']];
const WAIT_ms = 150;

const randomSeed = () => crypto.getRandomValues(new Uint32Array(1))[0];

const START = {
  title: '', kind: 'class', units: 12, holes_each: 5, scheme: 'switch-once', difference_mm: 0.5, sd_effect_mm: 0.4,
  sd_freehand_mm: 0.8, sd_sleeve_mm: 0.4, power: 0.8, codes: [],
};

/** A file name of a title. */
const fileName = title => (title.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '').slice(0, 60) || 'plan');

/**
 * Opens the dialog: {theme, say (words into the language), text: of an experiment file, codes: names that were
 * collected, use: takes the text of the plan and gives a sentence when it cannot be used; null where there is no class}.
 */
export async function openExperiment({theme, say = text => text, text = '', codes = [], use = null}) {
  const words = tableIn(say, WORDS);
  const core = await courseCore();
  const opened = text ? core.ask('read_experiment', text, 'plan') : null;
  const plan = {...START, seed: randomSeed(), ...(opened && !opened.error ? opened : {})};
  let answer = null;
  let timer = 0;

  const {body, foot} = openDialog({title: words.title, close: words.close, theme});
  const status = make('p', {role: 'status', 'aria-live': 'polite'});

  // --- The questions ---
  const number = (key, step, min, max) => make('input', {
    type: 'number', name: key, step, min, max, required: true, value: plan[key],
    on: {input: event => change(key, event.target.valueAsNumber)},
  });
  const radios = (key, entries) => make('div', {role: 'radiogroup'}, entries.map(([value, label]) =>
    make('label', {class: 'db-choice'}, make('input', {
      type: 'radio', name: key, value, checked: plan[key] === value, on: {change: () => change(key, value)},
    }), make('span', {text: label}))));
  const units = number('units', 1, 2, 500);
  const unitsField = field(words.people, units);
  const holesField = field(words.holes, number('holes_each', 1, 1, 50));
  const effectField = field(words.effect, number('sd_effect_mm', 'any', 0, 100));
  const order = make('fieldset', {class: 'db-card'}, make('legend', {text: words.order}),
    radios('scheme', [['switch-once', words.switchOnce], ['mixed', words.mixed]]));
  const seed = number('seed', 1, 0, Number.MAX_SAFE_INTEGER);
  const chance = make('select', {on: {change: event => change('power', Number(event.target.value))}},
    CHANCES.map(([value, label]) => make('option', {value, text: label, selected: Number(value) === plan.power})));
  body.append(paragraph(words.intro, 'muted'));
  if (opened?.error) body.append(paragraph(say(opened.error), 'error'));
  const questions = make('div');
  questions.append(
    make('fieldset', {class: 'db-card'}, make('legend', {text: words.who}),
      radios('kind', [['class', words.kindClass], ['one-operator', words.kindOne]])),
    make('div', {class: 'db-fields'}, unitsField, holesField,
      field(words.difference, number('difference_mm', 'any', 0.001, 100), words.differenceHelp)),
    order,
    make('details', {}, make('summary', {text: words.assumed}), paragraph(words.assumedHelp, 'muted'),
      make('div', {class: 'db-fields'}, effectField, field(words.freehand, number('sd_freehand_mm', 'any', 0.001, 100)),
        field(words.sleeve, number('sd_sleeve_mm', 'any', 0.001, 100)), field(words.chance, chance))));

  // --- The answer ---
  const result = make('div', {class: 'db-card', id: 'db-answer'});
  const orders = make('div');
  body.append(make('div', {class: 'db-two'}, questions, make('div', {}, make('h3', {text: words.answer}), result)),
    make('h3', {text: words.drawn}), paragraph(words.drawnHelp, 'muted'),
    make('div', {class: 'db-fields'}, field(words.seed, seed, words.seedHelp),
      field(words.name, make('input', {type: 'text', maxlength: 100, value: plan.title, on: {input: event => change('title', event.target.value)}}), words.nameHelp)),
    orders);
  const saving = [
    button(words.save, () => {
      saveFile(`${fileName(plan.title)}.experiment.json`, answer.file, 'application/json');
      status.textContent = words.saved;
    }, {primary: !use}),
    button(words.sheet, () => saveFile(`${fileName(plan.title)}.html`, core.text('sheet', answer.file), 'text/html')),
  ];
  if (use) {
    saving.unshift(button(words.use, () => {
      const trouble = use(answer.file);
      status.textContent = trouble ? `${words.notUsed} ${say(trouble)}` : words.used;
    }, {primary: true}));
  }
  foot.append(...saving, status);
  const names = make('datalist', {id: 'db-codes'}, codes.map(code => make('option', {value: code})));
  body.append(names);

  function change(key, value) {
    plan[key] = value;
    if (key === 'kind') showKind();
    clearTimeout(timer);
    timer = setTimeout(() => compute(key !== 'codes'), WAIT_ms);
  }

  function showKind() {
    const isClass = plan.kind === 'class';
    for (const node of [holesField, effectField, order]) node.hidden = !isClass;
    unitsField.firstChild.textContent = isClass ? words.people : words.pairs;
  }

  function showOrders() {
    const isClass = plan.kind === 'class';
    orders.replaceChildren(table([words.place, words.code, words.orderHead], answer.orders.map((one, i) => [
      isClass ? i + 1 : words.operator,
      make('input', {
        type: 'text', list: 'db-codes', maxlength: 100, value: plan.codes[i] ?? '', 'aria-label': `${words.codeFor} ${i + 1}`,
        autocomplete: 'off', spellcheck: 'false',
        on: {input: event => {
          plan.codes[i] = event.target.value.trim();
          change('codes', plan.codes);
        }},
      }),
      say(one),
    ])));
  }

  // With `isNew` the orders may be others; while code names are typed the table stays.
  function compute(isNew) {
    const places = plan.kind === 'class' ? plan.units : 1;
    const asked = {...plan, codes: Array.from({length: Math.min(places || 0, 500)}, (_, i) => plan.codes[i] ?? '')};
    answer = core.ask('plan', JSON.stringify(asked));
    for (const one of saving) one.disabled = Boolean(answer.error);
    for (const input of body.querySelectorAll('input[name]')) input.setAttribute('aria-invalid', String(input.name === answer.field));
    if (answer.error) {
      const label = body.querySelector(`input[name="${answer.field}"]`)?.closest('label')?.firstChild.textContent;
      result.replaceChildren(paragraph(`${label ? `${label}: ` : ''}${say(answer.error)}`, 'error'));
      return;
    }
    const [first, ...rest] = answer.sentences;
    const isShort = answer.needed !== null && plan.units < answer.needed;
    result.replaceChildren(paragraph(say(first), 'lead'), ...rest.map((one, i) => paragraph(say(one), i === 0 ? (isShort ? 'warn' : 'good') : 'muted')),
      answer.other_holes.length === 0 ? '' : make('details', {}, make('summary', {text: words.others}),
        table([words.othersHolds, words.others80, words.others90], answer.other_holes, [0, 1, 2])),
      make('h3', {text: words.cannot}), list(answer.limits.map(say)));
    if (isNew) showOrders();
  }

  showKind();
  compute(true);
  units.focus();
}
