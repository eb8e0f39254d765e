// A piece of jaw under study, by real pointer and keys: linked sections, plan, clearances, the saved file.
import { readFile } from 'node:fs/promises';
import { inflateSync } from 'node:zlib';
import { check, Visitor } from './lib.mjs';
import { misplaced } from './look.spec.mjs';

const kCase = 'Lower left first molar, healed ridge';
const kBuild_ms = 120000;

/** Brings an item of the shelf into sight and presses it. */
async function openCase(hands, title) {
  await hands.untilScreen('shelf');
  const size = hands.page.viewportSize();
  await hands.page.mouse.move(0.3 * size.width, 0.5 * size.height);
  await hands.until(async () => {
    const item = await hands.find(title);
    if (item && item.visible !== false && item.h >= 40 && item.y + item.h < size.height - 70) return true;
    await hands.page.mouse.wheel(0, 160);
    await hands.page.waitForTimeout(120);
    return false;
  }, `the case "${title}" in sight`);
  await hands.click(title);
  return hands.untilState((state) => state.study?.built, 'the piece of jaw to be built', kBuild_ms);
}

/** Where a point of the plane through the cross-hair lies: mm right and up of the cross-hair. */
async function placeIn(hands, section, right_mm, up_mm) {
  const item = await hands.item(section);
  const { study } = await hands.state();
  // The whole specimen is shown, so its middle is the picture's middle; the section knows where the cross-hair is.
  const cross = await hands.page.evaluate(() => window.app.state().study.cross_px);
  const at = cross[section.startsWith('Bucco') ? 0 : section.startsWith('Mesio') ? 1 : 2];
  check(item.w > 100, `${section} is shown`);
  return { x: at[0] + right_mm / study.mm_per_px, y: at[1] - up_mm / study.mm_per_px };
}

async function drag(hands, from, to) {
  await hands.page.mouse.move(from.x, from.y);
  await hands.page.waitForTimeout(80);
  await hands.page.mouse.down();
  await hands.page.waitForTimeout(80);
  for (let i = 1; i <= 4; i += 1) {
    await hands.page.mouse.move(from.x + (to.x - from.x) * i / 4, from.y + (to.y - from.y) * i / 4);
    await hands.page.waitForTimeout(60);
  }
  await hands.page.mouse.up();
  await hands.page.waitForTimeout(200);
}

/** Red, green and blue of a picture of one pixel, as the browser writes it (8 bit RGB or RGBA). */
function onePixel(png) {
  const parts = [];
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  // A filter byte, then the pixel; every filter leaves a first pixel as it is.
  return [...inflateSync(Buffer.concat(parts)).subarray(1, 4)];
}

