// Pictures of the Lesson desk: node tests/browser/shots_lesson_desk.mjs FOLDER [--site FOLDER] [--only WORD]
import { Desk } from './desk_hands.mjs';
import { kDevices, takePictures } from './picture_run.mjs';

const kPhone = { name: 'phone-light', viewport: { width: 390, height: 844 }, touch: true, scheme: 'light' };
const kAddress = 'lesson-desk.html';

await takePictures('shots_lesson_desk.mjs', [...kDevices, kPhone], kAddress, async (desk, save) => {
  const shot = async (name) => {
    await desk.page.waitForTimeout(500);
    await save(name);
  };
  await shot('0-start');
  await desk.press('Build a set');
  await shot('1-add');
  await (await desk.dialog('Add a lesson')).getByRole('button', { name: 'Use as it is: First holes: check and tour', exact: true }).click();
  await shot('2-shipped');
  await desk.add('Take it: Free-hand against sleeve');
  await desk.read();
  await shot('3-lesson');
  await desk.page.getByLabel('Second language').selectOption('de');
  await desk.page.locator('.form').evaluate((form) => { form.scrollTop = 420; });
  await shot('4-two-languages');
  await desk.row('Through the sleeve').click();
  await desk.page.getByLabel('Show every field').check();
  await desk.type(desk.field('Depth'), '99');
  await desk.read();
  await shot('5-block-wrong');
  await desk.page.locator('.form').evaluate((form) => { form.scrollTop = 700; });
  await shot('6-block-lower');
  await desk.page.keyboard.press('Control+Z');
  await desk.read();
  await desk.row('My set').click();
  await shot('7-set');
  await desk.page.getByRole('treeitem', { name: 'Free-hand', exact: true }).click();
  await desk.read();
  if (await desk.button('Try-out').isVisible()) await desk.press('Try-out');
  await desk.press('Try this block');
  const frame = await desk.trialFrame();
  await frame.waitForFunction(() => window.app.state().screen === 'briefing');
  await desk.page.waitForTimeout(1500);
  await shot('8-trying');
  if (await desk.button('Back to the form').isVisible()) await desk.press('Back to the form');
  await desk.button('Share…').last().click();
  await desk.page.waitForTimeout(600);
  await shot('9-share');
}, (visitor) => Desk.open(visitor, kAddress));
