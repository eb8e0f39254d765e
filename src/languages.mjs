// Puts together what the pages need of assets/languages/ and of the texts by language in lessons and pieces of jaw.
//   node languages.mjs texts ROOT CODE OUT_FOLDER       app.CODE.json and desk.CODE.json, fetched on first use
//   node languages.mjs library ROOT OUT_FOLDER FILE...  the FILEs with their English texts alone, and `sums`
//
// CODE `long` is made from English: accented and 40 % longer, for tests of the layout. A lesson goes into the program
// without its other languages; `sums` holds the SHA-256 of the file as it stands in the folder, which attempts carry: of
// every lesson and of the pieces of jaw that lessons drill.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';

export const kFolder = 'assets/languages';
export const kTables = ['ui', 'classroom_ui'];
// Phrases of the page itself go to both programs; those of the Classroom to its own.
const kSections = { app: ['core', 'pages'], desk: ['core', 'pages', 'classroom'] };
const kLonger = 0.4;
const kAccented = { a: 'á', e: 'é', i: 'í', o: 'ö', u: 'ü', A: 'Á', E: 'É', I: 'Í', O: 'Ö', U: 'Ü' };

/** Name and English text of every row of a table, in order. */
export function readTable(root, table) {
  const text = readFileSync(path.join(root, 'src', table, 'strings_en.inc'), 'utf8');
  return [...text.matchAll(/^DRIFTBENCH_STRING\((k\w+), ("(?:[^"\\]|\\.)*")\)$/gm)].map(([, name, literal]) => ({ name, english: JSON.parse(literal) }));
}

/** As ui::hash_of_names(). */
export function hashOfNames(names) {
  let hash = 2166136261;
  for (const byte of Buffer.from(names.map((name) => `${name}\n`).join(''))) hash = Math.imul(hash ^ byte, 16777619);
  return hash >>> 0;
}

/** Which values a text shows: {} counts up, {n} names its own. Sorted, each once. */
export function fieldsOf(text) {
  let next = 0;
  const fields = [...text.matchAll(/\{(\d*)\}/g)].map(([, number]) => (number === '' ? next++ : Number(number)));
  return [...new Set(fields)].sort((a, b) => a - b).join(' ');
}

export function longer(text) {
  const parts = text.split(/(\{\d*\})/);
  const vowels = parts.filter((part) => !part.startsWith('{')).join('').match(/[aeiouAEIOU]/g)?.length ?? 0;
  if (vowels === 0) return text;
  let extra = Math.ceil(kLonger * text.replace(/\{\d*\}/g, '').length);
  let left = vowels;
  const lengthened = (part) => part.replace(/[aeiouAEIOU]/g, (vowel) => {
    const more = Math.ceil(extra / left);
    extra -= more;
    left -= 1;
    return kAccented[vowel] + kAccented[vowel.toLowerCase()].repeat(more);
  });
  return parts.map((part) => (part.startsWith('{') ? part : lengthened(part))).join('');
}

const isText = (value) => value !== null && typeof value === 'object' && !Array.isArray(value) && typeof value.en === 'string' &&
  Object.entries(value).every(([code, text]) => /^[a-z]{2}(-[A-Z]{2})?$/.test(code) && typeof text === 'string');

/** Calls use(text) with every text by language in a document. */
export function eachText(value, use) {
  if (isText(value)) use(value);
  else if (value !== null && typeof value === 'object') for (const inner of Object.values(value)) eachText(inner, use);
}

/** The files whose texts by language the program shows. */
export function courseFiles(root) {
  const within = (folder, ending) => readdirSync(path.join(root, folder)).filter((name) => ending.test(name)).sort().map((name) => `${folder}/${name}`);
  return [...within('lessons', /\.(lesson|set)\.json$/), ...within('assets/specimens', /\.specimen\.json$/)];
}

function coursePhrases(root, code) {
  const phrases = new Map();
  for (const file of courseFiles(root)) {
    eachText(JSON.parse(readFileSync(path.join(root, file), 'utf8')), (text) => {
      const own = code === 'long' ? longer(text.en) : text[code];
      if (own === undefined) return;
      if (phrases.has(text.en) && phrases.get(text.en) !== own) throw new Error(`${file}: "${text.en}" is said in two ways: "${own}" and "${phrases.get(text.en)}"`);
      phrases.set(text.en, own);
    });
  }
  return phrases;
}

/** The language file; that of the long language is made from the English one's neighbours. */
export function readLanguage(root, code) {
  if (code !== 'long') return JSON.parse(readFileSync(path.join(root, kFolder, `${code}.json`), 'utf8'));
  const all = readdirSync(path.join(root, kFolder)).filter((name) => /^[a-z]{2}\.json$/.test(name))
    .map((name) => JSON.parse(readFileSync(path.join(root, kFolder, name), 'utf8')));
  const made = { language: 'long', decimal: '.' };
  for (const table of kTables) made[table] = Object.fromEntries(readTable(root, table).map(({ name, english }) => [name, longer(english)]));
  for (const section of kSections.desk) {
    made[section] = Object.fromEntries(all.flatMap((one) => Object.keys(one[section] ?? {})).map((english) => [english, longer(english)]));
  }
  return made;
}

function textsFor(root, code, program) {
  const language = readLanguage(root, code);
  const texts = { format: 'driftbench-texts', version: 1, language: code, decimal: language.decimal, names: {} };
  for (const table of kTables) {
    const rows = readTable(root, table);
    texts.names[table] = hashOfNames(rows.map((row) => row.name));
    texts[table] = program === 'app' && table !== 'ui' ? [] : rows.map(({ name, english }) => {
      const own = language[table][name];
      if (own !== undefined && fieldsOf(own) !== fieldsOf(english)) throw new Error(`${kFolder}/${code}.json: ${table}.${name}: found the fields of "${own}", expected those of "${english}"`);
      return own ?? null;
    });
  }
  const phrases = coursePhrases(root, code);
  for (const section of kSections[program]) {
    for (const [english, own] of Object.entries(language[section])) phrases.set(english, own);
  }
  const letters = (english) => english.replaceAll('{}', '').length;
  texts.phrases = Object.fromEntries([...phrases].sort((a, b) => letters(b[0]) - letters(a[0])));
  return `${JSON.stringify(texts)}\n`;
}

function englishAlone(document) {
  const copy = structuredClone(document);
  eachText(copy, (text) => { for (const code of Object.keys(text)) if (code !== 'en') delete text[code]; });
  // Notes for teachers are read in the file and on the Lesson desk; a learner need not fetch them.
  if (copy.teacher_notes) copy.teacher_notes = { en: 'In the file.' };
  return copy;
}

function write(file, text) {
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, text);
}

const [what, root, ...rest] = process.argv.slice(2);
if (what === 'texts') {
  const [code, folder] = rest;
  for (const program of Object.keys(kSections)) write(path.join(folder, `${program}.${code}.json`), textsFor(root, code, program));
} else if (what === 'library') {
  const [folder, ...files] = rest;
  const all = new Map(files.map((file) => [file, readFileSync(path.join(root, file))]));
  const drilled = [...all].filter(([file]) => file.endsWith('.lesson.json')).flatMap(([, bytes]) => [...bytes.toString('utf8').matchAll(/"case": "([a-z0-9-]+)"/g)].map(([, id]) => `${id}.specimen.json`));
  let sums = '';
  for (const [file, bytes] of all) {
    if (file.endsWith('.lesson.json') || drilled.includes(path.basename(file))) sums += `${createHash('sha256').update(bytes).digest('hex')} ${file}\n`;
    write(path.join(folder, file), JSON.stringify(englishAlone(JSON.parse(bytes.toString('utf8')))));
  }
  write(path.join(folder, 'sums'), sums);
}
