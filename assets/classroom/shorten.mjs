// The invented class from a holes.csv, small enough to travel with the program: node shorten.mjs holes.csv > invented-class.csv
// Columns that the Classroom does not show go; lengths keep 3 decimals, angles 2, times 1.
import { readFileSync } from 'node:fs';

const kDecimals = { mm: 3, deg: 2, s: 1 };
const kDropped = /^(attempt_id|cohort|implant_through_guide|site|specimen|boundary_deg|apex_.*|tilt_.*)$/;
const [header, ...rows] = readFileSync(process.argv[2], 'utf8').trim().split('\r\n').map((line) => line.split(','));
const kept = header.map((name, i) => ({ name, i })).filter(({ name }) => !kDropped.test(name));
const shortened = (name, cell) => {
  const decimals = kDecimals[name.split('_').at(-1)];
  return decimals === undefined || cell === '' ? cell : String(Number(Number(cell).toFixed(decimals)));
};
const lines = [kept.map(({ name }) => name), ...rows.map((row) => kept.map(({ name, i }) => shortened(name, row[i])))];
process.stdout.write(lines.map((line) => `${line.join(',')}\r\n`).join(''));