async function studiesAndPlans({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const hands = await visitor.open('?mute=1');
  await openCase(hands, kCase);
  const labels = async () => (await hands.items()).map((item) => item.label).join('\n');
  const words = await labels();
  check(/tooth 36 \(FDI\), 19 \(US\)/.test(words), 'the tooth is named in both systems');
  check(/Cross-hair: .* model density \d+ · cancellous bone/.test(words), 'the place and its value stand in words');

  // The cross-hair by pointer: beside the implant, 6 mm down and 3 mm to the right in the main section.
  const before = (await hands.state()).study;
  const beside = await placeIn(hands, 'Bucco-lingual section', 3, -8);
  await drag(hands, beside, beside);
  const after = await hands.untilState((state) => Math.abs(state.study.cross_z_mm - before.cross_z_mm + 8) < 0.3, 'the cross-hair lower');
  check(Math.abs(Math.abs(after.study.cross_y_mm - before.cross_y_mm) - 3) < 0.3, 'the cross-hair went sideways');
  check(after.study.entry_y_mm === before.entry_y_mm, 'the plan stays');

  // What the page shows there is what the volume holds: whole range, no colours. The pixel's middle lies up to half a
  // pixel (0.04 mm) beside the point, and spongy bone changes by up to some 1,000 mg/cm3 in a millimetre.
  await hands.click('Whole range');
  await hands.click('Tissue colours');
  await hands.page.mouse.move(4, 62);
  await hands.page.waitForTimeout(600);
  const { value } = (await hands.state()).study;
  const at = await placeIn(hands, 'Bucco-lingual section', 0, 0);
  const shot = await hands.page.screenshot({ clip: { x: Math.floor(at.x), y: Math.floor(at.y), width: 1, height: 1 } });
  const grey = onePixel(shot)[0];
  check(value > 100, `the cross-hair stands in bone: ${value}`);
  check(Math.abs(grey - value / 2040 * 255) < 8, `pixel ${grey} for a density of ${value}`);

  // Numbers and clearances.
  await hands.click('Plan');
  const canal = await hands.item('Nerve canal');
  check(/implant \d.*deepest drill \d.*keeps 2\.0 mm/.test(canal.value), `the clearance is read out: ${canal.value}`);
  const free = (await hands.state()).study.clearances.canal;

  // The implant by pointer: 2 mm deeper. The platform's handle lies above the cross-hair by where that is now.
  const now = (await hands.state()).study;
  const grip = await placeIn(hands, 'Bucco-lingual section', -(now.cross_y_mm - now.entry_y_mm), now.entry_z_mm - 4 - now.cross_z_mm);
  const deeper = { x: grip.x, y: grip.y + 2 / now.mm_per_px };
  await drag(hands, grip, deeper);
  const moved = await hands.untilState((state) => Math.abs(state.study.entry_z_mm + 2) < 0.11, 'the implant 2 mm deeper');
  check(Math.abs(free - moved.study.clearances.canal - 2) < 0.15, `the canal came nearer by ${free - moved.study.clearances.canal} mm`);
  const warned = await hands.item('Nerve canal');
  check(/short of 2\.0 mm/.test(warned.value), `the margin is said to be short: ${warned.value}`);
  await hands.click('Undo');
  await hands.untilState((state) => state.study.entry_z_mm === now.entry_z_mm, 'one undo for the whole drag');
  await hands.click('Redo');
  await hands.untilState((state) => Math.abs(state.study.entry_z_mm + 2) < 0.11, 'redo');
  await hands.click('Undo');
  await hands.click('Length: less');
  await hands.untilState((state) => state.study.length_mm === now.length_mm - 1, 'a shorter implant');

  // The file that is saved.
  const waiting = hands.page.waitForEvent('download');
  await hands.click('Save plan');
  const file = await (await waiting).path();
  const saved = JSON.parse(await readFile(file, 'utf8'));
  check(saved.format === 'driftbench-specimen' && saved.plan.implant.length_mm === now.length_mm - 1, 'the file holds the plan');

  // The plan as a lesson: two files, and the lesson stands on the shelf and can be begun.
  const files = [];
  hands.page.on('download', (download) => files.push(download.suggestedFilename()));
  await hands.click('Make a lesson of it');
  await hands.until(() => files.length === 2, `two files, found ${files.join(', ')}`);
  check(files.includes('lower-36-healed-plan.lesson.json') && files.includes('lower-36-healed-plan.specimen.json'), files.join(', '));
  await hands.click('Shelf');
  await hands.untilScreen('shelf');
  await hands.page.mouse.move(400, 450);
  for (let i = 0; i < 12; i += 1) await hands.page.mouse.wheel(0, 200);
  await hands.item(kCase);
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function measuresByKeys({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
  const hands = await visitor.open('?mute=1');
  await openCase(hands, 'Upper right first molar under the sinus');
  await hands.click('Distance');
  const focused = async (label) => (await hands.find(label))?.focused;
  for (let i = 0; i < 40 && !(await focused('Mesio-distal section')); i += 1) await hands.key('Tab');
  check(await focused('Mesio-distal section'), 'Tab reaches the section');
  await hands.key('Enter');
  for (let i = 0; i < 6; i += 1) await hands.key('ArrowRight');
  await hands.key('Enter');
  await hands.item('3.0 mm');
  await hands.key('Delete');
  await hands.until(async () => !(await hands.find('3.0 mm')), 'the measurement to be taken away');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function plansAGuide({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
  const hands = await visitor.open('?mute=1');
  await openCase(hands, kCase);
  await hands.click('Guide');
  await hands.item(/^Free-hand: no guide is planned/);
  await hands.click('How much is guided: Drill-guided');
  await hands.item('What this guide lets through');
  const apex = async () => Number((await hands.item(/^Together about /)).label.match(/\d+\.\d/g)[1]);
  // Gum does not carry a guide under a raised flap: a sentence, no figures.
  await hands.click('What the guide rests on: Gum');
  await hands.item(/raises a flap/);
  check(!(await hands.find('What this guide lets through')), 'figures stand beside the refusal');
  await hands.click('What the guide rests on: Bone');
  await hands.item('What this guide lets through');
  const narrow = await apex();
  for (let i = 0; i < 5; i += 1) await hands.click('Gap: more');
  await hands.until(async () => await hands.find('What this guide lets through') && await apex() > narrow, 'a wider gap to let more through');
  // One undo a change, of plan and guide alike.
  for (let i = 0; i < 5; i += 1) await hands.click('Undo');
  await hands.until(async () => await hands.find('What this guide lets through') && await apex() === narrow, 'the gap as it was');
  const files = [];
  hands.page.on('download', (download) => files.push(download));
  await hands.click('Make a lesson of it');
  await hands.until(() => files.length === 2, 'two files');
  const lesson = files.find((file) => file.suggestedFilename().endsWith('.lesson.json'));
  const { blocks } = JSON.parse(await readFile(await lesson.path(), 'utf8'));
  check(blocks.length === 2 && blocks[1].approach === 'sleeve' && blocks[1].guide.support.on === 'bone', JSON.stringify(blocks[1]));
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function liesWell(bench, device) {
  const visitor = await Visitor.arrive(bench, device);
  const hands = await visitor.open('?mute=1');
  await openCase(hands, 'Upper left central incisor, fresh socket');
  for (const tab of ['Study', 'Plan', 'Guide']) {
    await hands.click(tab);
    if (tab === 'Guide') await hands.click('How much is guided: Fully guided');
    await hands.page.mouse.move(4, 62);
    await hands.page.waitForTimeout(400);
    const found = misplaced(await hands.items(), device.viewport);
    check(found.length === 0, `${tab} at ${device.viewport.width}x${device.viewport.height}: ${found.slice(0, 4).join('; ')}`);
  }
  await visitor.leave();
}

const kDevices = [
  { viewport: { width: 1440, height: 900 }, scheme: 'dark' },
  { viewport: { width: 1280, height: 720 }, scheme: 'light' },
  { viewport: { width: 1024, height: 768 }, touch: true, scheme: 'dark' },
];

const kPictures = ['Bucco-lingual', 'Mesio-distal', 'Axial', 'Outside'];

/** Where four pictures have no room there is one, and the choice which; the plan changes by finger. */
async function studiesInLittleRoom(bench, viewport) {
  const visitor = await Visitor.arrive(bench, { viewport, touch: true, scheme: 'light' });
  const hands = await visitor.open('?mute=1');
  const look = async (what) => {
    await hands.page.waitForTimeout(300);
    const found = misplaced(await hands.items(), viewport);
    check(found.length === 0, `${what} at ${viewport.width}x${viewport.height}: ${found.slice(0, 4).join('; ')}`);
  };
  await openCase(hands, kCase);
  // Nothing is touched, and the pictures are there: beside the specimen a section is black, its empty box is light.
  await hands.page.waitForTimeout(1500);
  const section = await hands.item('Bucco-lingual section');
  const clip = { x: Math.round(section.x + 0.03 * section.w), y: Math.round(section.y + 0.85 * section.h), width: 1, height: 1 };
  const beside = onePixel(await hands.page.screenshot({ clip }));
  check(Math.max(...beside) < 30, `the section is not drawn: ${beside}`);
  if (await hands.find('Outside')) {
    for (const picture of kPictures.toReversed()) {
      await hands.tap(picture);
      await look(picture);
      const shown = (await hands.items()).filter((item) => /^Look from outside$| section$/.test(item.label) && item.h > 60);
      check(shown.length === 1, `${shown.length} pictures are shown for "${picture}"`);
    }
  } else {
    await look('the sections');
  }
  for (const tab of ['Guide', 'Plan']) {
    await hands.tap(tab);
    await look(tab);
  }
  const before = (await hands.state()).study;
  await hands.tap('Length: more');
  await hands.untilState((state) => state.study.length_mm === before.length_mm + 1, 'an implant 1 mm longer');
  // A finger beside the implant brings the cross-hair there: 6 mm lower in the same plane.
  const place = await placeIn(hands, 'Bucco-lingual section', 5, -6);
  await hands.page.touchscreen.tap(place.x, place.y);
  await hands.untilState((state) => Math.abs(state.study.cross_z_mm - before.cross_z_mm + 6) < 0.5, 'the cross-hair lower');
  await hands.key('Control+z');
  await hands.untilState((state) => state.study.length_mm === before.length_mm, 'the plan as it was');
  await visitor.leave();
}

export const cases = [
  ['studies a case, plans, reads clearances, saves the plan', studiesAndPlans, { limit_ms: 400000 }],
  ['plans a guide: support, gap, room, what it lets through, the lesson of it', plansAGuide, { limit_ms: 300000 }],
  ['measures by keys alone', measuresByKeys, { limit_ms: 300000 }],
  ...kDevices.map((device) => [`nothing overlaps or is cut off at ${device.viewport.width}x${device.viewport.height}`,
    ({ bench }) => liesWell(bench, device)]),
  ...[{ width: 390, height: 844 }, { width: 768, height: 1024 }, { width: 720, height: 450 }].map((viewport) =>
    [`has room at ${viewport.width}x${viewport.height}`, ({ bench }) => studiesInLittleRoom(bench, viewport)]),
];
