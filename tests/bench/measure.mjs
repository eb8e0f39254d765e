// What the measures share: running programs, medians, rows of the table.
import { execFile } from 'node:child_process';
import { loadavg } from 'node:os';
import { promisify } from 'node:util';

const run = promisify(execFile);

export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** Runs a program `rounds` times; gives the median of each value that it prints as a line `name value`. */
export async function medians(words, rounds) {
  const values = {};
  for (let i = 0; i < rounds; i += 1) {
    const { stdout } = await run(words[0], words.slice(1));
    for (const line of stdout.trim().split('\n')) {
      const [name, value] = line.split(' ');
      (values[name] ??= []).push(Number(value));
    }
  }
  return Object.fromEntries(Object.entries(values).map(([name, list]) => [name, median(list)]));
}

/** Runs a program `rounds` times; gives the median elapsed and processor time in seconds. */
export async function times(words, rounds) {
  const elapsed = [];
  const processor = [];
  for (let i = 0; i < rounds; i += 1) {
    const { stderr } = await run('bash', ['-c', 'TIMEFORMAT="%R %U %S"; time "$@" > /dev/null', 'bash', ...words],
      { env: { ...process.env, LC_ALL: 'C' } });
    const [real, user, system] = stderr.trim().split('\n').at(-1).split(' ').map(Number);
    elapsed.push(real);
    processor.push(user + system);
  }
  return { elapsed_s: median(elapsed), processor_s: median(processor) };
}

/** How many times longer than alone this process waits for a processor, and the load average. */
export function busyness() {
  const begin = process.hrtime.bigint();
  const before = process.cpuUsage();
  let used_us = 0;
  while (used_us < 300000) {
    const { user, system } = process.cpuUsage(before);
    used_us = user + system;
  }
  const elapsed_us = Number(process.hrtime.bigint() - begin) / 1000;
  return { slowdown: Math.max(1, elapsed_us / used_us), load: loadavg()[0] };
}

const digits = (value) => (value >= 100 ? value.toFixed(0) : value.toPrecision(3));

/** One row. `budget` is a largest value unless `atLeast`; without one the row only informs. */
export function row(what, value, unit, { budget, atLeast = false, note = '' } = {}) {
  if (!Number.isFinite(value)) throw new Error(`${what}: no value`);
  const headroom = budget === undefined ? undefined : atLeast ? value / budget : budget / value;
  return {
    what,
    measured: `${digits(value)} ${unit}`,
    budget: budget === undefined ? '' : `${atLeast ? '>=' : '<='} ${budget} ${unit}`,
    ratio: headroom === undefined ? '' : headroom.toFixed(2),
    verdict: headroom === undefined ? '' : headroom >= 1 ? 'pass' : 'missed',
    note,
  };
}

/** A row for a measure that could not be made. */
export function failedRow(what, reason) {
  return { what, measured: '', budget: '', ratio: '', verdict: 'failed', note: reason };
}

/** The table as text. */
export function table(rows) {
  const columns = ['what', 'measured', 'budget', 'ratio', 'verdict', 'note'];
  const all = [Object.fromEntries(columns.map((name) => [name, name])), ...rows];
  const widths = columns.map((name) => Math.max(...all.map((each) => each[name].length)));
  return all.map((each) => columns.map((name, i) => each[name].padEnd(widths[i])).join('  ').trimEnd()).join('\n');
}
