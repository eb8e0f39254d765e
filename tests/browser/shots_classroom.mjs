// Pictures of the Classroom: node tests/browser/shots_classroom.mjs FOLDER [--site FOLDER] [--only WORD]
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { openBench, Visitor } from './lib.mjs';

const words = process.argv.slice(2);
const valueOf = (name) => (words.includes(name) ? words[words.indexOf(name) + 1] : undefined);
const folder = words[0] && !words[0].startsWith('--') ? words[0] : undefined;
if (!folder) {
  console.error('usage: node tests/browser/shots_classroom.mjs FOLDER [--site FOLDER] [--only WORD]');
  process.exit(2);
}
const only = valueOf('--only');
await mkdir(folder, { recursive: true });

const kDevices = [
  { name: 'desktop-dark', viewport: { width: 1440, height: 900 }, scheme: 'dark' },
  { name: 'laptop-light', viewport: { width: 1280, height: 720 }, scheme: 'light' },
  { name: 'tablet-dark', viewport: { width: 1024, height: 768 }, touch: true, scheme: 'dark' },
  { name: 'phone-light', viewport: { width: 390, height: 844 }, touch: true, scheme: 'light' },
];

const bench = await openBench({ site: valueOf('--site') });
for (const device of kDevices) {
  if (only && !device.name.includes(only)) continue;
  const visitor = await Visitor.arrive(bench, device);
  const hands = await visitor.open('classroom.html');
  const shot = async (name) => {
    await hands.page.mouse.move(4, 62);
    if (device.touch) await hands.page.touchscreen.tap(4, device.viewport.height - 4);
    await hands.page.waitForTimeout(600);
    const file = path.join(folder, `${device.name}-${name}.png`);
    await hands.page.screenshot({ path: file });
    console.log(file);
  };
  await shot('0-empty');
  await hands.click('Open the demo class');
  await hands.untilState((state) => state.is_demo, 'the demo class');
  for (let page = 0; page < 10; ++page) {
    await hands.key(String(page));
    await shot(`1-page-${page}`);
  }
  await hands.key('PageDown');
  await shot('2-files');
  await hands.key('1');
  await hands.key('n');
  await hands.untilState((state) => state.are_names_hidden, 'hidden names');
  await shot('3-hidden');
  await hands.key('4');
  await hands.key('p');
  await shot('4-one-per-screen');
  await hands.key('5');
  await shot('5-one-per-screen-pairs');
  await visitor.leave();
}
await bench.close();
