// The evidence report: simulates populations, holds them against published figures, writes the page.
// Started by tests/evidence.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { arms_of } from './arms.mjs';
import { compare } from './compare.mjs';
import { population_of } from './populations.mjs';
import { arm_table, comparison_table } from './summary.mjs';

const here = path.dirname(fileURLToPath(import.meta.url));
const read = (name) => JSON.parse(fs.readFileSync(path.join(here, name), 'utf8'));

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

fs.mkdirSync(options.work, { recursive: true });
const { populations } = read('populations.json');
const needed = populations.filter((each) => wanted(each.part) && (!values.quick || each.quick));
const made = [];
const arms = new Map();
for (const each of needed) {
  const population = await population_of(each, options, say);
  made.push(population);
  for (const [name, arm] of arms_of(population)) arms.set(name, arm);
}

const published = read('published.json');
const results = published.rows.filter((row) => wanted(row.part) || (row.part === 'time' && wanted('accuracy')))
  .map((row) => compare(row, arms, { widening: published.widening, is_quick: values.quick }));

console.log(arm_table(arms));
console.log();
console.log(comparison_table(results.filter((result) => !values.quick || result.state !== 'missing')));
const failures = results.filter((result) => result.row.required && result.state !== 'inside').map((result) => `${result.row.what}: ${result.state}`);
for (const { id, wanted: asked, rows, problem } of made) {
  if (problem) failures.push(`${id}: ${rows.length} of ${asked} attempts; ${problem}`);
}
console.log();
for (const failure of failures) console.log(`not met: ${failure}`);
const judged = results.filter((result) => result.state === 'inside' || result.state === 'outside');
console.log(`${judged.filter((result) => result.state === 'inside').length} of ${judged.length} figures inside their bands`);
process.exitCode = failures.length === 0 ? 0 : 1;
