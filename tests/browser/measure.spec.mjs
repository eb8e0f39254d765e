// Real blocks in the Classroom: a synthetic photograph of known geometry is measured by real pointer events, a pin and a
// probe fill the row, a foreign table is mapped and taken, and the printable form fits one page.
import { readFile } from 'node:fs/promises';
import { check, Visitor } from './lib.mjs';

const openClassroom = (visitor) => visitor.open('classroom.html');

/** Waits for an element of the page and gives its locator. */
async function seen(hands, selector) {
  const found = hands.page.locator(selector).first();
  await found.waitFor({ state: 'visible', timeout: 60000 });
  return found;
}

const press = async (hands, name) => (await seen(hands, `dialog button:has-text("${name}"):visible`)).click();

/**
 * A block of 25.4 mm from above as a PNG, drawn by the page's own canvas: `map` puts mm (x right, y up) into the picture.
 * A hole of 4.2 mm at (0.9, -0.4); the soft half is right.
 */
const kHole = { x: 0.9, y: -0.4, diameter: 4.2 };
const kWidth = 1600;
const kHeight = 1200;

const straight = ({ x, y }) => ({ x: 790 + 38 * (Math.cos(0.06) * x - Math.sin(0.06) * y), y: 610 - 38 * (Math.sin(0.06) * x + Math.cos(0.06) * y) });

/** The same block from a camera that stands askew. */
function askew({ x, y }) {
  const w = 1 + 0.0045 * x + 0.006 * y;
  return { x: 800 + (36 * x + 3 * y) / w, y: 600 - (34 * y - 2 * x) / w };
}

function drawBlock(hands, map, marks) {
  const ring = Array.from({ length: 240 }, (_, i) => map({
    x: kHole.x + 0.5 * kHole.diameter * Math.cos(i * Math.PI / 120), y: kHole.y + 0.5 * kHole.diameter * Math.sin(i * Math.PI / 120),
  }));
  const shapes = {
    dense: [[-12.7, -12.7], [0, -12.7], [0, 12.7], [-12.7, 12.7]].map(([x, y]) => map({ x, y })),
    soft: [[0, -12.7], [12.7, -12.7], [12.7, 12.7], [0, 12.7]].map(([x, y]) => map({ x, y })),
    ring, marks: marks.map(map),
  };
  return picture(hands, kWidth, kHeight, shapes);
}

/** A PNG file as bytes: filled outlines and small crosses. */
async function picture(hands, width, height, { dense = null, soft = null, ring = null, marks = [], lines = [] }) {
  const url = await hands.page.evaluate(({ width, height, dense, soft, ring, marks, lines }) => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [width, height];
    const ctx = canvas.getContext('2d');
    ctx.fillStyle = '#5a6672';
    ctx.fillRect(0, 0, width, height);
    const fill = (points, color) => {
      ctx.beginPath();
      points.forEach(({ x, y }, i) => (i === 0 ? ctx.moveTo(x, y) : ctx.lineTo(x, y)));
      ctx.closePath();
      ctx.fillStyle = color;
      ctx.fill();
    };
    if (dense) fill(dense, '#c9b48a');
    if (soft) fill(soft, '#efe4c8');
    if (ring) fill(ring, '#40362a');
    for (const { points, color, thick } of lines) {
      ctx.beginPath();
      points.forEach(({ x, y }, i) => (i === 0 ? ctx.moveTo(x, y) : ctx.lineTo(x, y)));
      ctx.strokeStyle = color;
      ctx.lineWidth = thick;
      ctx.stroke();
    }
    ctx.strokeStyle = '#b02020';
    ctx.lineWidth = 2;
    for (const { x, y } of marks) {
      ctx.beginPath();
      ctx.moveTo(x - 9, y);
      ctx.lineTo(x + 9, y);
      ctx.moveTo(x, y - 9);
      ctx.lineTo(x, y + 9);
      ctx.stroke();
    }
    return canvas.toDataURL('image/png');
  }, { width, height, dense, soft, ring, marks, lines });
  return Buffer.from(url.split(',')[1], 'base64');
}

async function giveFile(hands, name, mimeType, buffer) {
  const choosing = hands.page.waitForEvent('filechooser');
  await press(hands, 'photograph…');
  await (await choosing).setFiles({ name, mimeType, buffer });
}

/** Where pixels of the whole picture are on the screen, as the stage shows it at first. */
async function stageOf(hands, width, height) {
  const box = await (await seen(hands, 'dialog canvas:visible')).boundingBox();
  const scale = 0.98 * Math.min(box.width / width, box.height / height);
  return { scale, at: ({ x, y }) => ({ x: box.x + (box.width - width * scale) / 2 + x * scale, y: box.y + (box.height - height * scale) / 2 + y * scale }) };
}

