// The evidence report: simulates populations, holds them against published figures, writes the page.
// Started by tests/evidence.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { arms_of, sample_of } from './arms.mjs';
import { compare } from './compare.mjs';
import { core_tables, judge_convergence, judge_cutting } from './core_tables.mjs';
import { cutting_figure, foam_figure, forest, gap_figure, practice_figure, targets } from './figures.mjs';
import { evidence_page } from './page.mjs';
import { population_of } from './populations.mjs';
import { arm_table, comparison_table } from './summary.mjs';

const here = path.dirname(fileURLToPath(import.meta.url));
const read = (name) => JSON.parse(fs.readFileSync(path.join(here, name), 'utf8'));
const kPartOf = { 'uniform/novice': 'accuracy', 'two-density/novice': 'boundary', 'jaw/novice': 'jaw' };
const kCoreParts = ['cutting', 'convergence'];

const { values } = parseArgs({
  options: {
    program: { type: 'string' }, core: { type: 'string' }, out: { type: 'string' }, count: { type: 'string' },
    quick: { type: 'boolean', default: false }, keep: { type: 'boolean', default: false },
    only: { type: 'string', multiple: true }, seed: { type: 'string' }, operators: { type: 'string' },
  },
});
const root = path.resolve(here, '../..');
const options = {
  ...values,
  root,
  count: Number(values.count ?? (values.quick ? 40 : 500)),
  operators: values.operators ?? path.join(root, 'assets/operators'),
  work: path.join(values.out, 'populations'),
};
const wanted = (part) => (values.only ? values.only.includes(part) : true);
const say = (text) => process.stderr.write(`evidence: ${text}\n`);

/// Pictures of everything that was simulated: [file, caption, text].
function draw(data) {
  const { results, arms, cutting } = data;
  const figures = [];
  const of = (part, test) => results.filter(({ row, interval }) => row.part === part && interval && test(row));
  const add_forest = (file, caption, rows, unit) => rows.length > 0 && figures.push([file, caption, forest(rows, published.studies, caption, unit)]);
  const in_mm = (row) => row.model.kind !== 'ratio' && row.model.measure.endsWith('_mm');
  const in_deg = (row) => row.model.kind !== 'ratio' && row.model.measure.endsWith('_deg');
  for (const [part, who] of [['accuracy', 'novices'], ['operators', 'trained and expert operators']]) {
    add_forest(`${part}-mm.svg`, `Distances from the plan, ${who}`, of(part, in_mm), 'mm');
    add_forest(`${part}-deg.svg`, `Angles from the planned axis, ${who}`, of(part, in_deg), 'degrees');
    add_forest(`${part}-ratio.svg`, `Free-hand : full guidance, ${who}`, of(part, (row) => row.model.kind === 'ratio'), 'ratio');
  }
  for (const [population, where, file, caption, hint] of [
    ['uniform/novice', 'entry', 'uniform-entry.svg', 'Entries in even foam, novices', 'Right: md. Up: bl.'],
    ['uniform/novice', 'apex', 'uniform-apex.svg', 'Floors in even foam, novices', 'Right: md. Up: bl.'],
    ['two-density/novice', 'entry', 'two-density-entry.svg', 'Entries on the seam, novices', 'Right: md, into the soft half. Up: bl, along the seam.'],
    ['two-density/novice', 'apex', 'two-density-apex.svg', 'Floors on the seam, novices', 'Right: md, into the soft half. Up: bl, along the seam.'],
    ['jaw/novice', 'entry', 'jaw-entry.svg', 'Entries on the crest of a jaw, novices', 'Right: distal. Up: lingual.'],
    ['jaw/novice', 'apex', 'jaw-apex.svg', 'Floors in a jaw, novices', 'Right: distal. Up: lingual.'],
  ]) {
    if (wanted(kPartOf[population]) && sample_of(arms, `${population}/freehand`, 'entry_mm'))
      figures.push([file, caption, targets(arms, population, caption, where, `${hint} Grey rings 1 mm apart; dashed ring: the plan. At most 250 holes are drawn.`)]);
  }
  const seen = published.rows.filter((row) => row.part === 'gap' && row.published.mean !== undefined)
    .map((row) => [Number(row.model.arms[0].slice(4, 5)), row.published.mean, row.published.sd]);
  if (sample_of(arms, 'gap-2/novice/sleeve', 'angle_deg'))
    figures.push(['gap.svg', 'Full guidance: angle against the gap under the sleeve', gap_figure(arms, [2, 4, 6], seen)]);
  const grades = [['foam-d4', 0.16], ['foam-d3', 0.32], ['foam-d2', 0.48], ['foam-d1', 0.64]].map(([id, density]) => ({ arm: `${id}/novice/freehand`, density }));
  if (sample_of(arms, 'foam-d4/novice/freehand', 'oversize_mm')) figures.push(['foam.svg', 'Hole wider than the drill, by foam density', foam_figure(arms, grades)]);
  if (arms.has('practice/novice/freehand/1')) {
    figures.push(['practice-apex.svg', 'Apex error by attempt', practice_figure(arms, 'apex_mm', 'Apex error by attempt', 'apex, mm')]);
    figures.push(['practice-angle.svg', 'Angle by attempt', practice_figure(arms, 'angle_deg', 'Angle by attempt', 'angle, degrees')]);
    figures.push(['practice-time.svg', 'Time by attempt', practice_figure(arms, 'time_s', 'Time by attempt', 'time, s')]);
  }
  if (cutting.length > 0) {
    figures.push(['cutting-thrust.svg', 'Thrust in cortical bone, 3.2 mm, 2 mm/s', cutting_figure(cutting, 'thrust_n', 'Thrust in cortical bone, 3.2 mm, 2 mm/s', 'thrust, N')]);
    figures.push(['cutting-torque.svg', 'Torque in cortical bone, 3.2 mm, 2 mm/s', cutting_figure(cutting, 'torque_nmm', 'Torque in cortical bone, 3.2 mm, 2 mm/s', 'torque, N·mm')]);
  }
  return figures;
}

