// Compact tables for a terminal: arms with their means, and every compared figure.
import { measures } from './arms.mjs';
import { mean, sd } from './numbers.mjs';

const pad = (cells, widths) => cells.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i]))).join('  ');

function table(rows) {
  const widths = rows[0].map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  return rows.map((row) => pad(row, widths).trimEnd()).join('\n');
}

export function arm_table(arms) {
  const rows = [['arm', 'n', 'no hole', 'entry mm', 'apex mm', 'angle deg', 'depth mm', 'SD', 'SD entry md', 'SD tilt md', 'oversize', 'time s', 'step s']];
  for (const arm of arms.values()) {
    if (arm.rows.length < 3 || /\/\d+$/.test(arm.name)) continue;
    const of = (name) => arm.rows.map(measures[name].of);
    const m = (name, digits) => mean(of(name)).toFixed(digits);
    rows.push([arm.name, String(arm.rows.length), String(arm.without_hole), m('entry_mm', 3), m('apex_mm', 3), m('angle_deg', 2), m('depth_mm', 2),
      sd(of('depth_mm')).toFixed(2), sd(of('entry_md_mm')).toFixed(2), sd(of('tilt_md_deg')).toFixed(2), m('oversize_mm', 4), m('time_s', 1), m('pressed_s', 2)]);
  }
  return table(rows);
}

export const number = (value) => (Math.abs(value) >= 100 ? value.toFixed(0) : value.toFixed(2));

export const interval_text = ([low, high]) => `${number(low)} to ${number(high)}`;

/// The published figure as the study prints it.
export function published_text({ range, mean: middle, sd: spread, value, words }) {
  if (words) return words;
  if (value !== undefined && range) return `${number(value)} (${interval_text(range)})`;
  if (range) return interval_text(range);
  if (middle !== undefined) return `${number(middle)} ± ${number(spread)}`;
  return number(value ?? spread);
}

export const model_text = (result) => {
  if (result.state === 'missing') return 'not simulated';
  return result.means ? result.means.map((value) => value.toFixed(Math.min(...result.means.map(Math.abs)) < 0.1 ? 4 : 2)).join(', ') : number(result.found);
};

export function comparison_table(results) {
  const rows = [['', 'model', 'published', 'band', '', '']];
  for (const result of results) {
    rows.push([`${result.row.what} (${result.row.study})`, model_text(result), published_text(result.row.published),
      result.band ? interval_text(result.band) : '', result.state, result.row.required ? 'required' : '']);
  }
  return table(rows);
}
