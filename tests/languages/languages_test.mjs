// Every language against English: node languages_test.mjs. Names, fields and phrases of assets/languages/*.json, the texts of
// lessons and pieces of jaw, the sentences of the core, and what src/languages.mjs makes of them.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { courseFiles, eachText, fieldsOf, hashOfNames, kFolder, kTables, longer, readTable } from '../../src/languages.mjs';
import { fillIn, makeBook } from '../../web/phrases.js';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const read = (name) => readFileSync(path.join(root, name), 'utf8');
const problems = [];
const check = (good, sentence) => { if (!good) problems.push(sentence); };
const codes = readdirSync(path.join(root, kFolder)).filter((name) => name.endsWith('.json')).map((name) => name.slice(0, -5));
const languageOf = (code) => JSON.parse(read(`${kFolder}/${code}.json`));

/** What a language lacks or has wrong against the rows of a table. */
function tableProblems(rows, own, where) {
  const found = [];
  for (const { name, english } of rows) {
    if (typeof own[name] !== 'string' || own[name] === '') found.push(`${where}: no ${name}, expected it for "${english}"`);
    else if (fieldsOf(own[name]) !== fieldsOf(english)) found.push(`${where}: ${name}: the fields of "${own[name]}" are not those of "${english}"`);
  }
  for (const name of Object.keys(own)) {
    if (!rows.some((row) => row.name === name)) found.push(`${where}: ${name} is no name of a text`);
  }
  return found;
}

function phraseProblems(phrases, where) {
  return Object.entries(phrases).filter(([english, own]) => own === '' || fieldsOf(own) !== fieldsOf(english))
    .map(([english, own]) => `${where}: the fields of "${own}" are not those of "${english}"`);
}

function everyLanguageIsComplete() {
  check(codes.length > 0, `${kFolder}/: found no language`);
  for (const code of codes) {
    const language = languageOf(code);
    check(language.format === 'driftbench-language' && language.version === 1 && language.language === code, `${kFolder}/${code}.json: found other first fields than expected`);
    for (const table of kTables) problems.push(...tableProblems(readTable(root, table), language[table], `${kFolder}/${code}.json: ${table}`));
    for (const section of ['core', 'pages', 'classroom']) problems.push(...phraseProblems(language[section], `${kFolder}/${code}.json: ${section}`));
    for (const file of courseFiles(root)) {
      eachText(JSON.parse(read(file)), (text) => check(typeof text[code] === 'string' && text[code] !== '', `${file}: no "${code}" for "${text.en}"`));
    }
  }
}

function theCheckFindsWhatIsWrong() {
  const rows = [{ name: 'kA', english: '{} mm {}' }, { name: 'kB', english: 'Go' }];
  check(tableProblems(rows, { kA: '{1} mm {0}', kB: 'Los' }, '').length === 0, 'fields may change places');
  check(tableProblems(rows, { kA: '{} mm', kB: 'Los' }, '').length === 1, 'a lost field is found');
  check(tableProblems(rows, { kA: '{} mm {}' }, '').length === 1, 'a missing text is found');
  check(tableProblems(rows, { kA: '{} mm {}', kB: 'Los', kC: '' }, '').length === 1, 'an extra name is found');
  check(phraseProblems({ 'a {}': 'ein' }, '').length === 1, 'a phrase that loses its field is found');
}

/** Same languages in the program, in the page and in the folder. */
function allKnowTheSameLanguages() {
  const rows = [...read('src/ui/language.h').matchAll(/\{"(\w+)", "([^"]+)"\}/g)].map(([, code, name]) => [code, name]);
  const page = read('web/language.js').match(/LANGUAGES = \[([^\]]*)\]/)[1].match(/\w+/g);
  check(String(rows.map(([code]) => code)) === String(page), `src/ui/language.h has ${rows.map(([code]) => code)}, web/language.js ${page}`);
  check(String(['en', ...codes].sort()) === String([...page].sort()), `${kFolder}/ has ${codes}, web/language.js ${page}`);
  for (const code of codes) check(rows.some(([own, name]) => own === code && name === languageOf(code).name), `src/ui/language.h: another name for ${code} than languages/${code}.json`);
}

// Source text whose sentences people read on the screen; what only the command line says is not among them.
const kCore = ['base', 'geometry', 'specimen', 'scoring', 'lesson', 'record', 'session', 'classroom'];
// Files and literals that nobody reads on the screen: sources of parameters, what is saved or printed, words of a parser.
const kNotShown = [/jaw_sources\.cpp/, /(report|methods|codebook|tables|columns|summary_json|outputs|svg|experiment_sheet|participation)\.(cpp|h)/,
  /virtual_operator|operator_|implant_operator/, /json_parser\.cpp/];
const kNotSaid = [/^found [a-z, ]+ out of range/, /^own assumption/, /^typical text figure/, /^(missing closing quote|invalid string|invalid number|number overflow|; last read)/,
  /^Driftbench turn-in of /, /^driftbench /];

/** Literals with at least two words of a source text; neighbours are one; printf-like fields become {}. */
export function sentencesOf(text) {
  const bare = text.replace(/\/\/.*$/gm, '').replace(/^#include.*$/gm, '');
  return [...bare.matchAll(/"(?:[^"\\\n]|\\.)*"(?:\s*"(?:[^"\\\n]|\\.)*")*/g)]
    .map(([all]) => [...all.matchAll(/"((?:[^"\\\n]|\\.)*)"/g)].map(([, part]) => part).join(''))
    .map((literal) => { try { return JSON.parse(`"${literal}"`); } catch { return ''; } })
    .map((sentence) => sentence.replace(/\{:[^}]*\}/g, '{}').trim())
    .filter((sentence) => /[a-z]{2,} [a-z]{2,}/.test(sentence));
}

