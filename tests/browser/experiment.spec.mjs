// A fair experiment from plan to verdict, turn-in by file and by code, one's own place in the class, the participation record.
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { check, kRoot, runTool, Visitor } from './lib.mjs';
import { drop, inFolder } from './drops.mjs';

const kChecked_ms = 150000;

async function download(page, press) {
  const downloading = page.waitForEvent('download');
  await press();
  const file = await downloading;
  return { name: file.suggestedFilename(), text: await readFile(await file.path(), 'utf8'), path: await file.path() };
}

const dialog = (hands) => hands.page.locator('dialog[open]');

async function shut(hands) {
  await hands.page.keyboard.press('Escape');
  await dialog(hands).waitFor({ state: 'detached' });
}

/** Invented simulated holes in the orders of a plan; one learner goes the other way round when `odd`. */
function rows_of(plan, odd) {
  let rows = 'operator,approach,entry_md_mm,entry_bl_mm,depth_mm,period,source\n';
  plan.places.forEach((place, i) => {
    const order = odd && i === 0 ? [...place.order].reverse() : place.order;
    order.forEach((approach, k) => {
      rows += `${place.code},${approach},${(approach === 'sleeve' ? 0.3 : 1.0) + 0.02 * i + 0.03 * (k % 3)},0,0.1,${k + 1},simulated\n`;
    });
  });
  return rows;
}

