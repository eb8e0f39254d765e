// Sets, lessons and the logbook: a short set across two reloads, what the address may ask for, and the own record.
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { check, kRoot, Visitor } from './lib.mjs';
import { drillFreehand, finishAttempt, kPlanned, openLesson, openSaved, startAttempt } from './drilling.mjs';

const kDepth_mm = 3;

/** A lesson of two shallow holes with one drill, made from a shipped one. */
async function shortLesson(id, title, change) {
  const lesson = JSON.parse(await readFile(path.join(kRoot, 'lessons/first-holes.lesson.json'), 'utf8'));
  const block = { ...lesson.blocks[1], id: 'hole', title: { en: 'Hole' }, attempts: 2, estimate: 'none' };
  block.plan = { ...block.plan, depth_mm: kDepth_mm, drills: ['twist-20'] };
  const criterion = { ...lesson.criterion, blocks: ['hole'], measures: ['depth'] };
  const tolerance = { ...lesson.tolerance, depth_low_mm: -2, depth_high_mm: 2 };
  return JSON.stringify(change({ ...lesson, id, title: { en: title }, blocks: [block], criterion, tolerance }));
}

async function shortSet() {
  const set = JSON.parse(await readFile(path.join(kRoot, 'lessons/guided-work.set.json'), 'utf8'));
  const lessons = [{ file: 'short-a.lesson.json', opens: 'always' }, { file: 'short-b.lesson.json', opens: 'after-passed' }];
  return {
    'short-a.lesson.json': await shortLesson('short-a', 'Short A', (lesson) => lesson),
    'short-b.lesson.json': await shortLesson('short-b', 'Short B', (lesson) => {
      const { criterion, ...rest } = lesson;
      rest.blocks[0].feedback = { when: 'summary', between: 'nothing' };
      return rest;
    }),
    'short.set.json': JSON.stringify({ ...set, id: 'short', title: { en: 'Short set' }, lessons }),
  };
}

async function openFiles(hands, files) {
  for (const [name, text] of Object.entries(files)) {
    const choosing = hands.page.waitForEvent('filechooser');
    await hands.click('Open file…');
    await (await choosing).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
    if (name.endsWith('.lesson.json')) {
      await hands.untilScreen('lesson');
      await hands.click('Shelf');
      await hands.untilScreen('shelf');
    }
  }
  const state = await hands.untilState((now) => now.shelf[0].set === 'short', 'the set on the shelf');
  check(!state.notice_is_error, state.notice);
  await hands.click('Close');
}

const standing = (state, id) => state.shelf[0].lessons.find((lesson) => lesson.id === id);

/** One shallow hole from the bench to its debrief. */
async function oneHole(hands) {
  await drillFreehand(hands, kPlanned[0], kDepth_mm - 0.2);
  await finishAttempt(hands, { screen: 'debrief' });
  await hands.page.waitForTimeout(1500);  // until the browser has written it down
  return hands.state();
}

