// The form has every field of the schemas, with a name, and what it puts into a file is good. node form_test.mjs TOOL
import assert from 'node:assert/strict';
import { beginningOf } from '../../web/lesson_desk/beginnings.js';
import { formOf, namesFor, placesShown } from '../../web/lesson_desk/layout.js';
import { withValue } from '../../web/lesson_desk/project.js';
import { fieldsOf, meaning, placesOf, plainName, rangeOf, smallest, unitOf, usualValue } from '../../web/lesson_desk/schema.js';
import { allWords, hasWord, say } from '../../web/lesson_desk/words.js';
import { checkFiles, namesIn, readJson, runCases, sentences } from './lib.mjs';

const schemas = { lesson: readJson('lessons/schema/lesson.schema.json'), set: readJson('lessons/schema/set.schema.json') };
const lesson = readJson('lessons/same-hand-two-approaches.lesson.json');
const kELSEWHERE = new Set(['lesson.blocks', 'set.lessons', 'entry.file']);
const known = { kits: namesIn('assets/kits', '.json').map(readJson), cases: namesIn('assets/specimens', '.json').map(readJson),
  operators: namesIn('assets/operators', '.json').map(readJson) };
const places = [...placesOf(schemas.lesson), ...placesOf(schemas.lesson, 'block'), ...placesOf(schemas.set), ...placesOf(schemas.set, 'entry')];

/** A value that has every optional object in it, so that the form shows what lies inside. */
function full(node, schema) {
  const value = smallest(node, schema);
  for (const field of fieldsOf(node, schema)) {
    if (field.kind === 'group') value[field.name] = full(field.node, schema);
    if (field.kind === 'list') value[field.name] = [full(field.node.items, schema)];
  }
  return value;
}

