// What is kept: saved attempts, exported files, attempts that broke off, and files that are bad.
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { check, kRoot, runTool, Visitor } from './lib.mjs';
import { drillWholeFreehand, enterLook, finishAttempt, finishSkipping, giveEstimate, goToBench, kPlanned, openSaved, startMotor } from './drilling.mjs';

/** Opens `file` by the button and the browser's own file chooser. */
async function openFile(hands, file) {
  const choosing = hands.page.waitForEvent('filechooser');
  await hands.click('Open file…');
  await (await choosing).setFiles(file);
}

async function savesExportsReopens({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let hands = await visitor.open('?seed=21');
  await goToBench(hands, 'Free-hand');
  await drillWholeFreehand(hands, { drills: kPlanned.slice(0, 2), depth_mm: 8 });
  await giveEstimate(hands);
  const first = await hands.state();

  // Reload: the saved attempt is on the shelf and opens again, verified.
  await hands.page.close();
  hands = await visitor.open();
  const reloaded = await hands.untilState((state) => state.saved.length === 1, 'the saved attempt after a reload');
  check(reloaded.saved[0] === first.attempt_id, 'another attempt was saved');
  check(reloaded.unfinished === '', 'a finished attempt is offered for resuming');
  await openSaved(hands, /^Open: Free-hand/);
  const reopened = await hands.untilState((state) => state.screen === 'debrief', 'the debrief of the saved attempt');
  check(reopened.verification.includes('replays to the same result'), `verification: "${reopened.verification}"`);
  check(reopened.hash === first.hash, `state hash ${reopened.hash}, was ${first.hash}`);
  check(JSON.stringify(reopened.results) === JSON.stringify(first.results), 'the results differ');

  // Export, then the command-line tool finds the same.
  const downloading = hands.page.waitForEvent('download');
  await hands.click('Export');
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-'));
  try {
    const file = path.join(folder, 'mine.attempt.json');
    await (await downloading).saveAs(file);
    const text = await readFile(file, 'utf8');
    check(text.includes(first.hash), 'the exported file does not hold the state hash of the page');
    const replayed = await runTool(['replay', file, '--json']);
    check(replayed.code === 0 && JSON.parse(replayed.stdout)[0].equal === true,
      `driftbench replay: code ${replayed.code}, ${replayed.stdout.slice(0, 300)} ${replayed.stderr.slice(0, 300)}`);

    // Reopen the file in the page.
    await hands.click('Shelf');
    await openFile(hands, file);
    const opened = await hands.untilState((state) => state.screen === 'debrief', 'the debrief of the opened file');
    check(opened.verification.includes('replays to the same result'), `verification: "${opened.verification}"`);

    // A changed trace is caught by both.
    const tampered = path.join(folder, 'changed.attempt.json');
    const attempt = JSON.parse(text);
    const press = attempt.trace.findIndex((entry) => entry[1] === 1 && entry[6] > 0);
    attempt.trace[press][6] += 1000;
    await writeFile(tampered, JSON.stringify(attempt));
    await hands.click('Shelf');
    await openFile(hands, tampered);
    const caught = await hands.untilState((state) => state.screen === 'debrief', 'the debrief of the changed file');
    check(caught.verification.includes('does not replay to the same result'), `verification: "${caught.verification}"`);
    check((await runTool(['replay', tampered, '--json'])).code === 1, 'driftbench replay did not notice the change');
  } finally {
    await rm(folder, { recursive: true });
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

/** Drills for a moment and closes the tab with the motor running. */
async function breakOff(visitor) {
  const hands = await visitor.open('?seed=31');
  await goToBench(hands, 'Free-hand');
  await hands.key('2');
  await hands.untilState((state) => state.drill === 1, 'the drill in the hand');
  await startMotor(hands);
  await enterLook(hands);
  await hands.page.mouse.down();
  await hands.untilState((now) => now.shoulder_depth_mm > 4, 'a hole of 4 mm', 120000);
  await hands.page.mouse.up();
  // The journal is written once a second; the tab is closed in the middle of the next push.
  await hands.page.waitForTimeout(1300);
  await hands.page.mouse.down();
  await hands.untilState((now) => now.press_n > 0, 'the next push');
  const last = await hands.state();
  await hands.page.close({ runBeforeUnload: false });
  return { id: last.attempt_id, step: last.step, depth_mm: last.shoulder_depth_mm };
}

async function resumes({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const broken = await breakOff(visitor);
  const hands = await visitor.open('?lesson=find-the-centre');  // the offer stands where the learner comes back to
  await hands.untilScreen('lesson');
  const found = await hands.untilState((state) => state.unfinished !== '', 'the unfinished attempt to be offered');
  check(found.unfinished === broken.id, 'another attempt is offered');
  await hands.item(/^Unfinished: Find the centre, Free-hand, /);
  await hands.click('Resume');
  const state = await hands.untilScreen('bench');
  check(state.attempt_id === broken.id, 'another attempt was resumed');
  check(state.step >= broken.step - 1500, `resumed at step ${state.step}, broke off after ${broken.step}`);
  check(state.drill === 1 && state.used_drills === 1, 'the drill is not in the hand');
  check(state.unfinished === '', 'it is still offered');

  // It goes on and ends as any other; its record replays.
  await hands.key('r');
  await hands.untilState((now) => now.is_out, 'the drill out');
  const done = await finishSkipping(hands);
  check(done.results.has_hole, 'no hole was measured');
  await hands.click('Shelf');
  await openSaved(hands, /^Open: Free-hand/);
  const reopened = await hands.untilScreen('debrief');
  check(reopened.verification.includes('replays to the same result'), `verification: "${reopened.verification}"`);
}

async function discards({ bench }) {
  const visitor = await Visitor.arrive(bench);
  await breakOff(visitor);
  let hands = await visitor.open();
  await hands.untilState((state) => state.unfinished !== '', 'the unfinished attempt to be offered');
  await hands.click('Discard');
  await hands.item('Delete for good?');
  check((await hands.state()).unfinished !== '', 'one press throws the attempt away');
  await hands.click('Delete for good?');
  await hands.untilState((state) => state.unfinished === '', 'the offer to go');
  await hands.page.waitForTimeout(500);
  await hands.page.close();
  hands = await visitor.open();
  await hands.page.waitForTimeout(1000);
  check((await hands.state()).unfinished === '', 'a discarded attempt is offered again');
}

async function toldOfBadFiles({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  const corpus = path.join(kRoot, 'tests/corpus');
  let opened = 0;
  for (const kind of ['attempt', 'lesson', 'set', 'kit']) {
    const names = (await readdir(path.join(corpus, kind))).filter((name) => !name.startsWith('.') && !/expected|README/.test(name));
    for (const name of names) {
      const choosing = hands.page.waitForEvent('filechooser');
      await hands.click('Open file…');
      const bytes = await readFile(path.join(corpus, kind, name));
      const shown = `${name.replace(/\..*/, '')}.${kind}.json`;
      await (await choosing).setFiles({ name: shown, mimeType: 'application/json', buffer: bytes });
      const state = await hands.untilState((now) => now.notice.includes(shown), `a sentence about ${shown}`, 15000);
      check(state.notice_is_error && state.screen === 'shelf', `${shown}: screen ${state.screen}, "${state.notice}"`);
      check(!state.notice.includes('\n'), `${shown}: more than one line`);
      await hands.click('Close');
      await hands.untilState((now) => now.notice === '', 'the sentence to go');
      opened += 1;
    }
  }
  check(opened >= 6, `only ${opened} bad files were found in tests/corpus`);
  await goToBench(hands, 'Free-hand');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

/** A record of the first engine: not repeated, but its numbers are shown and it is handed on as it came. */
async function showsRecordsOfOtherEngines({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  const file = path.join(kRoot, 'tests/corpus/engine/1.attempt.json');
  await openFile(hands, file);
  const state = await hands.untilState((now) => now.screen === 'debrief', 'the debrief of a record of another engine');
  check(state.verification.includes('recorded by engine 1'), `verification: "${state.verification}"`);
  check(state.results.has_hole, 'its results are not shown');
  const downloading = hands.page.waitForEvent('download');
  await hands.click('Export');
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-'));
  try {
    const saved = path.join(folder, 'same.attempt.json');
    await (await downloading).saveAs(saved);
    check(await readFile(saved, 'utf8') === await readFile(file, 'utf8'), 'it is exported with other bytes');
  } finally {
    await rm(folder, { recursive: true });
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function worksWithoutStorage({ bench }) {
  const visitor = await Visitor.arrive(bench);
  await visitor.context.addInitScript(() => {
    IDBFactory.prototype.open = () => { throw new DOMException('storage is denied', 'SecurityError'); };
    Object.defineProperty(window, 'localStorage', { get: () => { throw new DOMException('denied', 'SecurityError'); } });
  });
  const hands = await visitor.open();
  const state = await hands.untilState((now) => now.notice !== '', 'a sentence about storage');
  check(/keep data/.test(state.notice), `notice "${state.notice}"`);
  await hands.click('Close');
  await goToBench(hands, 'Free-hand');
  await finishAttempt(hands);
  check((await hands.state()).saved.length === 1, 'the attempt is not listed for this visit');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

export const cases = [
  ['saves, exports, reopens and verifies; the tool agrees', savesExportsReopens],
  ['offers to resume an attempt that broke off, and goes on', resumes],
  ['discards an attempt that broke off', discards],
  ['says what is wrong with bad files and stays alive', toldOfBadFiles],
  ['shows records of other engines as they were recorded', showsRecordsOfOtherEngines],
  ['works without storage', worksWithoutStorage],
];