async function planAndVerdict({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const hands = await visitor.open('classroom.html');
  await hands.key('e');
  const box = dialog(hands);
  await box.waitFor();
  // The worked example: 5 holes, 0.5 mm, SD 0.4, 0.8, 0.4 need 13 people.
  await box.getByText(/13 people are needed, each with 5 holes/).waitFor();
  await box.getByText(/14 make both orders equally frequent/).waitFor();
  await box.getByLabel('People who drill').fill('1');
  await box.getByText(/People who drill: found 1, expected 2 to 500/).waitFor();
  check(await box.getByRole('button', { name: 'Save the plan' }).isDisabled(), 'a wrong plan can be saved');
  await box.getByLabel('People who drill').fill('6');
  await box.getByLabel('Holes by each technique, of each person').fill('3');
  await box.getByLabel('Seed of the draw').fill('4711');
  await box.getByLabel('Name of the experiment').fill('Monday group');
  for (let i = 1; i <= 6; ++i) await box.getByLabel(`Code name at place ${i}`, { exact: true }).fill(`code-${i}`);
  await box.getByText(/less than asked/).waitFor();
  await hands.page.waitForTimeout(400);
  const file = await download(hands.page, () => box.getByRole('button', { name: 'Save the plan' }).click());
  check(file.name === 'monday-group.experiment.json', `the plan is called ${file.name}`);
  const plan = JSON.parse(file.text);
  check(plan.seed === 4711 && plan.places.length === 6 && plan.places[5].code === 'code-6', 'the file holds another plan');
  const firsts = plan.places.filter((place) => place.order[0] === 'freehand').length;
  check(firsts === 3, `${firsts} of 6 begin free-hand`);
  const sheet = await download(hands.page, () => box.getByRole('button', { name: 'Save the sheet to print' }).click());
  check(sheet.text.includes('seed 4711') && sheet.text.includes('code-6') && !/<script/i.test(sheet.text), 'the sheet lacks something');
  await shut(hands);

  // The command line takes it, and refuses an order that was not drawn.
  await inFolder(async (folder) => {
    const name = path.join(folder, 'monday-group.experiment.json');
    await writeFile(name, file.text);
    const good = await runTool(['check', name]);
    check(good.code === 0, `check: ${good.stdout}${good.stderr}`);
    await writeFile(name, file.text.replace('"seed": 4711', '"seed": 4712'));
    const bad = await runTool(['check', name]);
    check(bad.code === 1 && /expected the order that the seed 4712 gives/.test(bad.stdout), `check of an edited plan: ${bad.stdout}`);
  });

  // The plan alone waits; with the attempts it is held against them.
  await drop(hands, [[file.name, file.text]]);
  await hands.untilState((state) => /The plan is taken: 6 places/.test(state.notice), 'the plan to be taken');
  await drop(hands, [['holes.csv', rows_of(plan, false)]]);
  await hands.untilState((state) => /6 of 6 planned people followed/.test(state.experiment ?? ''), 'the verdict');
  await hands.click('Fair experiment');
  await hands.item(/95 % interval/);
  await hands.item(/6 of 6 planned people followed/);
  await hands.item(/speaks about people like these/);
  await hands.click('Report files');
  const report = await download(hands.page, () => hands.click('Save report.html'));
  check(report.text.includes('The planned experiment: Monday group'), 'the report does not speak of the plan');

  // The same class with one who went the other way round.
  await hands.page.reload();
  const again = await visitor.open('classroom.html');
  await drop(again, [[file.name, file.text], ['holes.csv', rows_of(plan, true)]]);
  await again.untilState((state) => /5 of 6 planned people followed.*1 went in another order/.test(state.experiment ?? ''), 'one who went another way');
  await again.click('Fair experiment');
  await again.item(/code-1 .*another order from hole/);
  await again.key('n');
  await again.until(async () => !(await again.items()).some((item) => item.label.includes('code-')), 'hidden names');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
}

/** A logbook file of practised attempts, all of one learner. */
async function logbookOf(folder, count) {
  const out = path.join(folder, 'own');
  const made = await runTool(['practise', path.join(kRoot, 'lessons/find-the-centre.lesson.json'), '--count', String(count), '--seed', '9', '--out', out]);
  check(made.code === 0, `practise: ${made.stderr}`);
  const names = [];
  for (let i = 1; i <= count; ++i) for (const way of ['freehand', 'sleeve']) names.push(`${way}-${String(i).padStart(5, '0')}.attempt.json`);
  const attempts = await Promise.all(names.map(async (name, i) => ({
    when: `2026-03-0${1 + i} 10:00`, finished_days: 20513 + i, attempt: await readFile(path.join(out, name), 'utf8'),
  })));
  return JSON.stringify({ format: 'driftbench-logbook', version: 1, attempts });
}

/** A class summary of nine invented learners, as the command line makes it. */
async function summaryOf(folder) {
  let rows = 'operator,approach,entry_md_mm,entry_bl_mm,depth_mm,period,source\n';
  for (let i = 0; i < 9; ++i) for (let k = 0; k < 3; ++k) {
    rows += `c${i},freehand,${0.5 + 0.1 * i},${0.2 * k},0.1,${k + 1},simulated\nc${i},sleeve,${0.05 * i},${0.1 * k},0.1,${k + 4},simulated\n`;
  }
  const table = path.join(folder, 'class.csv');
  await writeFile(table, rows);
  const made = await runTool(['class', table, '--out', path.join(folder, 'report')]);
  check(made.code === 0, `class: ${made.stderr}`);
  return readFile(path.join(folder, 'report', 'class-summary.json'), 'utf8');
}

async function turnInAndCompare({ bench }) {
  await inFolder(async (folder) => {
    const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
    await visitor.context.grantPermissions(['clipboard-read', 'clipboard-write'], { origin: new URL(bench.address).origin });
    const hands = await visitor.open('');
    await drop(hands, [['own.logbook.json', await logbookOf(folder, 2)]]);
    await hands.untilState((state) => (state.saved?.length ?? 0) === 4, 'four attempts in the logbook');
    await hands.click('Logbook');
    await hands.click('Turn in, compare…');
    const box = dialog(hands);
    await box.getByRole('tab', { name: 'Turn in' }).waitFor();
    await box.getByText(/Not inside: your name/).waitFor();
    const zip = await download(hands.page, () => box.getByRole('button', { name: 'Save the file' }).click());
    check(/\.zip$/.test(zip.name), `the file is called ${zip.name}`);
    await box.getByRole('button', { name: 'Copy the code' }).click();
    await box.getByText(/Copied: \d+ characters for 4 attempts/).waitFor();
    const code = await box.getByLabel('The code').inputValue();
    check(/^Driftbench turn-in of .*: 4 attempts, numbers only, no movement\./.test(code), `the code begins ${code.slice(0, 80)}`);
    check(code.length < 2500, `the code has ${code.length} characters`);

    // The record: what the program knows stands in it, what it does not is asked for.
    await box.getByRole('tab', { name: 'Participation record' }).click();
    await box.getByLabel('Name', { exact: true }).fill('Ada <Lamb>');
    await box.getByLabel('Provider', { exact: true }).fill('Course office');
    const record = await download(hands.page, () => box.getByRole('button', { name: 'Save the record to print' }).click());
    check(record.text.includes('Ada &lt;Lamb&gt;') && record.text.includes('Not a certificate. Credit is decided by the provider.') &&
      record.text.includes('find-the-centre'), 'the record lacks something');
    const data = await download(hands.page, () => box.getByRole('button', { name: 'Save it as data' }).click());
    check(JSON.parse(data.text).lessons[0].attempts === 4, 'the data count other attempts');
    await shut(hands);
    check(!(await hands.page.evaluate(() => JSON.stringify({ ...localStorage }))).includes('Ada'), 'the name was kept');

    // The comparison, by dropping the summary anywhere.
    const summary = await summaryOf(folder);
    await drop(hands, [['class-summary.json', summary]]);
    await box.getByText('The class: 9 people, 54 attempts.').waitFor();
    await box.getByText(/The middle half of the class: \d/).first().waitFor();
    check(await box.locator('svg[role="img"]').count() === 1, 'no picture of the comparison');
    await shut(hands);
    await drop(hands, [['class-summary.json', '{"format": "driftbench-class", "version": 2}']]);
    await box.getByText(/found the number 2, expected version 1/).waitFor();
    await shut(hands);
    const troubles = await visitor.allTroubles();
    check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);

    // What was handed in arrives: the file is repeated, the code counts as rows.
    const teacher = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
    const room = await teacher.open('classroom.html');
    await room.key('v');
    await dialog(room).getByLabel('Turn-in code').fill(`Hello,\n> ${code.replaceAll('\n', '\n> ')}\nBye`);
    await dialog(room).getByRole('button', { name: 'Take it' }).click();
    await room.untilState((state) => state.roster?.['table-row'] === 4, 'four rows of the code');
    await drop(room, [[zip.name, await readFile(zip.path)]]);
    const seen = await room.untilState((state) => state.roster?.equal === 4, 'the same attempts from the file', kChecked_ms);
    check(seen.roster.attempts === 4 && seen.roster.refused.length === 0, `roster ${JSON.stringify(seen.roster)}`);
    // A code that was changed on its way says so; one that is pasted without a dialog is taken too.
    await room.page.evaluate((text) => {
      const transfer = new DataTransfer();
      transfer.setData('text/plain', text);
      document.getElementById('canvas').dispatchEvent(new ClipboardEvent('paste', { clipboardData: transfer, bubbles: true, cancelable: true }));
    }, code.replace(/DRIFTBENCH-1\.(.)/, (_, letter) => `DRIFTBENCH-1.${letter === 'A' ? 'B' : 'A'}`));
    await room.untilState((state) => state.roster.refused.some((one) => /check sum does not fit/.test(one)), 'the damaged code');
    // Two of them side by side: the pictures change as they are wound, together.
    await room.click('Replay side by side');
    await room.click('Choose attempts…');
    const film = dialog(room);
    await film.getByRole('button', { name: 'Repeat and show' }).click();
    await film.getByText(/Space plays/).waitFor({ timeout: kChecked_ms });
    check(await film.locator('canvas').count() === 4, 'not two sections of two attempts');
    const shown = () => film.locator('canvas').evaluateAll((all) => all.map((one) => one.toDataURL()));
    const start = await shown();
    await film.getByRole('slider').press('End');
    const end = await shown();
    check(start.every((picture, i) => picture !== end[i]), 'a picture stays as it was');
    await film.getByRole('slider').press('Home');
    check((await shown()).every((picture, i) => picture === start[i]), 'winding back gives another picture');
    await film.getByRole('slider').press(' ');
    await film.getByRole('button', { name: 'Pause' }).waitFor();
    await room.until(() => film.getByRole('slider').evaluate((one) => one.valueAsNumber > 0), 'playing to wind');
    await film.getByRole('slider').press(' ');
    await film.getByRole('button', { name: 'Play' }).waitFor();
    await shut(room);
    // A record from the Classroom.
    await room.click('Report files');
    await room.click('Participation record…');
    const form = dialog(room);
    await form.getByLabel(/^result: find-the-centre/).selectOption('met');
    const given = await download(room.page, () => form.getByRole('button', { name: 'Save the record to print' }).click());
    check(given.text.includes('criterion met'), 'the record does not hold what was chosen');
    await shut(room);
    const others = await teacher.allTroubles();
    check(others.length === 0, `troubles: ${others.join('; ')}`);
  });
}

