// A whole free-hand attempt, its estimate and debrief, and again.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { check, kRoot, Visitor } from './lib.mjs';
import { drillWholeFreehand, giveEstimate, goToBench, kPlanned } from './drilling.mjs';

const german = JSON.parse(readFileSync(path.join(kRoot, 'assets/languages/de.json'), 'utf8'));

async function wholeAttempt({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=11');
  await goToBench(hands, 'Free-hand');
  check((await hands.state()).step === 0, 'time ran before anything was done');
  await drillWholeFreehand(hands);

  // Nothing is given away before the estimate.
  const before = await hands.state();
  check(before.results === undefined, 'results are shown before the estimate');
  check(before.saved.length === 1, 'the attempt was not saved the moment it ended');
  check(before.phase === 'finished' && before.used_drills === kPlanned.length, `phase ${before.phase}, ${before.used_drills} drills`);
  await giveEstimate(hands);

  const after = await hands.state();
  check(after.results.has_hole, 'no hole was measured');
  check(Math.abs(after.results.hole_diameter_mm - 4) < 0.8, `the hole is ${after.results.hole_diameter_mm} mm wide`);
  check(Math.abs(after.results.depth_error_mm) < 1.5, `the depth error is ${after.results.depth_error_mm} mm`);
  check(after.moments > 0, 'nothing was found in the load trace');
  const labels = (await hands.items()).map((item) => item.label).join('\n');
  for (const words of ['Entry target', 'Apex target', 'What moved the drill']) {
    check(labels.includes(words), `the debrief lacks "${words}"`);
  }

  // The scrubber and the replay move through the attempt.
  const scrubber = await hands.item('Time');
  await hands.moveTo(scrubber, 0.5, 0.5);
  await hands.page.mouse.down();
  await hands.page.waitForTimeout(100);
  await hands.page.mouse.up();
  const middle = await hands.untilState((state) => state.scrub_step > 0 && state.scrub_step < state.end_step, 'the scrubber in the middle');
  await hands.click('Play the attempt again');
  await hands.untilState((state) => state.playing && state.scrub_step > middle.scrub_step, 'the replay to run');

  // Again: a fresh specimen in less than a second.
  await hands.click('Again');
  const fresh = await hands.untilScreen('bench');
  check(fresh.step === 0 && fresh.used_drills === 0, 'the specimen is not fresh');
  check(fresh.attempt_number === 2, `this is attempt ${fresh.attempt_number}`);
  check(fresh.meters.fresh_specimen_ms < 1000, `a fresh specimen took ${fresh.meters.fresh_specimen_ms} ms`);
  console.log(`      fresh specimen: ${fresh.meters.fresh_specimen_ms.toFixed(0)} ms, frame ${fresh.meters.frame_ms.toFixed(0)} ms`);
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function restsBetweenDrills({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await goToBench(hands, 'Free-hand');
  await hands.key('2');
  await hands.untilState((state) => state.resting && state.step >= 3000, 'the bench to rest after three still seconds');
  await hands.page.waitForTimeout(500);  // the last picture, sharp
  const before = await hands.state();
  await hands.page.waitForTimeout(1500);
  const after = await hands.state();
  check(after.step === before.step, `${after.step - before.step} steps ran at rest`);
  check(after.meters.frames === before.meters.frames, `${after.meters.frames - before.meters.frames} frames were drawn at rest`);
  await hands.key('Space');
  await hands.untilState((state) => state.motor_rpm > 500 && state.step > before.step, 'the bench to wake');
  await hands.key('Space');
}

/** Finishes before anything is drilled: a question, then the result. Gives the question's state and the debrief's. */
async function endWithoutHole(hands) {
  await hands.key('Enter');
  const asked = await hands.untilState((now) => now.notice !== '', 'an answer to finishing at once');
  await hands.click('Finish');
  await hands.untilScreen('estimate');
  await hands.click('Skip');
  return { asked, debrief: await hands.untilScreen('debrief') };
}

async function namesRefusals({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await goToBench(hands, 'Free-hand');
  const { asked, debrief } = await endWithoutHole(hands);
  check(asked.screen === 'bench' && /^Nothing is drilled yet/.test(asked.notice), `finishing without a hole gives "${asked.notice}"`);
  check(!debrief.results.has_hole, 'a hole was found where none was drilled');
}

/** What was kept while the page spoke English is listed in German with the lesson's own German title. */
async function listsInTheLanguageOfTheMoment({ bench }) {
  const lesson = JSON.parse(readFileSync(path.join(kRoot, 'lessons/find-the-centre.lesson.json'), 'utf8'));
  const { title } = lesson.blocks.find((block) => block.title.en === 'Free-hand');
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await goToBench(hands, 'Free-hand');
  await endWithoutHole(hands);
  await hands.click('Shelf');
  await hands.click('Logbook');
  await hands.item(new RegExp(`^${title.en}, \\d`));
  await hands.click('Shelf');
  await hands.click('Deutsch');
  await hands.click(german.ui.kLogbook);
  await hands.item(new RegExp(`^${title.de}, \\d`));
  await visitor.leave();
}

/** The pointer moves nothing until it has met the drill: not with an empty hand, not on its way from the rack. */
async function takesHoldAtTheDrill({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=21');
  await goToBench(hands, 'Free-hand');
  const look = await hands.item('Front look');
  const go = async (right, down) => {
    await hands.page.mouse.move(look.x + right * look.w, look.y + down * look.h, { steps: 6 });
    await hands.page.waitForTimeout(200);
  };
  const hand = async () => {
    const { hand_x_mm, hand_y_mm } = await hands.state();
    return { hand_x_mm, hand_y_mm };
  };
  const start = await hand();
  await go(0.2, 0.5);
  await go(0.8, 0.6);
  await hands.key('2');
  await hands.item(/^Bring the pointer to the tip/);
  await go(0.9, 0.8);
  check(JSON.stringify(await hand()) === JSON.stringify(start), `the hand went from ${JSON.stringify(start)} to ${JSON.stringify(await hand())}`);
  // Across the drill, which hangs over the middle: from there it follows.
  for (let down = 0.2; down <= 0.5; down += 0.1) {
    await go(0.95, down);
    await go(0.35, down);
  }
  await hands.untilState((state) => Math.abs(state.hand_x_mm - start.hand_x_mm) > 1, 'the hand to follow');
  await visitor.leave();
}

export const cases = [
  ['a whole attempt, estimate, debrief, again', wholeAttempt],
  ['the hand takes hold where the pointer meets the drill', takesHoldAtTheDrill],
  ['the bench rests while nothing can move', restsBetweenDrills],
  ['an attempt without a hole is told as such', namesRefusals],
  ['kept attempts are listed in the language of the moment', listsInTheLanguageOfTheMoment],
];