async function clickAt(hands, { x, y }) {
  await hands.page.mouse.move(x, y);
  await hands.page.mouse.down();
  await hands.page.mouse.up();
}

const count = async (hands, step) => (await (await seen(hands, `dialog li[data-step="${step}"]:visible .db-step span:last-child`)).textContent()).trim();

/** The number ± its uncertainty of a line of results that begins with `name`. */
async function result(hands, name, nth = 0) {
  const lines = hands.page.locator('dialog .db-result:visible').filter({ hasText: new RegExp(`^${name}:`) });
  await lines.nth(nth).waitFor({ state: 'visible' });
  const text = await lines.nth(nth).textContent();
  const [, value, u] = /: ([\d.]+) ± ([\d.]+)/.exec(text) ?? [];
  check(value !== undefined, `no value in "${text}"`);
  return { value: Number(value), u: Number(u), text };
}

/** Truth within the stated uncertainty and half of the last printed digit, and the uncertainty of a sensible size. */
function within(found, truth, most, what) {
  check(found.u > 0 && found.u < most, `${what}: stated uncertainty ${found.u}`);
  check(Math.abs(found.value - Math.abs(truth)) <= found.u + 0.005, `${what}: measured ${found.text}, drawn ${truth}`);
}

async function measureTop({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const hands = await openClassroom(visitor);
  const png = await drawBlock(hands, straight, [{ x: 0, y: 0 }]);
  await hands.click('Measure a block…');
  await seen(hands, 'dialog.db-whole');

  // Bad files: a sentence, and nothing is shown.
  await giveFile(hands, 'notes.png', 'image/png', Buffer.from('no picture'));
  const trouble = await seen(hands, 'dialog .db-error:visible');
  check(/notes\.png: found no picture/.test(await trouble.textContent()), `bad file: ${await trouble.textContent()}`);
  await giveFile(hands, 'tiny.png', 'image/png', await picture(hands, 40, 40, {}));
  await hands.page.waitForFunction(() => /tiny\.png: found 40 x 40/.test(document.querySelector('dialog .db-error').textContent));

  await giveFile(hands, 'top.png', 'image/png', png);
  await hands.page.waitForFunction(() => document.querySelector('dialog .db-drop').hidden);
  const { at } = await stageOf(hands, kWidth, kHeight);
  const mark = (x, y) => clickAt(hands, at(straight({ x, y })));
  await mark(-12.7, -12.7);
  await mark(12.7, -12.7);
  check(await count(hands, 'edge') === '2 of 2', `edge: ${await count(hands, 'edge')}`);
  await mark(0, -11);
  await mark(0, 11);
  await mark(7, 3);
  await mark(0, 0);
  // The next step is chosen by itself but for the plan, which may be marked more than once.
  await press(hands, 'Points on the rim');
  for (let i = 0; i < 8; ++i) {
    await mark(kHole.x + 0.5 * kHole.diameter * Math.cos(i * Math.PI / 4), kHole.y + 0.5 * kHole.diameter * Math.sin(i * Math.PI / 4));
    if (i === 3) check(/found 4 points of the rim, expected 5 at least/.test(await (await seen(hands, 'dialog [role="status"]:visible')).textContent()), 'four rim points: no sentence');
  }
  within(await result(hands, 'Entry', 0), kHole.x, 0.3, 'entry md');
  const bl = await result(hands, 'Entry', 1);
  within(bl, kHole.y, 0.3, 'entry bl');
  check((await result(hands, 'Entry', 0)).text.includes('toward the soft half') && bl.text.includes('toward you'), `directions: ${bl.text}`);
  within(await result(hands, 'Rim diameter'), kHole.diameter, 0.4, 'rim diameter');

  // Keys: the chosen point is moved by pixels, undone, removed; a point is set without a pointer.
  const before = (await result(hands, 'Rim diameter')).value;
  for (let i = 0; i < 20; ++i) await hands.keyboard.press('ArrowRight');
  check((await result(hands, 'Rim diameter')).value !== before, 'arrow keys moved nothing');
  await hands.keyboard.press('Control+z');
  check((await result(hands, 'Rim diameter')).value !== undefined, 'undo');
  for (let i = 0; i < 25; ++i) await hands.keyboard.press('Control+z');
  check(/^\d+, at least 5$/.test(await count(hands, 'rim')), `after undo: ${await count(hands, 'rim')}`);
  const left = Number((await count(hands, 'rim')).split(',')[0]);
  await press(hands, 'Points on the rim');
  await hands.keyboard.press('ArrowUp');
  await hands.keyboard.press('Enter');
  check(Number((await count(hands, 'rim')).split(',')[0]) === left + 1, 'Enter set no point');
  await hands.keyboard.press('Delete');
  check(Number((await count(hands, 'rim')).split(',')[0]) === left, 'Delete removed no point');
  check(await hands.page.locator('dialog[open]').count() === 1, 'the dialog was closed by a key');
  check((await hands.state()).page === 'empty', 'a key reached the program behind the dialog');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
}

async function wholeRow({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 }, scheme: 'light' });
  const hands = await openClassroom(visitor);
  // A pin that leans 4 degrees with its lower end toward the right, 3 from the side toward the left; edges upright.
  const pin = (deg, x) => [0, 1].map((i) => ({ x: x + i * 500 * Math.sin(deg * Math.PI / 180), y: 120 + i * 500 * Math.cos(deg * Math.PI / 180) }));
  const edge = [{ x: 200, y: 300 }, { x: 200, y: 780 }];
  const pinPicture = (points) => picture(hands, 1000, 800, { lines: [{ points, color: '#e8e8e8', thick: 16 }, { points: edge, color: '#202020', thick: 4 }] });
  const [top, front, side] = [await drawBlock(hands, askew, [{ x: 0, y: 0 }]), await pinPicture(pin(4, 450)), await pinPicture(pin(-3, 520))];
  await hands.click('Measure a block…');

  // From above, straightened by the corners, the rim as an oval.
  await giveFile(hands, 'top.png', 'image/png', top);
  await hands.page.waitForFunction(() => document.querySelector('dialog .db-drop').hidden);
  await (await seen(hands, 'dialog input[name="straighten"]')).check();
  let stage = await stageOf(hands, kWidth, kHeight);
  const mark = (x, y) => clickAt(hands, stage.at(askew({ x, y })));
  await press(hands, 'The four corners');
  for (const [x, y] of [[-12.7, 12.7], [12.7, 12.7], [12.7, -12.7], [-12.7, -12.7]]) await mark(x, y);
  check(await count(hands, 'corners') === '4 of 4', `corners: ${await count(hands, 'corners')}`);
  await mark(0, 10);
  await mark(0, -10);
  await mark(8, 0);
  await mark(0, 0);
  await press(hands, 'Points on the rim');
  for (let i = 0; i < 10; ++i) await mark(kHole.x + 2.1 * Math.cos(0.2 + i * Math.PI / 5), kHole.y + 2.1 * Math.sin(0.2 + i * Math.PI / 5));
  within(await result(hands, 'Entry', 0), kHole.x, 0.35, 'entry md, straightened');
  within(await result(hands, 'Entry', 1), kHole.y, 0.35, 'entry bl, straightened');
  within(await result(hands, 'Rim diameter'), kHole.diameter, 0.5, 'rim, straightened');
  await (await seen(hands, 'dialog input[name="shape"][value="true"]')).check();
  within(await result(hands, 'Rim diameter'), kHole.diameter, 0.5, 'rim as an oval');
  await hands.page.locator('dialog p:visible').filter({ hasText: /^Longest 4\.\d\d mm/ }).waitFor();

  // Pin from two sides.
  for (const [tab, file, points] of [['Pin from the front', front, pin(4, 450)], ['Pin from the side', side, pin(-3, 520)]]) {
    await hands.page.locator('dialog [role="tab"]').filter({ hasText: tab }).click();
    await giveFile(hands, 'pin.png', 'image/png', file);
    await hands.page.locator('dialog canvas:visible:not(.db-empty)').waitFor();
    stage = await stageOf(hands, 1000, 800);
    for (const point of [...points, ...edge]) await clickAt(hands, stage.at(point));
  }
  const lean = await result(hands, 'Lean');
  within(lean, 3, 1.5, 'lean from the side');
  check(lean.text.includes('toward you'), `side: ${lean.text}`);
  await (await seen(hands, 'dialog input[name="side-right"][value="false"]:visible')).check();
  check((await result(hands, 'Lean')).text.includes('away from you'), 'from the other side the sign is the other');
  await (await seen(hands, 'dialog input[name="side-right"][value="true"]:visible')).check();

  // Probe and row.
  await hands.page.locator('dialog [role="tab"]').filter({ hasText: 'Depth by probe' }).click();
  await (await seen(hands, 'dialog input[name="readings"]')).fill('10,5 10.6 10.7');
  within(await result(hands, 'Depth'), 0.6 - 10.6 * (1 - Math.cos(5 * Math.PI / 180)), 0.8, 'depth');
  await hands.page.locator('dialog [role="tab"]').filter({ hasText: /^Row$/ }).click();
  await hands.page.locator('dialog li:visible').filter({ hasText: 'code name' }).waitFor();
  await (await seen(hands, 'dialog input[name="operator"]')).fill('amber-heron');
  await (await seen(hands, 'dialog select[name="approach"]')).selectOption('sleeve');
  await (await seen(hands, 'dialog input[name="period"]')).fill('1');
  await press(hands, 'Add to the table');
  await seen(hands, 'dialog footer button:has-text("Take 1 into the Classroom"):enabled');

  // Saved as CSV, with what only a real block has; then into the Classroom.
  const downloading = hands.page.waitForEvent('download');
  await press(hands, 'Save the table');
  const text = (await readFile(await (await downloading).path())).toString();
  const [header, row] = text.trim().split('\r\n').map((line) => line.split(','));
  const cells = Object.fromEntries(header.map((name, i) => [name, row[i]]));
  check(cells.operator === 'amber-heron' && cells.approach === 'sleeve' && cells.source === 'bench' && cells.measured === 'hole', `row: ${text}`);
  check(Math.abs(Number(cells.entry_md_mm) - kHole.x) <= Number(cells.entry_md_u95_mm), `entry_md_mm ${cells.entry_md_mm}`);
  check(Math.abs(Number(cells.tilt_md_deg) - 4) <= Number(cells.tilt_md_u95_deg), `tilt_md_deg ${cells.tilt_md_deg}`);
  check(Math.abs(Number(cells.tilt_bl_deg) + 3) <= Number(cells.tilt_bl_u95_deg), `tilt_bl_deg ${cells.tilt_bl_deg}`);
  check(Math.abs(Number(cells.rim_diameter_mm) - kHole.diameter) <= Number(cells.rim_diameter_u95_mm), `rim ${cells.rim_diameter_mm}`);
  check(cells.hole_diameter_mm === '' && cells.time_s === '' && cells.apex_md_mm !== '', 'what was not measured is not empty, or the end is missing');
  await press(hands, 'into the Classroom');
  const state = await hands.untilState((now) => now.roster?.attempts === 1, 'the measured hole in the Classroom');
  check(state.roster['table-row'] === 1 && state.roster.refused.length === 0, `roster ${JSON.stringify(state.roster)}`);
  await hands.item(/Source: real blocks/);
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
}