async function byLinkAndKeys({ bench }) {
  await inFolder(async (folder) => {
    const visitor = await Visitor.arrive(bench, { viewport: { width: 1024, height: 768 }, touch: true });
    const summary = await summaryOf(folder);
    await visitor.context.route('**/course/class-summary.json', (route) => route.fulfill({ body: summary, contentType: 'application/json' }));
    const hands = await visitor.open('?class=course/class-summary.json');
    const box = dialog(hands);
    await box.getByText('The class: 9 people, 54 attempts.').waitFor();
    await box.getByText(/You have no attempt of this lesson/).waitFor();
    // Tabs by arrow keys, out by Escape, and the focus is back in the work area.
    await box.getByRole('tab', { name: 'Compare with the class' }).focus();
    await hands.page.keyboard.press('ArrowRight');
    check(await box.getByRole('tab', { name: 'Participation record' }).getAttribute('aria-selected') === 'true', 'the arrow key does not turn the tab');
    await shut(hands);
    check(await hands.page.evaluate(() => document.activeElement.id) === 'canvas', 'the focus is lost');
    const other = await visitor.open(`?class=${encodeURIComponent('https://example.org/class-summary.json')}`);
    await other.untilState((state) => /reads from its own site only/.test(state.notice ?? ''), 'the refusal of another site');
    const troubles = (await visitor.allTroubles());
    check(troubles.length === 0, `troubles: ${troubles.join('; ')}`);
  });
}

export const cases = [
  ['a plan, its file, its sheet, and a class held against it', planAndVerdict],
  ['turned in by file and by code, compared privately, recorded', turnInAndCompare, { limit_ms: 480000 }],
  ['a class by its link; tabs and ways out by keys', byLinkAndKeys],
];
