// What lies on the Lesson desk: lessons and blocks added, moved, renamed, removed; undo; drafts. node project_test.mjs TOOL
import assert from 'node:assert/strict';
import { makeDrafts } from '../../web/lesson_desk/drafts.js';
import { makeHistory } from '../../web/lesson_desk/history.js';
import * as p from '../../web/lesson_desk/project.js';
import { checkFiles, namesIn, readJson, runCases, sentences } from './lib.mjs';

const lesson = (name) => readJson(`lessons/${name}.lesson.json`);
const set = readJson('lessons/guided-work.set.json');
const always = () => 0.5;
const words = { title: 'My set', introduction: 'In order.', notes: 'None.' };
const pair = () => p.copyOfLesson(readJson('lessons/templates/paired-experiment.lesson.json'), { isTemplate: true, random: always });
const project = () => ({
  set: p.newSet(words, always), extras: [],
  items: [{ entry: {}, lesson: pair() }, { entry: { file: 'first-holes.lesson.json' }, lesson: null }, { entry: {}, lesson: p.copyOfLesson(lesson('seat-it-first'), { random: () => 0.25 }) }],
});
/** The project as files on disk, the shipped lessons beside them. */
function onDisk(what) {
  const shipped = Object.fromEntries(namesIn('lessons', '.lesson.json').map((name) => [name.split('/')[1], JSON.stringify(readJson(name))]));
  const files = [...p.filesOf(what), p.setFileOf(what, {})].filter(Boolean);
  return checkFiles({ ...shipped, ...Object.fromEntries(files.map(({ name, text }) => [name, text])) });
}
const frozen = (value) => {
  if (value && typeof value === 'object') Object.values(Object.freeze(value)).forEach(frozen);
  return value;
};

