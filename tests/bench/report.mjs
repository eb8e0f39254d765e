// Runs the measures that are asked for and prints their table; started by tests/bench/run.
import { parseArgs } from 'node:util';
import { frames } from './frames.mjs';
import { latency } from './latency.mjs';
import { busyness, failedRow, table } from './measure.mjs';
import { load, memory } from './page.mjs';
import { carve, classes, jaw, replay, step } from './simulation.mjs';

const kMeasures = { step, carve, jaw, class: classes, replay, load, memory, frames, latency };

const { values, positionals } = parseArgs({
  options: { build: { type: 'string' }, site: { type: 'string' }, rounds: { type: 'string' }, peers: { type: 'boolean', default: false } },
  allowPositionals: true,
});
const options = { ...values, rounds: Number(values.rounds) };

const rows = [];
const busy = [];
for (const name of positionals) {
  busy.push(busyness());
  console.error(`measuring: ${name} (load ${busy.at(-1).load.toFixed(1)})`);
  try {
    rows.push(...await kMeasures[name](options));
  } catch (failure) {
    rows.push(failedRow(name, failure.message.split('\n')[0]));
    process.exitCode = 1;
  }
}
busy.push(busyness());

console.log(table(rows));
const most = (name) => Math.max(...busy.map((each) => each[name])).toFixed(1);
const least = (name) => Math.min(...busy.map((each) => each[name])).toFixed(1);
console.log(`\nratio: how many times better than the budget. Load average ${least('load')} to ${most('load')}; work waited for a ` +
  `processor ${least('slowdown')} to ${most('slowdown')} times as long as on an idle machine.\n` +
  'Native programs and replay: processor time. node and the browser: elapsed time, longer on a busy machine.');
