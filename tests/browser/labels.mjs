// What a label on the screen is called in English, so that a walk written in English goes through every language.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { readTable } from '../../src/languages.mjs';
import { fillIn } from '../../web/phrases.js';
import { kRoot } from './lib.mjs';

const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A pattern of a language as an expression, and the English value that each of its groups is. */
function patternOf(own, english) {
  const order = [];
  let next = 0;
  const source = own.split(/\{(\d*)\}/).map((part, i) => {
    if (i % 2 === 0) return escaped(part);
    order.push(part === '' ? next++ : Number(part));
    return '(.+?)';
  }).join('');
  return { fits: new RegExp(`^${source}$`, 's'), order, english, letters: own.replace(/\{\d*\}/g, '').length };
}

/** A function from a label to all that it may be in English; `program` is app or desk. */
export function labelsOf(site, code, program = 'app') {
  const texts = JSON.parse(readFileSync(path.join(site, `${program}.${code}.json`), 'utf8'));
  const pairs = Object.entries(texts.phrases).map(([english, own]) => [own, english]);
  for (const table of ['ui', 'classroom_ui']) {
    const rows = readTable(kRoot, table);
    texts[table].forEach((own, i) => pairs.push([own ?? rows[i].english, rows[i].english]));
  }
  const whole = new Map();
  for (const [own, english] of pairs) if (!own.includes('{')) whole.set(own, [...(whole.get(own) ?? []), english]);
  const patterns = pairs.filter(([own]) => own.includes('{')).map(([own, english]) => patternOf(own, english)).sort((a, b) => b.letters - a.letters);
  const known = new Map();
  const find = (label, depth) => {
    if (whole.has(label)) return whole.get(label);
    if (/^\d+\D\d+$/.test(label)) return [label.replace(texts.decimal, '.')];
    if (depth > 3) return [label];
    const found = [];
    for (const { fits, order, english, letters } of patterns) {
      const groups = letters > 1 || depth === 0 ? fits.exec(label)?.slice(1) : null;
      if (!groups) continue;
      const values = [];
      groups.forEach((group, i) => { [values[order[i]]] = find(group, depth + 1); });
      found.push(fillIn(english, values));
      if (found.length > 3) break;
    }
    const colon = label.indexOf(': ');  // a button named after its lesson
    if (colon > 0) for (const first of find(label.slice(0, colon), depth + 1)) for (const last of find(label.slice(colon + 2), depth + 1)) found.push(`${first}: ${last}`);
    return [...found, label];
  };
  return (label) => {
    if (!known.has(label)) known.set(label, find(label, 0));
    return known.get(label);
  };
}