function theCoreIsInThePhraseBook() {
  for (const code of codes) {
    const language = languageOf(code);
    const known = Object.keys({ ...language.core, ...language.classroom, ...language.pages });
    // A part of a sentence that the code puts together counts when a phrase holds it; {} in code may stand for words there.
    const isKnown = (sentence) => {
      const part = sentence.replace(/^[.",;: ]+|["]+$/g, '').trim();
      const fits = new RegExp(part.split('{}').map((text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('.*?'));
      return known.some((phrase) => phrase.includes(part) || fits.test(phrase));
    };
    for (const layer of kCore) {
      for (const name of readdirSync(path.join(root, 'src', layer)).filter((one) => /\.(cpp|h)$/.test(one) && !kNotShown.some((not) => not.test(one)))) {
        for (const sentence of sentencesOf(read(`src/${layer}/${name}`))) {
          if (kNotSaid.some((not) => not.test(sentence)) || isKnown(sentence)) continue;
          check(false, `src/${layer}/${name}: ${kFolder}/${code}.json has no phrase for "${sentence}"`);
        }
      }
    }
  }
}

function aBookFindsPatterns() {
  const say = makeBook({ decimal: ',', phrases: {
    '{}: found {}, expected {}': '{}: gefunden: {}, erwartet: {}', 'The {} is {} mm long.': '{1} mm lang: {0}.', '{} to {}': '{} bis {}', drill: 'Bohrer', 'All is well.': 'Alles gut.' } });
  const pairs = {
    1.5: '1,5', 'x 1.5': 'x 1.5', drill: 'Bohrer', 'The drill is 2.5 mm long.': '2,5 mm lang: Bohrer.',
    'a.json:1:2: b.c: found 3.5, expected 1 to 2.5': 'a.json:1:2: b.c: gefunden: 3,5, erwartet: 1 bis 2,5',
    'All is well. The drill is 2 mm long.': 'Alles gut. 2 mm lang: Bohrer.', '1 to 3': '1 bis 3', 'Listen to your hand': 'Listen to your hand', unknown: 'unknown',
  };
  for (const [english, own] of Object.entries(pairs)) check(say(english) === own, `"${english}" became "${say(english)}", expected "${own}"`);
  check(fillIn('{1} {0} {7}', ['a', 'b']) === 'b a {7}', 'a field without a value stays');
}

function longTextsAreLonger() {
  for (const table of kTables) {
    for (const { name, english } of readTable(root, table)) {
      const long = longer(english);
      check(fieldsOf(long) === fieldsOf(english), `${name}: longer() changed the fields`);
      if (/[aeiou]/i.test(english.replace(/\{\d*\}/g, ''))) check(long.length >= 1.4 * english.replace(/\{\d*\}/g, '').length, `${name}: "${long}" is not 40 % longer`);
    }
  }
}

/** A shipped file goes into the program with its English texts; its sum is that of the whole file. */
function filesAreEmbeddedInEnglish() {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'driftbench-languages-'));
  try {
    execFileSync(process.execPath, [path.join(root, 'src/languages.mjs'), 'library', root, folder, ...courseFiles(root)]);
    const sums = readFileSync(path.join(folder, 'sums'), 'utf8');
    check(/ assets\/specimens\/lower-46-low-crest\.specimen\.json\n/.test(sums), 'no sum of a piece of jaw that a lesson drills');
    for (const file of courseFiles(root)) {
      const sum = createHash('sha256').update(read(file)).digest('hex');
      if (file.endsWith('.lesson.json') || sums.includes(` ${file}\n`)) check(sums.includes(`${sum} ${file}\n`), `${file}: the sum kept is not that of the file`);
      const made = JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
      const whole = JSON.parse(read(file));
      // Notes for teachers stay in the file.
      if (whole.teacher_notes) check(made.teacher_notes.en !== whole.teacher_notes.en, `${file}: found the notes for teachers`);
      delete whole.teacher_notes;
      delete made.teacher_notes;
      const texts = [];
      eachText(whole, (text) => texts.push(text.en));
      eachText(made, (text) => check(String(Object.keys(text)) === 'en' && text.en === texts.shift(), `${file}: found another text than the English one`));
      check(texts.length === 0, `${file}: a text was lost`);
    }
    for (const code of [...codes, 'long']) {
      execFileSync(process.execPath, [path.join(root, 'src/languages.mjs'), 'texts', root, code, folder]);
      const texts = JSON.parse(readFileSync(path.join(folder, `app.${code}.json`), 'utf8'));
      check(texts.ui.length === readTable(root, 'ui').length && texts.language === code, `app.${code}.json: found another number of texts`);
      check(texts.names.ui === hashOfNames(readTable(root, 'ui').map(({ name }) => name)), `app.${code}.json: another sum of names`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

for (const test of [everyLanguageIsComplete, theCheckFindsWhatIsWrong, allKnowTheSameLanguages, theCoreIsInThePhraseBook, aBookFindsPatterns, longTextsAreLonger, filesAreEmbeddedInEnglish]) test();
for (const problem of problems) console.log(problem);
console.log(`languages: ${problems.length === 0 ? 'ok' : `${problems.length} problems`}`);
process.exitCode = problems.length === 0 ? 0 : 1;