/** Drops files on the page: [name, content]. */
const drop = (hands, files) => hands.page.evaluate((all) => {
  const transfer = new DataTransfer();
  for (const [name, text] of all) transfer.items.add(new File([text], name));
  document.getElementById('canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
}, files);

async function foreignTable({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1024, height: 768 } });
  const hands = await openClassroom(visitor);
  const header = 'Student;Technik;Offset soft [cm];Offset buccal;Tiefe mm;Remarks\n';
  const rows = ['k1', 'k2', 'k3'].flatMap((who, i) => [`${who};A;0,08;${i},2;0,4;x`, `${who};B;0,01;0,1;0,1;`]);
  const text = `${header}${rows.join('\n')}\nk4;A;abc;0,1;0;=1+1\n`;
  await drop(hands, [['lab.csv', text]]);
  const dialog = await seen(hands, 'dialog.db-large');
  check(/lab\.csv: 7 rows, parted by semicolons/.test(await dialog.textContent()), 'the table is not introduced');
  const chosen = (column) => hands.page.locator(`dialog select[data-column="${column}"]`);
  check(await chosen('Student').inputValue() === 'operator' && await chosen('Offset soft [cm]').inputValue() === 'entry_md_mm' &&
    await chosen('Offset buccal').inputValue() === 'entry_bl_mm' && await chosen('Remarks').inputValue() === '', 'the guesses');
  const unit = hands.page.locator('dialog select[aria-label="Offset soft [cm]: unit"]');
  const plus = hands.page.locator('dialog select[aria-label="Offset buccal: what plus means"]');
  check(await unit.inputValue() === 'cm' && await plus.inputValue() === '-', 'unit and sign are not guessed');
  // A and B mean nothing yet: no row can be taken.
  check(await hands.page.locator('dialog footer button.db-primary').isDisabled(), 'rows can be taken without a technique');
  await hands.page.locator('dialog li').filter({ hasText: 'lab.csv:2: found "A" in the column "Technik"' }).waitFor();
  await hands.page.locator('dialog select[data-word="A"]').selectOption('freehand');
  await hands.page.locator('dialog select[data-word="B"]').selectOption('sleeve');
  await hands.page.locator('dialog li').filter({ hasText: 'lab.csv:8: found "abc" in the column "Offset soft [cm]"' }).waitFor();
  // Undone and done again by keyboard: the column is not taken, then it is.
  await chosen('Tiefe mm').selectOption('');
  await chosen('Tiefe mm').selectOption('depth_mm');
  await press(hands, 'Take 6 of 7 rows');
  const state = await hands.untilState((now) => now.roster?.attempts === 6, 'six holes');
  check(state.learners === 3 && state.roster.refused.length === 1 && state.roster.refused[0].startsWith('lab.csv:8:'), `refused ${state.roster.refused}`);
  await hands.item(/Source: real blocks/);

  // Converted as stated: 0.08 cm toward soft, 0.2 mm buccal.
  await hands.key('PageDown');
  await hands.click('Report files');
  const downloading = hands.page.waitForEvent('download');
  await hands.click('Save holes.csv');
  const saved = (await readFile(await (await downloading).path())).toString();
  const k1 = saved.split('\r\n').find((line) => line.includes('k1,,freehand'));
  check(k1.includes('0.8,-0.2,0.4') && k1.endsWith('bench'), `row: ${k1}`);

  // The same columns again: set as before, one press.
  await drop(hands, [['lab-2.csv', `${header}k5;A;0,02;0,1;0;\n`]]);
  await hands.page.locator('dialog p').filter({ hasText: 'Set as for the last table' }).waitFor();
  await press(hands, 'Take 1 of 1 rows');
  await hands.untilState((now) => now.roster?.attempts === 7, 'the seventh hole');
  // Left out: a sentence says so.
  await drop(hands, [['other.csv', 'a\tb\n1\t2\n']]);
  await press(hands, 'Leave this table out');
  await hands.untilState((now) => now.roster?.refused.some((one) => one.startsWith('other.csv: found columns with other names')), 'the refusal');
  check((await hands.state()).roster.attempts === 7, 'something of it was taken');
  check((await visitor.allTroubles()).length === 0, `troubles: ${(await visitor.allTroubles()).join('; ')}`);
}