fs.mkdirSync(options.work, { recursive: true });
const published = read('published.json');
const needed = read('populations.json').populations.filter((each) => each.parts.some(wanted) && (!values.quick || each.quick));
const made = [];
const arms = new Map();
for (const each of needed) {
  const population = await population_of(each, options, say);
  made.push(population);
  for (const [name, arm] of arms_of(population)) arms.set(name, arm);
}
const results = published.rows.filter((row) => wanted(row.part))
  .map((row) => compare(row, arms, { widening: published.widening, is_quick: values.quick }))
  .filter((result) => !values.quick || result.state !== 'missing');
const tables = kCoreParts.some(wanted) ? core_tables(values.core, options.work, say) : null;
const cutting = tables && wanted('cutting') ? judge_cutting(tables, published) : [];
const convergence = tables && wanted('convergence') ? judge_convergence(tables, published) : [];

// What decides the exit code: every required figure, and that every population was simulated to its end.
const problems = made.filter(({ problem }) => problem).map(({ id, wanted: asked, rows, problem }) => `${id}: ${rows.length} of ${asked} attempts; ${problem}`);
const checks = [
  ...results.filter(({ row }) => row.required).map(({ row, state }) => ({ good: state === 'inside', words: `${row.what}: ${state}` })),
  ...cutting.flatMap(({ id, judged }) => Object.entries(judged).filter(([, each]) => each.required)
    .map(([key, each]) => ({ good: each.inside, words: `${id}, ${key}: outside` }))),
  ...convergence.filter(({ required }) => required)
    .map((row) => ({ good: row.state === 'inside', words: `convergence, ${row.id}, ${row.finer.id}: ${(row.beyond ?? ['depth not reached']).join(', ')}` })),
  ...made.map(({ id, problem }) => ({ good: !problem, words: problems.find((each) => each.startsWith(`${id}:`)) })),
];

const data = { results, arms, made, published, tables, cutting, convergence, problems, count: options.count, seed: values.seed, is_quick: values.quick };
const figures = draw(data);
for (const name of fs.readdirSync(values.out)) if (name.endsWith('.svg')) fs.rmSync(path.join(values.out, name));
for (const [file, , text] of figures) fs.writeFileSync(path.join(values.out, file), text);
fs.writeFileSync(path.join(values.out, 'evidence.md'), evidence_page({ ...data, figures }));

if (made.length > 0) console.log(`${arm_table(arms)}\n\n${comparison_table(results)}\n`);
for (const { published: row, model, judged } of cutting) {
  console.log(`${row.id}: thrust ${model.thrust_n.toFixed(0)} N (${row.thrust_n[0]}) ${judged.thrust_n.inside ? 'inside' : 'outside'}, `
    + `torque ${model.torque_nmm.toFixed(0)} N mm (${row.torque_nmm[0]}) ${judged.torque_nmm.inside ? 'inside' : 'outside'}`);
}
for (const row of convergence) {
  const change = row.change && Object.entries(row.change).map(([key, value]) => `${key} ${value.toFixed(3)}`).join('  ');
  console.log(`convergence ${row.id}, ${row.finer.id}: ${change ?? 'depth not reached'}  ${row.state}${row.required ? '  required' : ''}`);
}
const failures = checks.filter(({ good }) => !good);
for (const { words } of failures) console.log(`not met: ${words}`);
const judged = results.filter((result) => result.state === 'inside' || result.state === 'outside');
console.log(`${judged.filter((result) => result.state === 'inside').length} of ${judged.length} figures inside their bands; page: ${path.join(values.out, 'evidence.md')}`);
console.log(`${checks.length - failures.length} passed, ${failures.length} failed`);
process.exitCode = failures.length === 0 ? 0 : 1;
