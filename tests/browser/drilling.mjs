// Whole attempts by real pointer and key events, as a learner makes them.
import { check } from './lib.mjs';

const kFeet = ['Press far right foot', 'Press far left foot', 'Press near left foot', 'Press near right foot'];
const kSeen_mm = 0.05;
const kDrilling_ms = 120000;

/** Drills of the bench kit: number key, name on the rack, stop-to-shoulder length for the first lesson's guide. */
export const kPlanned = [
  { key: '2', index: 1, name: 'Twist drill 2.0 mm', length: '19.5' },
  { key: '3', index: 2, name: 'Twist drill 2.7 mm', length: '19.5' },
  { key: '4', index: 3, name: 'Twist drill 3.4 mm', length: '20.5' },
  { key: '5', index: 4, name: 'Twist drill 4.0 mm', length: '20.5' },
];

/** From the shelf to the page of a lesson. */
export async function openLesson(hands, title = 'Find the centre') {
  await hands.untilScreen('shelf');
  await hands.clickInPage(new RegExp(`^${title}: `));
  await hands.untilScreen('lesson');
}

/** From the shelf to a guided briefing; `look(screen)` at each on the way. */
export async function tourToGuidedBriefing(hands, look) {
  await look('shelf');
  await openLesson(hands);
  await look('lesson');
  await hands.clickInPage(/^Drill-guided: /);
  await hands.untilScreen('briefing');
  await look('guided briefing');
}

/** From a debrief over the shelf to the logbook, and a look at it. */
export async function tourToLogbook(hands, look) {
  await hands.click('Shelf');
  await hands.untilScreen('shelf');
  await hands.click('Logbook');
  await hands.untilScreen('logbook');
  await look('logbook');
}

/** From the shelf through lesson and briefing to the bench; `approach` is the title of a block. */
export async function goToBench(hands, approach, title) {
  await openLesson(hands, title);
  await hands.clickInPage(new RegExp(`^${approach}: `));
  await startAttempt(hands);
}

/** From the shelf to the debrief of a saved attempt. */
export async function openSaved(hands, label) {
  await hands.click('Logbook');
  await hands.untilScreen('logbook');
  await hands.clickInPage(label);
}

/** From the page of a lesson, or from the briefing, to the bench. */
export async function startAttempt(hands) {
  if ((await hands.state()).screen === 'lesson') await hands.click(/^(Begin|Go on): /);
  await hands.untilScreen('briefing');
  await hands.click(/^(Start|I have read the sheet: start)$/);
  await hands.untilScreen('bench');
  await hands.page.waitForTimeout(200);
}

/** Puts the pointer into the front look without moving the hand much. */
export async function enterLook(hands) {
  const look = await hands.item('Front look');
  await hands.page.mouse.move(look.x + look.w / 2, look.y + look.h / 2);
  await hands.page.waitForTimeout(120);
}

/** Down the middle of a look, until the pointer has met the drill that hangs there and the hand has hold of it. */
export async function takeHold(hands, label = 'Front look') {
  const look = await hands.item(label);
  for (let down = 0.1; down < 0.65; down += 0.05) {
    await hands.moveTo(look, 0.5, down);
    await hands.page.waitForTimeout(60);
  }
}

export async function startMotor(hands, { byClick = false } = {}) {
  if (byClick) await hands.click('Motor');
  else await hands.key('Space');
  await hands.untilState((state) => state.motor_rpm > 500, 'the motor to turn');
}

/** Holds the left button in the front look until `enough(state)`. */
export async function pressUntil(hands, enough, what) {
  await enterLook(hands);
  await hands.page.mouse.down();
  try {
    return await hands.untilState((state) => enough(state) || state.phase !== 'drilling', what, kDrilling_ms);
  } finally {
    await hands.page.mouse.up();
  }
}

export async function liftOut(hands, { byClick = false } = {}) {
  if (byClick) await hands.click('Lift');
  else await hands.key('r');
  await hands.untilState((state) => state.is_out && !state.lifting, 'the drill to be out');
}

/** One free-hand drill: taken, started, pressed to depth, lifted. */
export async function drillFreehand(hands, drill, depth_mm, { byClick = false } = {}) {
  if (byClick) await hands.click(drill.name);
  else await hands.key(drill.key);
  await hands.untilState((state) => state.drill === drill.index, `${drill.name} in the hand`);
  await startMotor(hands, { byClick });
  await pressUntil(hands, (state) => state.shoulder_depth_mm >= depth_mm, `${drill.name} at depth`);
  await liftOut(hands, { byClick });
}