await runCases({
  'every field of lesson, block, set and entry has its place in a form': () => {
    const block = full(schemas.lesson.definitions.block, schemas.lesson);
    const inBlock = (specimen) => [...placesShown(schemas.lesson, 'lesson', { blocks: [{ ...block, specimen }] }, ['blocks', 0], schemas.lesson.definitions.block)];
    const shown = new Set([...inBlock({ case: 'x' }), ...inBlock({ id: 'x', halves: { first: 'D1' } }),
      ...placesShown(schemas.lesson, 'lesson', full(schemas.lesson, schemas.lesson), [], schemas.lesson),
      ...placesShown(schemas.set, 'set', full(schemas.set, schemas.set), [], schemas.set),
      ...placesShown(schemas.set, 'entry', full(schemas.set.definitions.entry, schemas.set), [], schemas.set.definitions.entry)]);
    assert.deepEqual(places.filter((place) => !shown.has(place) && !kELSEWHERE.has(place)), []);
    assert.ok(places.length > 90);
  },
  'every field and choice has words, and no words are left over': () => {
    assert.deepEqual(places.filter((place) => !hasWord(`field.${place}`) && !kELSEWHERE.has(place)), []);
    const known_places = new Set(places);
    const of_key = (key) => key.split('.').slice(1).join('.');
    const stray = Object.keys(allWords()).filter((key) => /^(field|help)\./.test(key) && !known_places.has(of_key(key)));
    assert.deepEqual(stray, []);
    const choices = [];
    const visit = (node, schema, at) => fieldsOf(node, schema).forEach((field) => {
      const place = `${at}.${field.name}`;
      (field.node.enum ?? field.node.items?.enum ?? []).forEach((word) => choices.push(`word.${place}.${word}`));
      if (field.kind === 'group') visit(field.node, schema, place);
    });
    visit(schemas.lesson, schemas.lesson, 'lesson');
    visit(schemas.lesson.definitions.block, schemas.lesson, 'block');
    visit(schemas.set.definitions.entry, schemas.set, 'entry');
    assert.deepEqual(choices.filter((key) => !hasWord(key)), []);
  },
  'fields show where they mean something, and always when something is wrong there': () => {
    const rows = (change, isAsked = () => false) => formOf({
      form: 'lesson', at: 0, root: { ...lesson, blocks: [{ ...lesson.blocks[0], ...change }] }, start: ['blocks', 0], schema: schemas.lesson,
      node: schemas.lesson.definitions.block, names: namesFor(lesson, known, (text) => text?.en), showAll: false, isAsked,
    }).flatMap(({ fields }) => fields.map(({ place }) => place));
    assert.ok(!rows({}).includes('block.guide'));
    assert.ok(rows({ approach: 'pilot' }).includes('block.guide'));
    assert.ok(!rows({}).includes('block.estimate_every') && rows({ estimate: 'every-nth' }).includes('block.estimate_every'));
    assert.ok(!rows({}).includes('block.specimen.voxel_mm'));
    assert.ok(rows({}, (form, at, words) => words === 'blocks[0].specimen.voxel_mm').includes('block.specimen.voxel_mm'));
    assert.ok(rows({ specimen: { case: 'x' } }).includes('block.specimen.case') && !rows({ specimen: { case: 'x' } }).includes('block.specimen.halves'));
  },
  'a form bears values of the wrong kind': () => {
    for (const wrong of [null, 3, 'x', [], {}]) {
      for (const root of [wrong, { ...lesson, blocks: wrong, tolerance: wrong, objectives: wrong, criterion: wrong, order: wrong }]) {
        formOf({ form: 'lesson', at: 0, root, schema: schemas.lesson, node: schemas.lesson, names: namesFor(root, known, (text) => text?.en), showAll: true, isAsked: () => false });
      }
      const root = { ...lesson, blocks: [{ ...lesson.blocks[0], specimen: wrong, plan: wrong, guide: wrong, title: wrong }] };
      formOf({ form: 'lesson', at: 0, root, start: ['blocks', 0], schema: schemas.lesson, node: schemas.lesson.definitions.block, names: namesFor(root, known, (text) => text?.en), showAll: true, isAsked: () => false });
    }
  },
  'what an optional part begins with is good': () => {
    const about = { known, lesson };
    const put = (name, path, value) => [`${name}.lesson.json`, JSON.stringify(withValue({ ...lesson, id: name }, path, value))];
    const begin = (place) => beginningOf(place, about);
    const files = Object.fromEntries([
      put('a', ['criterion'], begin('lesson.criterion')), put('b', ['order'], begin('lesson.order')), put('c', ['device'], begin('lesson.device')),
      put('d', ['blocks', 0, 'feedback'], begin('block.feedback')), put('e', ['blocks', 0, 'show'], begin('block.show')),
      put('f', ['blocks', 1, 'guide'], begin('block.guide')), put('h', ['prediction'], begin('lesson.prediction')), put('i', ['blocks', 0, 'worked_example'], begin('block.worked_example')),
      put('g', ['blocks', 0, 'specimen'], begin('block.specimen.foam')),
    ]);
    assert.deepEqual(sentences(checkFiles(files)), []);
    assert.deepEqual(begin('entry.retention'), { after_days: 7 });
    assert.equal(begin('lesson.nothing'), undefined);
    assert.equal(begin('block.specimen.jaw').case, known.cases[0].id);
  },
  'ranges, units and usual values are the schema’s': () => {
    assert.equal(rangeOf({ minimum: 3, maximum: 20 }, 'depth_mm'), '3 to 20 mm');
    assert.equal(rangeOf({ minimum: 0, maximum: Number.MAX_SAFE_INTEGER }), '0 to 2^53 − 1');
    assert.equal(usualValue('edge of the cube, default 25.4'), '25.4');
    assert.equal(meaning('edge of the cube, default 25.4'), 'edge of the cube');
    assert.equal(unitOf('support_stiffness_n_per_mm'), 'N/mm');
    assert.equal(plainName('band_share'), 'Band share');
    assert.equal(plainName('gap_mm'), 'Gap');
    assert.equal(say('problems', 3), '3 to mend');
  },
});
