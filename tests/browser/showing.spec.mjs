// What virtual operators show before the first own attempt: a worked example, and holes to judge.
import { check, Visitor } from './lib.mjs';

const kSimulated_ms = 240000;  // on a busy machine

async function watchesAnExample({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lesson=straight-and-to-depth');
  await hands.untilScreen('lesson');
  await hands.click('Watch it done first');
  await hands.untilScreen('example');
  // The page stays live while the operator is simulated.
  await hands.item('Expert is drilling');
  const share = async () => Number((await hands.find(/^\d+ % done$/))?.label.match(/\d+/)[0] ?? 100);
  const before = { frames: await hands.frames(), share: await share() };
  await hands.until(async () => (await share()) >= before.share + 20, 'a fifth of the simulation', kSimulated_ms);
  check((await hands.frames()) > before.frames + 3, 'the page stood still');
  let state = await hands.untilState((now) => now.example_ready, 'the simulation to end', kSimulated_ms);
  check(state.remarks >= 6, `${state.remarks} remarks`);
  check(state.playing, 'the replay does not play by itself');
  check(!(await hands.find(/tolerance\.$/)), 'the end is told at the beginning');
  await hands.item(/^First the 2\.0 mm drill\./);
  await hands.item(/^The point touches/);
  // Paused, wound nearly to the end, and played to it: all remarks are there.
  await hands.click('Pause the replay');
  await hands.untilState((now) => !now.playing, 'the replay to pause');
  const slider = await hands.item('Time');
  await hands.page.mouse.click(slider.x + slider.w - 2, slider.y + slider.h / 2);
  await hands.untilState((now) => now.scrub_step > now.end_step - 500, 'the replay to be wound');
  await hands.click('Play the attempt again');
  state = await hands.untilState((now) => now.reached_step === now.end_step, 'the end of the replay');
  await hands.item(/^Entry .* Inside the tolerance\.$/);
  // A remark leads back to its moment, and stays said.
  const heading = await hands.item('What happens');
  await hands.page.mouse.move(heading.x + 40, heading.y + 120);
  await hands.page.mouse.wheel(0, -4000);
  await hands.page.waitForTimeout(300);
  await hands.click(/^First the 2\.0 mm drill\./);
  state = await hands.untilState((now) => now.scrub_step < 1000, 'the moment of the first remark');
  await hands.item(/Inside the tolerance\.$/);
  // In the page's mirror, for assistive tools.
  const mirrored = await hands.page.evaluate(() => document.body.textContent.includes('First the 2.0 mm drill.'));
  check(mirrored, 'the remark is not in the page');
  // Nothing was counted; the way on leads to the own first attempt.
  check(state.saved.length === 0, 'the example was kept as an attempt');
  await hands.click(/^Begin: With numbers, hole 1 of 1$/);
  await hands.untilScreen('briefing');
  check((await hands.state()).attempt_number === 1, 'the example was counted');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function skipsAnExample({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lesson=near-the-canal');
  await hands.untilScreen('lesson');
  await hands.click('Watch it done first');
  await hands.untilScreen('example');
  await hands.click('Skip');
  await hands.untilScreen('briefing');
  await hands.click('Watch it done');
  await hands.untilScreen('example');
  await hands.click('Leave');
  await hands.untilScreen('lesson');
  await hands.item('Watch it done');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function judgesHoles({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lesson=mystery-operator');
  await hands.untilScreen('lesson');
  await hands.click('Judge their holes first');
  await hands.untilScreen('prediction');
  await hands.click('Operator A: Scattered');
  await hands.click('Operator B: Scattered');
  check(!(await hands.find('Show me', { enabled: true })), 'the numbers come before the holes');
  await hands.untilState((now) => now.holes_ready, 'all holes', kSimulated_ms);
  check(!(await hands.find(/^Middle/)), 'the numbers come before the question');
  await hands.click('Operator B: Off in one direction');
  await hands.click('Show me');
  await hands.item(/^Middle .* The holes scatter more than their middle is off: spread\.$/);
  await hands.item(/^Middle .* The middle is farther off than the holes scatter: bias\.$/);
  const right = (await hands.items()).filter((item) => /You saw it\.$/.test(item.label));
  check(right.length === 2, `${right.length} of 2 judgements are right`);
  check((await hands.state()).saved.length === 0, 'a judged hole was kept as an attempt');
  await hands.click(/^Begin: Six of your own, hole 1 of 6$/);
  await hands.untilScreen('briefing');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

export const cases = [
  ['an expert is simulated, replayed and explained, and counts for nothing', watchesAnExample],
  ['a worked example can be skipped and left', skipsAnExample],
  ['holes of two operators are judged before the numbers come', judgesHoles],
];
