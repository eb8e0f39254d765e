// Pictures of every screen: node tests/browser/shots.mjs FOLDER [--site FOLDER] [--only WORD]
import { drillGuided, drillWholeFreehand, enterLook, giveEstimate, goToBench, kPlanned, openLesson, seatGuide, startMotor } from './drilling.mjs';
import { kDevices, takePictures } from './picture_run.mjs';

await takePictures('shots.mjs', kDevices, '?seed=41', async (hands, save, device) => {
  const shot = async (name, { isStill = true, byFinger = device.touch } = {}) => {
    if (isStill) await hands.page.mouse.move(4, 62);  // no hover, no tooltip
    if (byFinger) await hands.page.touchscreen.tap(12, 12);  // hints are for what touched last
    await hands.page.waitForTimeout(900);
    await save(name);
  };
  await shot('1-shelf');
  await openLesson(hands);
  await shot('2-lesson');
  await hands.clickInPage(/^Free-hand: /);
  await hands.untilScreen('briefing');
  await shot('2-briefing-freehand');
  await hands.click('Back');
  await hands.untilScreen('lesson');
  await hands.click('Shelf');
  await goToBench(hands, 'Free-hand');
  await shot('3-bench-empty');
  await hands.key('2');
  await startMotor(hands);
  await enterLook(hands);
  await hands.page.mouse.down();
  await hands.untilState((state) => state.shoulder_depth_mm > 3, 'a hole of 3 mm', 120000);
  await shot('4-bench-drilling', { isStill: false, byFinger: false });
  await hands.page.mouse.up();
  await hands.key('r');
  await hands.untilState((state) => state.is_out, 'the drill out');
  await drillWholeFreehand(hands, { drills: kPlanned.slice(0, 3) });
  await shot('5-estimate');
  await giveEstimate(hands);
  await shot('6-debrief-freehand');
  await hands.click('Shelf');
  await shot('7-shelf-saved');
  await hands.click('Logbook');
  await shot('7-logbook');
  await hands.click('Shelf');
  await openLesson(hands);
  await hands.clickInPage(/^Drill-guided: /);
  await hands.untilScreen('briefing');
  await shot('8-briefing-guided');
  await hands.click('Back');
  await hands.untilScreen('lesson');
  await hands.click('Shelf');
  await goToBench(hands, 'Drill-guided');
  await hands.click('Put guide on');
  await hands.page.waitForTimeout(300);
  await shot('9-bench-guide-unseated');
  await hands.key('h');
  await seatGuide(hands);
  await drillGuided(hands, kPlanned[0]);
  await shot('10-bench-guide-drilled');
  await hands.key('Enter');
  await hands.untilScreen('estimate');
  await hands.click('Skip');
  await hands.untilScreen('debrief');
  await hands.click('Compare');
  await hands.click(/^Free-hand, /);
  await shot('11-compare-list');
  await hands.click('Done');
  await shot('12-debrief-compared');
});