/** Ends the attempt at the bench; where planned drills are missing the bench asks once, and is answered. */
export async function finishAttempt(hands, { screen = 'estimate', byClick = false } = {}) {
  const finish = () => (byClick ? hands.click('Finish') : hands.key('Enter'));
  const before = (await hands.state()).notice;
  await finish();
  const state = await hands.untilState((now) => now.screen !== 'bench' || !['', before].includes(now.notice), 'an answer to Finish');
  if (state.screen === 'bench') await finish();
  return hands.untilScreen(screen);
}

/** Free-hand attempt from the bench to its finish; `drills` may be fewer than planned. */
export async function drillWholeFreehand(hands, { drills = kPlanned, depth_mm = 9.8 } = {}) {
  for (const [i, drill] of drills.entries()) await drillFreehand(hands, drill, depth_mm, { byClick: i % 2 === 0 });
  await finishAttempt(hands);
}

/** Ends the attempt at the bench without an estimate; gives the state of the debrief. */
export async function finishSkipping(hands) {
  await finishAttempt(hands);
  await hands.click('Skip');
  return hands.untilScreen('debrief');
}

/** From the bench to the debrief with one free-hand hole; gives the state there. */
export async function drillOneHole(hands, depth_mm = 6) {
  await drillFreehand(hands, kPlanned[0], depth_mm);
  const done = await finishSkipping(hands);
  check(done.results.has_hole, 'no hole was measured');
  return done;
}

/** Presses the foot with the largest gap until no window shows one. */
export async function seatGuide(hands) {
  for (let turn = 0; turn < 12; turn += 1) {
    const { gaps_mm: gaps } = (await hands.state()).guide;
    const worst = gaps.indexOf(Math.max(...gaps));
    if (gaps[worst] <= kSeen_mm) return;
    await hands.moveTo(await hands.item(kFeet[worst]));
    await hands.page.waitForTimeout(80);
    await hands.page.mouse.down();
    await hands.untilState((state) => state.guide.gaps_mm[worst] <= kSeen_mm / 2, 'the foot to come down', 30000);
    await hands.page.mouse.up();
    await hands.page.waitForTimeout(120);
  }
  check(false, 'the guide could not be seated');
}

/** One guided drill: length, seat checked, key, drill engaged still, motor, press to the stop, out. */
export async function drillGuided(hands, drill, { byClick = false } = {}) {
  if (byClick) await hands.click(drill.name);
  else await hands.key(drill.key);
  await hands.click(drill.length);
  await hands.untilState((state) => state.drill === drill.index && Math.abs(state.stop_length_mm - Number(drill.length)) < 1e-6,
    `${drill.name} with its length`);
  await seatGuide(hands);
  const before = await hands.state();
  if (before.guide.key >= 0) {
    await hands.key('k');
    await hands.untilState((state) => state.guide.key < 0, 'the old key out');
  }
  if (byClick) await hands.click('Key in');
  else await hands.key('k');
  await hands.untilState((state) => state.guide.key >= 0, 'the key in the sleeve');
  await seatGuide(hands);
  await pressUntil(hands, (state) => !state.is_out && state.hint !== 'engage-drill', 'the drill in the key');
  await startMotor(hands);
  await pressUntil(hands, (state) => state.at_stop, 'the stop to rest');
  await liftOut(hands);
}

export async function drillWholeGuided(hands, { drills = kPlanned } = {}) {
  await hands.click('Put guide on');
  await hands.untilState((state) => state.guide.placed, 'the guide on the block');
  await hands.key('h');
  await hands.untilState((state) => state.guide.held, 'the guide held');
  await seatGuide(hands);
  for (const [i, drill] of drills.entries()) await drillGuided(hands, drill, { byClick: i === 0 });
  await finishAttempt(hands, { byClick: true });
}

/** Gives an own estimate by dragging and clicking, then shows the debrief. */
export async function giveEstimate(hands) {
  const target = await hands.item('Your entry');
  await hands.page.mouse.move(target.x + target.w / 2, target.y + target.h / 2);
  await hands.page.mouse.down();
  await hands.page.mouse.move(target.x + target.w * 0.62, target.y + target.h * 0.45, { steps: 6 });
  await hands.page.waitForTimeout(100);
  await hands.page.mouse.up();
  await hands.click('High');
  await hands.click('Show me');
  await hands.untilScreen('debrief');
}