/** Real and simulated holes in one class: never together unasked, and their marks differ. */
async function neverMixed({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await openClassroom(visitor);
  const rows = ['k1', 'k2', 'k3', 'k4', 'k5', 'k6'].map((who, i) => `${who},freehand,${0.1 * i},0.2,`).join('\n');
  await drop(hands, [['simulated.csv', `operator,approach,entry_md_mm,entry_bl_mm,source\n${rows.replaceAll(/,$/gm, ',simulated')}\n`],
    ['lab.csv', `Student,Method,Entry x (mm),Entry y (mm)\n${rows.replaceAll(/,$/gm, '')}\n`]]);
  await press(hands, 'Take 6 of 6 rows');
  await hands.untilState((now) => now.roster?.attempts === 12, 'twelve holes');
  await hands.item(/Source: simulated/);
  check((await hands.state()).shown_attempts === 12, 'both are collected');
  await hands.click('Report files');
  const downloading = hands.page.waitForEvent('download');
  await hands.click('Save class-summary.json');
  const summary = JSON.parse((await readFile(await (await downloading).path())).toString());
  check(summary.sources.length === 2 && summary.sources.every((one) => one.groups.length === 0 || one.groups[0].n === 6), 'sources are computed together');
  check((await visitor.allTroubles()).length === 0, 'troubles');
}

async function printedForm({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const hands = await openClassroom(visitor);
  await hands.click('Measure a block…');
  await seen(hands, 'dialog.db-whole');
  const opening = visitor.context.waitForEvent('page');
  await press(hands, 'Measuring form to print');
  const form = await opening;
  await form.waitForSelector('tbody tr');
  check(await form.locator('tbody tr').count() >= 10, 'too few rows');
  for (const column of ['operator', 'entry_md_mm', 'rim_diameter_mm', 'depth_mm', 'tilt_bl_deg']) {
    check((await form.locator('thead').textContent()).includes(column), `no column ${column}`);
  }
  for (const format of ['A4', 'Letter']) {
    const pdf = (await form.pdf({ format, landscape: true, preferCSSPageSize: false })).toString('latin1');
    const pages = (pdf.match(/\/Type\s*\/Page[^s]/g) ?? []).length;
    check(pages === 1, `${format}: ${pages} pages`);
  }
}

export const cases = [
  ['a photograph from above, by pointer and keys', measureTop],
  ['top, pin and probe to a row, into the Classroom', wholeRow],
  ['a foreign table is mapped and taken', foreignTable],
  ['real and simulated holes stay apart', neverMixed],
  ['the form to print fits one page', printedForm],
];
