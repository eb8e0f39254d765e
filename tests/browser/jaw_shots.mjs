// Pictures of a jaw that is drilled: node tests/browser/jaw_shots.mjs FOLDER [--site FOLDER] [--only WORD] [--lang CODE]
import { drillFreehand, kPlanned, startAttempt } from './drilling.mjs';
import { kDevices, takePictures } from './picture_run.mjs';

await takePictures('jaw_shots.mjs', kDevices, '?lesson=near-the-canal&seed=41', async (hands, save) => {
  const shot = async (name) => {
    await hands.page.mouse.move(4, 62);  // no hover, no tooltip
    await hands.page.waitForTimeout(900);
    await save(name);
  };
  await hands.untilScreen('lesson');
  await hands.clickInPage(/^Drill-guided: /);
  await hands.untilScreen('briefing');
  await shot('1-jaw-briefing-guided');
  await hands.click('Back');
  await hands.untilScreen('lesson');
  await hands.clickInPage(/^Free-hand: /);
  await startAttempt(hands);
  await drillFreehand(hands, kPlanned[0], 5);
  await hands.key('v');
  await hands.item('Pin out');
  await shot('2-jaw-pin');
  await hands.key('f');
  await hands.item('Check film');
  await shot('3-jaw-film');
});
