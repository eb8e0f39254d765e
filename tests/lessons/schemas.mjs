// Shipped files satisfy the published JSON Schemas (draft-07), and spoiled ones do not.
// usage: node tests/lessons/schemas.mjs [ATTEMPT FILE...]    exit code 77: the package ajv is not installed
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
let Ajv;
try {
  ({ default: Ajv } = await import('ajv'));
} catch {
  console.log('schemas: skipped, the packages of tests/package.json are not installed');
  process.exit(77);
}

const read_json = (name) => JSON.parse(fs.readFileSync(path.resolve(root, name), 'utf8'));
const list = (folder, ending) => fs.readdirSync(path.join(root, folder)).filter((name) => name.endsWith(ending))
  .map((name) => `${folder}/${name}`);
const ajv = new Ajv({ allErrors: true, strict: true, strictTuple: false, strictRequired: false, strictTypes: false });
const validators = Object.fromEntries(['lesson', 'set', 'kit', 'specimen', 'operator', 'attempt', 'logbook', 'language', 'experiment', 'participation']
  .map((kind) => [kind, ajv.compile(read_json(`lessons/schema/${kind}.schema.json`))]));

let passed = 0;
const problems = [];
const note = (good, sentence) => { if (good) ++passed; else problems.push(sentence); };

function accept(kind, name) {
  const validate = validators[kind];
  note(validate(read_json(name)), `${name}: found ${ajv.errorsText(validate.errors)}, expected a valid ${kind}`);
}

list('lessons', '.lesson.json').forEach((name) => accept('lesson', name));
list('lessons/templates', '.lesson.json').forEach((name) => accept('lesson', name));
list('lessons', '.set.json').forEach((name) => accept('set', name));
list('assets/kits', '.kit.json').forEach((name) => accept('kit', name));
list('assets/specimens', '.specimen.json').forEach((name) => accept('specimen', name));
list('assets/languages', '.json').forEach((name) => accept('language', name));
list('assets/operators', '.json').forEach((name) => accept('operator', name));
// The examples of the authors' page.
for (const [, text] of fs.readFileSync(path.join(root, 'lessons/AUTHORING.md'), 'utf8').matchAll(/```json\n([^]*?)```/g)) {
  const example = JSON.parse(text);
  const kind = example.format.replace('driftbench-', '');
  note(validators[kind](example), `the ${kind} in lessons/AUTHORING.md: found ${ajv.errorsText(validators[kind].errors)}`);
}
note(validators.logbook({format: 'driftbench-logbook', version: 1, attempts: [{when: 'today', finished_days: 20000.5, attempt: '{}'}]}),
  'a logbook with one attempt: found a violation of the schema');
note(validators.participation({format: 'driftbench-participation', version: 1, lessons: [{id: 'a', attempts: 2, engaged_s: 9.5, result: 'met'}]}),
  'a participation record: found a violation of the schema');
process.argv.slice(2).forEach((name) => accept('attempt', name));
note(passed >= 3, `found ${passed} shipped files, expected a lesson, a kit and an operator at least`);

// Bad files of the corpus that are JSON at all. These rules lie between fields, out of reach of a schema:
const kBetweenFields = new Set(['order-not-drawn', 'other-seed', 'six-people-four-places', 'code-twice', 'place-twice', 'boundary-outside', 'key-too-narrow', 'key-too-wide-for-sleeve', 'key-without-drill',
  'lengths-out-of-order', 'same-id-twice', 'tip-does-not-fit', 'ends-too-early', 'steps-fall',
  'canal-outside-bone', 'implant-beside-bone', 'implant-longer-than-bone', 'margin-to-no-implant', 'margin-without-structure', 'other-implant-outside-bone',
  'other-implant-through-canal', 'other-implant-through-tooth', 'root-through-canal',
  'teeth-through-one-another', 'too-many-voxels', 'tooth-at-the-site', 'tooth-of-the-other-jaw', 'undercut-below-the-base',
  'upper-tooth-in-lower-region', 'same-lesson-twice', 'support-in-foam', 'support-index-on-teeth',
  'mix-unknown-block', 'prediction-unknown-block', 'mix-unequal-arms', 'criterion-rates-swapped', 'criterion-out-of-reach', 'criterion-more-than-last']);
// ... and these only a reader sees: JSON.parse keeps the last of two fields, and reads 1e999 as infinity.
const kReaderOnly = new Set(['duplicate-key', 'huge-number', 'deep', 'not-utf8']);
let refused = 0;
for (const kind of Object.keys(validators)) {
  if (['logbook', 'language', 'participation'].includes(kind)) continue;
  for (const name of list(`tests/corpus/${kind}`, '.json')) {
    const id = path.basename(name, '.json');
    let value;
    try {
      value = read_json(name);
    } catch {
      continue;
    }
    if (kReaderOnly.has(id)) continue;
    const is_valid = validators[kind](value);
    note(is_valid === kBetweenFields.has(id), `${name}: found ${is_valid ? 'valid' : ajv.errorsText(validators[kind].errors)}`
      + `, expected ${is_valid ? 'a violation of the schema' : 'only a rule between fields to be broken'}`);
    if (!is_valid) ++refused;
  }
}
note(refused >= 15, `found ${refused} refused corpus files, expected 15 or more`);

problems.forEach((problem) => console.log(problem));
console.log(`schemas: ${passed} passed, ${problems.length} failed`);
process.exitCode = problems.length === 0 ? 0 : 1;
