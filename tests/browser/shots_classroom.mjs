// Pictures of the Classroom: node tests/browser/shots_classroom.mjs FOLDER [--site FOLDER] [--only WORD]
import { kDevices, takePictures } from './picture_run.mjs';

const kPhone = { name: 'phone-light', viewport: { width: 390, height: 844 }, touch: true, scheme: 'light' };

await takePictures('shots_classroom.mjs', [...kDevices, kPhone], 'classroom.html', async (hands, save, device) => {
  const shot = async (name) => {
    await hands.page.mouse.move(4, 62);
    if (device.touch) await hands.page.touchscreen.tap(4, device.viewport.height - 4);
    await hands.page.waitForTimeout(600);
    await save(name);
  };
  await shot('0-empty');
  await hands.click('Open the demo class');
  await hands.untilState((state) => state.is_demo, 'the demo class');
  for (let page = 0; page < 10; ++page) {
    await hands.key(String(page));
    await shot(`1-page-${page}`);
  }
  for (const name of ['1-page-10', '1-page-11', '2-files']) {
    await hands.key('PageDown');
    await shot(name);
  }
  await hands.key('1');
  await hands.key('n');
  await hands.untilState((state) => state.are_names_hidden, 'hidden names');
  await shot('3-hidden');
  await hands.key('4');
  await hands.key('p');
  await shot('4-one-per-screen');
  await hands.key('5');
  await shot('5-one-per-screen-pairs');
});
