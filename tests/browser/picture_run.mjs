// What the commands that take pictures share: their words, the devices, and how a picture is taken.
import { mkdir } from 'node:fs/promises';
import path from 'node:path';
import { labelsOf } from './labels.mjs';
import { openBench, Visitor } from './lib.mjs';

export const kDevices = [
  { name: 'desktop-dark', viewport: { width: 1440, height: 900 }, scheme: 'dark' },
  { name: 'laptop-light', viewport: { width: 1280, height: 720 }, scheme: 'light' },
  { name: 'tablet-dark', viewport: { width: 1024, height: 768 }, touch: true, scheme: 'dark' },
];

/**
 * Opens `address` once for every wanted device and lets `tour(hands, save, device)` walk through it; `save(name)`
 * keeps what is on the screen; `arrive` opens another kind of page. The words of the command line are FOLDER
 * [--site FOLDER] [--only WORD] [--lang CODE].
 */
export async function takePictures(script, devices, address, tour, arrive = (visitor, where, english) => visitor.open(where, english)) {
  const words = process.argv.slice(2);
  const valueOf = (name) => (words.includes(name) ? words[words.indexOf(name) + 1] : undefined);
  const folder = words[0] && !words[0].startsWith('--') ? words[0] : undefined;
  if (!folder) {
    console.error(`usage: node tests/browser/${script} FOLDER [--site FOLDER] [--only WORD] [--lang CODE]`);
    process.exit(2);
  }
  const only = valueOf('--only');
  await mkdir(folder, { recursive: true });
  const bench = await openBench({ site: valueOf('--site') });
  const code = valueOf('--lang');
  const where = code ? `${address}${address.includes('?') ? '&' : '?'}lang=${code}` : address;
  const english = code && labelsOf(bench.site, code, address.startsWith('classroom') ? 'desk' : 'app');
  for (const device of devices) {
    if (only && !device.name.includes(only)) continue;
    const visitor = await Visitor.arrive(bench, device);
    const hands = await arrive(visitor, where, english);
    const save = async (name) => {
      const file = path.join(folder, `${device.name}-${name}.png`);
      await hands.page.screenshot({ path: file });
      console.log(file);
    };
    await tour(hands, save, device);
    await visitor.leave();
  }
  await bench.close();
}