async function finishesASetAcrossReloads({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const files = await shortSet();
  let hands = await visitor.open();
  await openFiles(hands, files);
  let state = await hands.state();
  check(state.shelf[0].next === 'short-a', `next is "${state.shelf[0].next}"`);
  check(standing(state, 'short-b').state === 'waiting', 'the second lesson is open before the first is passed');
  await openLesson(hands, 'Short A');
  await hands.click('Begin: Hole, hole 1 of 2');
  await startAttempt(hands);
  state = await oneHole(hands);
  check(state.shown === 'everything' && state.results.has_hole, 'the first hole is not shown');

  // First reload: in the middle of the first lesson.
  await hands.page.close();
  hands = await visitor.open();
  await hands.untilState((now) => now.saved.length === 1, 'the saved attempt');
  await openFiles(hands, files);
  state = await hands.state();
  check(standing(state, 'short-a').state === 'going-on' && standing(state, 'short-a').done === 1, 'the lesson does not go on');
  await openLesson(hands, 'Short A');
  await hands.click('Go on: Hole, hole 2 of 2');
  await startAttempt(hands);
  check((await hands.state()).attempt_number === 2, 'this is not the second attempt');
  await oneHole(hands);
  state = await hands.state();
  check(standing(state, 'short-a').state === 'passed', `the first lesson is ${standing(state, 'short-a').state}`);
  check(state.shelf[0].next === 'short-b', 'the second lesson is not next');
  await hands.click('Next');
  await hands.untilScreen('lesson');
  await hands.click('Shelf');

  // The second lesson shows nothing before its last hole.
  await openLesson(hands, 'Short B');
  await hands.click('Begin: Hole, hole 1 of 2');
  await startAttempt(hands);
  state = await oneHole(hands);
  check(state.shown === 'nothing' && state.results === undefined, 'a hole is shown that should wait');
  await hands.item('Kept');
  check(!(await hands.find('Entry target')), 'the target is on the screen');

  // Second reload.
  await hands.page.close();
  hands = await visitor.open();
  await hands.untilState((now) => now.saved.length === 3, 'three saved attempts');
  await openFiles(hands, files);
  await hands.click('Logbook');
  await hands.untilScreen('logbook');
  await hands.item('shown when the block is done');
  check(!(await hands.find(/^Open: Hole/)), 'an attempt that is not shown yet can be opened');
  await hands.click('Shelf');
  await openLesson(hands, 'Short B');
  await hands.click('Go on: Hole, hole 2 of 2');
  await startAttempt(hands);
  await oneHole(hands);
  state = await hands.untilState((now) => now.compared === 2, 'both holes of the block beside one another');
  check(state.shown === 'everything' && state.shelf[0].finished, 'the set is not finished');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function obeysTheAddress({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let hands = await visitor.open('?set=guided-work&lock=1&theme=light');
  let state = await hands.state();
  check(state.shelf.length === 1 && state.shelf[0].set === 'guided-work', 'another set is on the shelf');
  check(state.theme === 'light', 'the theme is another one');
  check(!(await hands.find('Open file…')), 'a locked page opens files');
  await hands.page.close();
  hands = await visitor.open('?lesson=straight-and-to-depth');
  state = await hands.untilScreen('lesson');
  check(state.lesson === 'straight-and-to-depth', `the lesson "${state.lesson}" is open`);
  for (const [query, words] of [['?lang=xx', 'language "xx"'], ['?set=none', 'set "none"'], ['?lock=maybe', 'lock "maybe"'],
    ['?lesson=none', 'lesson "none"'], ['?seed=-1', 'seed "-1"']]) {
    await hands.page.close();
    hands = await visitor.open(query);
    state = await hands.state();
    check(state.notice.includes(words) && state.screen === 'shelf' && state.shelf.length >= 3, `${query}: "${state.notice}", screen ${state.screen}`);
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function keepsTheOwnRecord({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lesson=first-holes');
  await hands.untilScreen('lesson');
  await hands.clickInPage('Without help: Start');
  await startAttempt(hands);
  await drillFreehand(hands, kPlanned[0], 5);
  await finishAttempt(hands);
  await hands.click('Show me');
  await hands.untilScreen('debrief');
  await hands.item(/The sequence is incomplete$/);
  await hands.click('Shelf');
  await openSaved(hands, /^Open: Without help/);
  await hands.untilScreen('debrief');
  await hands.click('Shelf');
  await hands.click('Logbook');
  await hands.item('Own entries on one target');
  await hands.item(/^Your weakest part here is/);

  const downloading = hands.page.waitForEvent('download');
  await hands.click('Export all');
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-'));
  try {
    const file = path.join(folder, 'mine.logbook.json');
    await (await downloading).saveAs(file);
    const book = JSON.parse(await readFile(file, 'utf8'));
    check(book.format === 'driftbench-logbook' && book.attempts.length === 1, 'the file does not hold the attempt');
    await hands.click('Delete all');
    await hands.click('Delete all 1 for good?');
    await hands.untilState((state) => state.saved.length === 0, 'the attempts to go');
    const choosing = hands.page.waitForEvent('filechooser');
    await hands.click('Import…');
    await (await choosing).setFiles(file);
    const state = await hands.untilState((now) => now.saved.length === 1, 'the attempt back again');
    check(!state.notice_is_error, state.notice);
  } finally {
    await rm(folder, { recursive: true });
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function asksForTheDevice({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  const open = async (title, device) => {
    const choosing = hands.page.waitForEvent('filechooser');
    await hands.click('Open file…');
    const buffer = Buffer.from(await shortLesson('short-device', title, (lesson) => ({ ...lesson, device })));
    await (await choosing).setFiles({ name: 'short-device.lesson.json', mimeType: 'application/json', buffer });
    await hands.untilScreen('lesson');
  };
  await open('Checked', { check: 'required' });
  await hands.item(/^The device must be checked first/);
  await hands.item('In use now: mouse. It has not passed the check yet.');
  await hands.click('Begin: Hole, hole 1 of 2');
  let state = await hands.untilState((now) => now.notice.includes('after the device check'), 'to be refused');
  check(state.screen === 'lesson', `on screen ${state.screen} without the check`);
  await hands.clickInPage('To the device check');
  state = await hands.untilState((now) => now.lesson === 'first-holes', 'the lesson that checks a device');
  await hands.click('Shelf');
  await hands.untilScreen('shelf');
  await open('By finger', { allow: ['touch'] });
  await hands.click('Begin: Hole, hole 1 of 2');
  state = await hands.untilState((now) => now.notice.includes('another device: finger'), 'the mouse to be refused');
  check(state.screen === 'lesson' && state.saved.length === 0, 'an attempt began with the mouse');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

export const cases = [
  ['a student finishes a set across two reloads', finishesASetAcrossReloads],
  ['the address names set, lesson, language, theme and lock', obeysTheAddress],
  ['a lesson asks for a device and for its check, and refuses plainly', asksForTheDevice],
  ['the logbook shows, exports, deletes and imports the own record', keepsTheOwnRecord],
];
