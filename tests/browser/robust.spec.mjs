// What may go wrong around a running attempt: graphics lost, page hidden, storage full, two tabs, a crash.
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { drillFreehand, enterLook, finishSkipping, goToBench, kPlanned, liftOut, openSaved, pressUntil, startMotor } from './drilling.mjs';
import { check, runTool, Visitor } from './lib.mjs';

/** At the bench with a turning drill, its point some way in. */
async function begin(visitor, query, depth_mm) {
  const hands = await visitor.open(query);
  await goToBench(hands, 'Free-hand');
  await hands.key('2');
  await hands.untilState((state) => state.drill === 1, 'the drill in the hand');
  await startMotor(hands);
  await pressUntil(hands, (state) => state.shoulder_depth_mm > depth_mm, `${depth_mm} mm`);
  return hands;
}

/** Ends the attempt; gives the debrief's state. */
async function end(hands) {
  if (!(await hands.state()).is_out) await liftOut(hands);
  return finishSkipping(hands);
}

async function repeats(hands) {
  await hands.click('Shelf');
  await openSaved(hands, /^Open: Free-hand/);
  const { verification } = await hands.untilScreen('debrief');
  check(verification.includes('replays to the same result'), `verification: "${verification}"`);
}

async function noTroubles(visitor) {
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

/** The shown text of the page's notice of this kind; null: there is none. */
const noticeText = (hands, kind) => hands.page.evaluate((id) => document.getElementById(id)?.textContent ?? null, `notice-${kind}`);

async function losesGraphicsWhileDrilling({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await begin(visitor, '?seed=41', 3);
  const look = await hands.item('Front look');
  const picture = async () => (await hands.page.screenshot({ clip: { x: look.x, y: look.y, width: look.w, height: look.h } })).toString('base64');
  await enterLook(hands);
  await hands.page.mouse.down();
  await hands.untilState((state) => state.press_n > 0, 'the push');
  await hands.page.evaluate(() => {
    window.lost = document.getElementById('canvas').getContext('webgl2').getExtension('WEBGL_lose_context');
    window.lost.loseContext();
  });
  await hands.page.waitForTimeout(300);
  const before = await hands.state();
  await hands.until(() => noticeText(hands, 'graphics'), 'a word that the graphics are gone');
  check((await noticeText(hands, 'graphics')).includes('Nothing is lost'), 'the word does not say that nothing is lost');
  const still = await hands.state();
  check(still.step === before.step && still.attempt_id === before.attempt_id, `${still.step - before.step} steps were made blind`);
  await hands.page.mouse.up();
  const dark = await picture();
  await hands.page.evaluate(() => window.lost.restoreContext());
  await hands.untilState((state) => state.meters.frames > before.meters.frames, 'a frame after the graphics came back');
  await hands.until(async () => (await picture()) !== dark, 'the picture');
  check(await noticeText(hands, 'graphics') === null, 'the word stays');
  const back = await hands.state();
  check(back.attempt_id === before.attempt_id && back.screen === 'bench' && back.drill === 1, 'another attempt, or none');
  check(back.shoulder_depth_mm > 2.9, `the hole was ${before.shoulder_depth_mm} mm deep, the drill is now at ${back.shoulder_depth_mm}`);
  await pressUntil(hands, (state) => state.shoulder_depth_mm > 6, 'to go on drilling');
  const done = await end(hands);
  check(done.results.has_hole && done.attempt_id === before.attempt_id, 'no hole was measured');
  await repeats(hands);
  await noTroubles(visitor);
}

async function waitsWhileHidden({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await begin(visitor, '?seed=42', 2);
  await enterLook(hands);
  await hands.page.mouse.down();
  await hands.untilState((state) => state.press_n > 0, 'the push');
  const hide = (hidden) => hands.page.evaluate((value) => {
    Object.defineProperty(document, 'hidden', { configurable: true, get: () => value });
    document.dispatchEvent(new Event('visibilitychange'));
  }, hidden);
  await hide(true);
  const before = await hands.state();
  await hands.page.waitForTimeout(1500);
  const after = await hands.state();
  check(after.step === before.step, `${after.step - before.step} steps were made while the page was hidden`);
  const kept = await hands.page.evaluate(() => new Promise((resolve, reject) => {
    const opening = indexedDB.open('driftbench');
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const asking = opening.result.transaction('journals').objectStore('journals').getAll();
      asking.onsuccess = () => { resolve(asking.result.map(({ id, step }) => ({ id, step }))); opening.result.close(); };
    };
  }));
  check(kept.length === 1 && kept[0].step === after.step, `kept on hiding: ${JSON.stringify(kept)}, the step is ${after.step}`);
  await hands.page.mouse.up();
  await hide(false);
  const seen = await hands.untilState((state) => state.step > after.step, 'time to go on');
  check(seen.step - after.step < 1000, `${seen.step - after.step} steps came at once`);
  check(seen.attempt_id === before.attempt_id, 'another attempt');
  await end(hands);
  await noTroubles(visitor);
}

async function goesOnWithFullStorage({ bench }) {
  const visitor = await Visitor.arrive(bench);
  await visitor.context.addInitScript(() => {
    IDBObjectStore.prototype.put = () => { throw new DOMException('', 'QuotaExceededError'); };
  });
  const hands = await begin(visitor, '?seed=43', 2);
  const told = await hands.untilState((state) => state.notice !== '', 'a word that storage is full');
  check(/storage is full/.test(told.notice) && /[Ee]xport/.test(told.notice), `it says "${told.notice}"`);
  await hands.click('Close');
  await hands.untilState((state) => state.notice === '', 'the word to go');
  await pressUntil(hands, (state) => state.shoulder_depth_mm > 5, '5 mm');
  await hands.page.waitForTimeout(2500);  // the journal is tried again every second
  check((await hands.state()).notice === '', 'it is said again and again');
  const done = await end(hands);
  check(/save the attempt/.test(done.notice), `at the end it says "${done.notice}"`);
  await hands.click('Close');

  // It can be handed on, opened again, and exported with all others, until the page closes.
  const one = hands.page.waitForEvent('download');
  await hands.click('Export');
  check((await readFile(await (await one).path(), 'utf8')).includes(done.hash), 'the exported file is another');
  await repeats(hands);
  await hands.click('Shelf');
  await hands.click('Logbook');
  await hands.untilScreen('logbook');
  const all = hands.page.waitForEvent('download');
  await hands.clickInPage('Export all');
  check((await readFile(await (await all).path(), 'utf8')).includes(done.hash), 'the logbook lacks the attempt');
  await noTroubles(visitor);
}

async function sharesStorageBetweenTabs({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const first = await begin(visitor, '?seed=44', 2);
  await first.page.waitForTimeout(1300);  // its journal is kept
  const second = await visitor.open('?seed=45');
  await second.page.waitForTimeout(1000);
  check((await second.state()).unfinished === '', 'an attempt that is running in another tab is offered');

  // Both finish; each tab knows both.
  await goToBench(second, 'Free-hand');
  await drillFreehand(second, kPlanned[0], 3);
  const other = await end(second);
  await first.page.bringToFront();
  const own = await end(first);
  for (const hands of [first, second]) {
    await hands.untilState((state) => state.saved.includes(own.attempt_id) && state.saved.includes(other.attempt_id), 'both attempts in both tabs');
  }
}

async function resumesInOneTabOnly({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const broken = await begin(visitor, '?seed=46', 3);
  await broken.page.waitForTimeout(1300);
  const { attempt_id: id } = await broken.state();
  await broken.page.close();
  const first = await visitor.open();
  const second = await visitor.open();
  for (const hands of [first, second]) await hands.untilState((state) => state.unfinished === id, 'the unfinished attempt to be offered');
  await first.page.bringToFront();
  await first.click('Resume');
  await first.untilScreen('bench');
  await second.untilState((state) => state.unfinished === '', 'the offer to go in the other tab');
  const third = await visitor.open();
  await third.page.waitForTimeout(1000);
  check((await third.state()).unfinished === '', 'it is offered once more');
  await first.page.bringToFront();
  await pressUntil(first, (state) => state.shoulder_depth_mm > 4, 'to go on drilling');
  const done = await end(first);
  check(done.attempt_id === id && done.results.has_hole, 'it did not end well');
  await third.untilState((state) => state.saved.includes(id), 'the attempt on the other shelf');
  await repeats(first);
}

async function explainsACrash({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await begin(visitor, '?seed=47', 3);
  const { attempt_id: id, code_name: name, step } = await hands.state();
  await hands.page.waitForTimeout(1300);
  // The next frame fails inside the program.
  await hands.page.evaluate(() => {
    WebGL2RenderingContext.prototype.drawElements = () => { throw new WebAssembly.RuntimeError('unreachable'); };
  });
  await hands.page.mouse.move(300, 300);
  const box = hands.page.locator('#trouble');
  await box.getByRole('button', { name: 'Save a report' }).waitFor();
  const text = await box.textContent();
  check(/Find the centre|Free-hand/.test(text) && /is kept up to/.test(text), `it does not name the attempt: "${text}"`);
  check(text.includes('unreachable'), 'it does not say what happened');
  const downloading = hands.page.waitForEvent('download');
  await box.getByRole('button', { name: 'Save a report' }).click();
  const report = await readFile(await (await downloading).path(), 'utf8');
  const { format, build, what, attempt } = JSON.parse(report);
  check(format === 'driftbench-report' && /^[0-9a-f]{12}$/.test(build), `format ${format}, build ${build}`);
  check(/unreachable[^]*\.wasm/.test(what), `what: ${what}`);
  check(attempt.attempt_id === id && attempt.trace.length > 2 && attempt.end_step > step - 1500, `the attempt in it: ${report.slice(-600)}`);
  for (const secret of [name, bench.address, '127.0.0.1']) check(!report.includes(secret), `the report holds "${secret}"`);

  // A developer can repeat it.
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-report-'));
  try {
    const file = path.join(folder, 'crash.attempt.json');
    await writeFile(file, JSON.stringify(attempt));
    const replayed = await runTool(['replay', file, '--json']);
    const [{ reasons, first_difference_step: parted }] = JSON.parse(replayed.stdout);
    // It has no end and no code name, so its digests do not fit; but it runs, to the same hashes.
    check(parted === null && reasons.every((reason) => /digest|state hashes are recorded/.test(reason)), `replay: ${reasons.join('; ')} ${replayed.stderr}`);
  } finally {
    await rm(folder, { recursive: true });
  }

  await box.getByRole('button', { name: 'Reload the page' }).click();
  await hands.until(async () => (await hands.state().catch(() => ({}))).unfinished === id, 'the attempt to be offered');
  await hands.click('Resume');
  const resumed = await hands.untilScreen('bench');
  check(resumed.attempt_id === id && resumed.drill === 1, 'another attempt was resumed');
}

export const cases = [
  ['graphics lost in the middle of drilling lose nothing', losesGraphicsWhileDrilling],
  ['a hidden page waits and keeps the attempt', waitsWhileHidden],
  ['full storage is said once, and the attempt can be exported', goesOnWithFullStorage],
  ['two tabs keep both attempts and know of each other', sharesStorageBetweenTabs],
  ['an unfinished attempt goes on in one tab only', resumesInOneTabOnly],
  ['a crash says what happened and gives a report', explainsACrash],
];