await runCases({
  'a value is put, and taken away, without touching what was there': () => {
    const before = frozen({ a: [{ b: 1 }, { b: 2 }] });
    assert.deepEqual(p.withValue(before, ['a', 1, 'c'], 3), { a: [{ b: 1 }, { b: 2, c: 3 }] });
    assert.deepEqual(p.withValue(before, ['a', 0], undefined), { a: [{ b: 2 }] });
    assert.deepEqual(p.withValue(before, ['x', 'y'], 1), { ...before, x: { y: 1 } });
    assert.deepEqual(p.withValue(before, ['a', 1, 'b'], undefined), { a: [{ b: 1 }, {}] });
  },
  'paths and their words are one another': () => {
    for (const text of ['title.en', 'blocks[1].plan.depth_mm', 'lessons[12]', 'kit']) assert.equal(p.wordsOf(p.pathOf(text)), text);
  },
  'a new project of template, shipped lesson and copy is good as files': () => {
    assert.deepEqual(sentences(onDisk(frozen(project()))), []);
  },
  'every template is good under its new name': () => {
    for (const name of namesIn('lessons/templates', '.lesson.json')) {
      const items = [{ entry: {}, lesson: p.copyOfLesson(readJson(name), { isTemplate: true }) }];
      assert.deepEqual(sentences(onDisk({ set: p.newSet(words), items, extras: [] })), [], name);
    }
  },
  'copies have ids of their own': () => {
    const ids = new Set(Array.from({ length: 50 }, () => p.copyOfLesson(lesson('find-the-centre')).id));
    assert.ok(ids.size > 40);
    for (const id of ids) assert.match(id, /^[a-z0-9-]{1,64}$/);
    assert.match(p.freshId('Größe über alles & mehr! '.repeat(9), 'x'), /^[a-z0-9-]{1,64}$/);
    assert.match(p.freshId('', 'lesson'), /^lesson-/);
  },
  'lessons move, double and go, and the set follows': () => {
    const before = frozen(project());
    const moved = p.moveItem(before, 2, 0);
    assert.deepEqual(moved.items.map(p.lessonFile), [2, 0, 1].map((i) => p.lessonFile(before.items[i])));
    assert.deepEqual(p.moveItem(moved, 0, 2), before);
    assert.deepEqual(p.moveItem(before, 0, 99).items.length, 3);
    const doubled = p.duplicateItem(before, 0, () => 0.75);
    assert.equal(doubled.items.length, 4);
    assert.notEqual(doubled.items[1].lesson.id, doubled.items[0].lesson.id);
    assert.deepEqual(sentences(onDisk(doubled)), []);
    assert.equal(p.duplicateItem(before, 1), before, 'a lesson of the app has no second of the same id');
    assert.deepEqual(sentences(onDisk(p.removeItem(before, 0))), []);
    assert.deepEqual(JSON.parse(p.setFileOf(moved, {}).text).lessons[2].file, 'first-holes.lesson.json');
  },
  'a block that goes or is renamed leaves no name behind': () => {
    const before = frozen(project());
    const counted = p.editLesson(before, 0, ['criterion'], { rule: 'all-of', blocks: ['by-hand'], standard: { method: 'own-choice', source: { en: 'x' } } });
    const renamed = p.editLesson(counted, 0, ['blocks', 0, 'id'], 'free');
    assert.deepEqual(renamed.items[0].lesson.order.mix, ['free', 'through-the-sleeve']);
    assert.deepEqual(renamed.items[0].lesson.criterion.blocks, ['free']);
    assert.deepEqual(sentences(onDisk(renamed)), []);
    const less = p.removeBlock(renamed, 0, 0);
    assert.deepEqual(less.items[0].lesson.order.mix, ['through-the-sleeve']);
    assert.equal(less.items[0].lesson.criterion.blocks, undefined, 'an empty list would be refused; left out it means all');
    const back = p.editEntry(before, 0, ['retention'], { after_days: 7, block: 'by-hand' });
    assert.equal(p.editLesson(back, 0, ['blocks', 0, 'id'], 'free').items[0].entry.retention.block, 'free');
  },
  'blocks double under a free name, and move': () => {
    const before = frozen(project());
    const doubled = p.duplicateBlock(p.duplicateBlock(before, 0, 0), 0, 0);
    assert.deepEqual(doubled.items[0].lesson.blocks.map(({ id }) => id), ['by-hand', 'by-hand-3', 'by-hand-2', 'through-the-sleeve']);
    assert.deepEqual(p.moveBlock(before, 0, 0, 1).items[0].lesson.blocks.map(({ id }) => id), ['through-the-sleeve', 'by-hand']);
  },
  'a set file brings its order back; other lessons follow': () => {
    const names = ['seat-it-first', 'drill-length-arithmetic', 'first-holes'];
    const opened = p.projectOf([{ value: set }, ...names.map((name) => ({ value: lesson(name) }))]);
    assert.deepEqual(opened.items.map((item) => [p.lessonFile(item), item.lesson !== null]),
      [...set.lessons.map(({ file }) => [file, ['drill-length-arithmetic.lesson.json', 'seat-it-first.lesson.json'].includes(file)]), ['first-holes.lesson.json', true]]);
    const { lessons, ...rest } = JSON.parse(p.setFileOf(p.removeItem(opened, 5), {}).text);
    assert.deepEqual({ ...rest, lessons }, set);
  },
  'opened lessons take the place of the same id, or follow': () => {
    const before = project();
    const changed = { ...before.items[2].lesson, minutes: 99 };
    const after = p.joined(before, [{ value: changed }, { value: lesson('which-guide') }, { value: lesson('first-holes') }]);
    assert.equal(after.items.length, 4);
    assert.equal(after.items[2].lesson.minutes, 99);
    assert.equal(after.items[1].lesson.id, 'first-holes', 'what was only named is now here');
  },
  'an entry that names a digest gets the present one': () => {
    const pinned = p.editEntry(project(), 2, ['sha256'], '0'.repeat(64));
    const digest = 'ab'.repeat(32);
    assert.equal(JSON.parse(p.setFileOf(pinned, { 2: digest }).text).lessons[2].sha256, digest);
    assert.equal(JSON.parse(p.setFileOf(project(), { 2: digest }).text).lessons[2].sha256, undefined);
  },
  'texts that lack a language are found': () => {
    const one = p.editSet(project(), ['title'], { en: 'A', de: 'B' });
    assert.deepEqual(p.languagesOf({ set: one.set, items: [] }), ['en', 'de']);
    const lacking = p.untranslated({ set: one.set, items: [] }, 'de');
    assert.deepEqual(lacking.map(({ path }) => path.join()), ['introduction', 'teacher_notes']);
    assert.equal(p.untranslated({ set: null, items: [{ lesson: { objectives: [{ en: 'x' }, { en: 'y', de: 'z' }] } }] }, 'de')[0].path.join(), 'objectives,0');
  },
  'undo and redo go through every state; typing in one field is one step': () => {
    let time = 0;
    const history = makeHistory(0, { stamp: () => time });
    for (const state of [1, 2, 3]) {
      history.push(state, 'title');
      time += 100;
    }
    history.push(4, 'minutes');
    time += 5000;
    history.push(5, 'minutes');
    assert.deepEqual([history.undo(), history.undo(), history.undo(), history.undo()], [4, 3, 0, 0]);
    assert.equal(history.canUndo(), false);
    assert.deepEqual([history.redo(), history.redo()], [3, 4]);
    history.push(9);
    assert.equal(history.canRedo(), false);
    assert.deepEqual([history.undo(), history.redo()], [4, 9]);
  },
  'drafts are kept, listed, found again and removed; a full storage is told': () => {
    const map = new Map();
    let isFull = false;
    const storage = { getItem: (key) => map.get(key) ?? null, removeItem: (key) => map.delete(key), setItem: (key, value) => { if (isFull) throw new Error('full'); map.set(key, value); } };
    const drafts = makeDrafts(storage);
    const what = project();
    assert.equal(drafts.keep('a', { title: 'A', project: what, selection: { item: 1, block: -1 } }, 10), true);
    assert.equal(drafts.keep('b', { title: 'B', project: p.emptyProject(), selection: { item: -1, block: -1 } }, 20), true);
    assert.deepEqual(drafts.list().map(({ id, count }) => [id, count]), [['b', 0], ['a', 3]]);
    assert.deepEqual(drafts.load('a').project, what);
    isFull = true;
    assert.equal(drafts.keep('a', { title: 'A', project: what, selection: null }, 30), false);
    isFull = false;
    drafts.remove('a');
    assert.deepEqual(drafts.list().map(({ id }) => id), ['b']);
    assert.equal(drafts.load('a'), null);
    map.set('driftbench-desk', 'no JSON');
    assert.deepEqual(drafts.list(), []);
  },
});
