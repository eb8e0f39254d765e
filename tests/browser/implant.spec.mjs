// The lesson with the implant, by real keys and pointer: drill, seat the implant, read its torque.
import { check, Visitor } from './lib.mjs';
import { drillFreehand, giveEstimate, kPlanned, pressUntil, startAttempt } from './drilling.mjs';

async function seatsTheImplant({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?lesson=seat-the-implant&seed=14&mute=1');
  await startAttempt(hands);
  for (const [i, drill] of kPlanned.entries()) await drillFreehand(hands, drill, 9.9, { byClick: i % 2 === 1 });
  check((await hands.state()).hint === 'take-implant', `after the last drill the hint is ${(await hands.state()).hint}`);

  await hands.key('0');
  await hands.untilState((state) => state.implant.index === 0, 'the implant on the driver');
  for (let i = 0; i < 7; i += 1) await hands.key('[');  // a light press
  await pressUntil(hands, (state) => state.in_contact, 'the implant in the hole');
  await hands.key('Space');
  await hands.untilState((state) => state.motor_rpm > 10, 'the motor to turn slowly');
  const level = await pressUntil(hands, (state) => state.hint === 'stop-implant' || state.implant.stalled, 'the platform to be level');
  check(!level.implant.stalled, `the motor stopped at ${level.implant.torque_nmm} N mm`);
  check(level.motor_rpm <= 30, `the implant turned at ${level.motor_rpm} rpm`);
  await hands.key('Space');
  await hands.untilState((state) => state.hint === 'release-implant', 'the motor to stand');
  const labels = async () => (await hands.items()).map((item) => item.label).join('\n');
  check((await labels()).includes('N·cm'), 'the bench does not show the torque in N·cm');
  await hands.click('Driver off');
  await hands.untilState((state) => state.implant.seated && state.hint === 'finish', 'the implant to sit');
  await hands.key('Enter');
  await hands.untilScreen('estimate');
  await giveEstimate(hands);

  const { results } = await hands.state();
  check(results.has_implant, 'no implant was measured');
  check(Math.abs(results.implant_depth_error_mm) < 1.0, `the platform is ${results.implant_depth_error_mm} mm off its level`);
  // 20 pcf foam, last drill 4.0 mm: about 17 N·cm (src/drilling/MODEL.md, section 11).
  check(results.implant_final_torque_nmm > 80 && results.implant_final_torque_nmm < 300,
    `the torque was ${results.implant_final_torque_nmm} N mm`);
  const debrief = await labels();
  check(/Insertion torque \d+ N·cm/.test(debrief) && debrief.includes('primary stability'), 'the debrief does not name the torque');
  check(!debrief.includes('°C'), 'the debrief shows a temperature in foam');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

export const cases = [['drills a site, seats the implant, reads its torque', seatsTheImplant, { limit_ms: 480000 }]];
