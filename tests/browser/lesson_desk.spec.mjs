// The Lesson desk by real keys and pointer: a set of three lessons is built, tried and shared, and another browser works it.
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { Desk } from './desk_hands.mjs';
import { check, Hands, kRoot, untilDrawn, Visitor } from './lib.mjs';
import { drillFreehand, finishAttempt, kPlanned, openLesson, startAttempt } from './drilling.mjs';

const kKept_ms = 500;  // a draft is kept a moment after its last change

const noTroubles = async (visitor) => {
  const found = await visitor.allTroubles();
  check(found.length === 0, found.join('; '));
};

/** One shallow free-hand hole, so that a test can drill it. */
async function makeItShort(desk) {
  await desk.row('By hand').click();
  await desk.type(desk.field('Holes'), '2');
  await desk.type(desk.field('Depth'), '3');
  await desk.press('Remove: twist 3.4 mm');
  await desk.press('Remove: twist 2.7 mm');
  await desk.field('Own estimate first').selectOption('none');
  await desk.row(/Free-hand drill/).click();
  await desk.type(desk.field('Too shallow by'), '-2');
}

async function buildsSharesAndWorks({ bench }) {
  const author = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const desk = await Desk.open(author);
  await desk.press('Build a set');
  await (await desk.dialog('Add a lesson')).getByRole('button', { name: 'Use as it is: First holes: check and tour', exact: true }).click();
  await desk.add('Take it: Free-hand drill');
  await makeItShort(desk);
  await desk.add('Copy and change: Find the centre');
  await desk.row('My set').click();
  await desk.type(desk.field('Title'), 'Tuesday group');
  await desk.type(desk.field('Class word'), 'tuesday-1');
  check((await desk.read()).length === 0, `problems: ${JSON.stringify(await desk.errors())}`);

  // The outline by keys: the second lesson comes first, then goes where it was and back by undo and redo.
  await desk.row(/^2\. Free-hand drill/).click();
  await desk.page.keyboard.press('Alt+ArrowUp');
  await desk.row(/^1\. Free-hand drill/).waitFor();
  await desk.page.keyboard.press('Control+Z');
  await desk.row(/^2\. Free-hand drill/).waitFor();
  await desk.page.keyboard.press('Control+Y');
  await desk.row(/^1\. Free-hand drill/).waitFor();
  // And by dragging: the last one to the second place.
  await desk.row(/^3\. Find the centre/).dragTo(desk.row(/^2\. First holes/));
  await desk.row(/^2\. Find the centre/).waitFor();

  // The block is tried in the real app; nothing of it is kept.
  await desk.row('By hand').click();
  await desk.read();
  await desk.press('Try this block');
  const frame = await desk.trialFrame();
  await frame.waitForFunction(() => window.app.state().screen === 'briefing');
  const trial = await frame.evaluate(() => window.app.state());
  const own = (await desk.project()).items[0].lesson;
  check(trial.lesson === own.id && trial.block_index === 0 && trial.opened.length > 0, `the try-out shows ${trial.lesson}`);

  await desk.button('Share…').last().click();
  const dialog = await desk.dialog('Share');
  await desk.page.waitForFunction(() => document.querySelector('.desk-dialog textarea').value.includes('#open='));
  const link = await dialog.locator('textarea:visible').inputValue();
  check(link.startsWith(bench.address) && link.length < 8000, `a link of ${link.length} characters`);
  await noTroubles(author);

  // Another browser.
  const learner = await Visitor.arrive(bench);
  const page = await learner.context.newPage();
  page.on('pageerror', (error) => learner.troubles.push(`page error: ${error.message}`));
  await page.goto(link);
  const question = page.getByRole('dialog', { name: 'Open these lessons?' });
  await question.waitFor();
  const words = await question.innerText();
  check(words.includes('Tuesday group') && words.includes('Free-hand drill'), `the question says "${words}"`);
  await question.getByRole('button', { name: 'Open', exact: true }).click();
  let hands = new Hands(page);
  await untilDrawn(page);
  let state = await hands.untilState((now) => now.shelf.length > 0, 'the shelf');
  check(state.shelf[0].lessons.length === 3 && state.shelf[0].lessons[0].id === own.id, 'the shared set is not first on the shelf');
  check(!state.notice, state.notice);
  check(!(await page.evaluate(() => location.hash)), 'the link is still in the address');
  await openLesson(hands, 'Free-hand drill');
  await hands.click('Begin: By hand, hole 1 of 2');
  await startAttempt(hands);
  await drillFreehand(hands, kPlanned[0], 2.8);
  await finishAttempt(hands, { screen: 'debrief' });
  await hands.untilState((now) => now.saved.length === 1, 'the saved attempt');
  await page.waitForTimeout(1500);  // until the browser has written it down
  await page.close();

  hands = await learner.open();
  state = await hands.untilState((now) => now.saved.length === 1, 'the saved attempt');
  const set = state.shelf.find(({ lessons }) => lessons.some(({ id }) => id === own.id));
  check(set?.lessons.length === 3, 'the opened set is gone after a reload');
  const standing = set.lessons.find(({ id }) => id === own.id);
  check(standing.state === 'going-on' && standing.done === 1, `the lesson is ${standing.state}, ${standing.done} done`);
  check(state.opened.length === 1 && state.opened[0].endsWith('.set.json'), `kept: ${state.opened}`);

  // What was opened can be deleted again, lessons and all.
  await hands.clickInPage('Delete: Tuesday group');
  await Promise.all([hands.page.waitForEvent('load'), hands.click('Delete for good?: Tuesday group')]);
  await untilDrawn(hands.page);
  state = await hands.state();
  check(state.opened.length === 0 && !state.shelf.some(({ lessons }) => lessons.some(({ id }) => id === own.id)), 'the set is still there');
  await noTroubles(learner);
}

async function mendsWhileTyping({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1280, height: 720 } });
  let desk = await Desk.open(visitor);
  await desk.press('Take it: Free-hand against sleeve');
  check((await desk.read()).length === 0, 'a skeleton is not good');
  await desk.row('Through the sleeve').click();
  await desk.type(desk.field('Depth'), '99');
  await desk.read();
  const said = await desk.page.locator('.field.wrong').innerText();
  check(said.includes('99') && said.includes('3 to 20 mm'), `beside the field: "${said}"`);
  check(await desk.field('Depth').getAttribute('aria-invalid') === 'true', 'the field is not marked');
  await desk.row(/^1\./).click();
  await desk.press(/Depth: Found 99 mm/);
  check(await desk.page.evaluate(() => document.activeElement.closest('.field')?.innerText.includes('99')), 'the list does not lead to the field');
  await desk.page.keyboard.press('Control+A');
  await desk.page.keyboard.type('8,5');
  check((await desk.read()).length === 0, 'a decimal comma is not understood');
  check((await desk.project()).items[0].lesson.blocks[1].plan.depth_mm === 8.5, 'another depth');

  // Approach and guide belong together; a piece of jaw takes the place of the foam.
  await desk.field('Approach').selectOption('freehand');
  check((await desk.read()).length === 0 && !(await desk.project()).items[0].lesson.blocks[1].guide, 'a free-hand block has a guide');
  await desk.field('Approach').selectOption('pilot');
  check((await desk.read()).length === 0 && (await desk.project()).items[0].lesson.blocks[1].guide.sleeve === 'sleeve-52', 'a guided block has no guide');
  await desk.row(/^1\./).click();
  await desk.field('Kit').selectOption('jaw');
  await desk.row('Through the sleeve').click();
  await desk.page.getByLabel('Piece of jaw', { exact: true }).check();
  await desk.field('Which piece').selectOption('upper-24-healed');
  await desk.page.keyboard.press('Control+Z');
  await desk.page.keyboard.press('Control+Z');
  check((await desk.project()).items[0].lesson.blocks[1].specimen.halves.first === 'D2', 'undo does not bring the foam back');

  // A second language beside English; an objective more; all of it survives a reload.
  await desk.page.getByLabel('Second language').selectOption('de');
  await desk.row(/^1\./).click();
  await desk.type(desk.page.getByLabel('Title, German'), 'Mit und ohne Führung');
  await desk.page.locator('.field', { hasText: 'What is practised' }).getByRole('button', { name: 'Add a line' }).click();
  await desk.page.keyboard.type('Say what surprised you.');
  const before = (await desk.project()).items[0].lesson;
  check(before.title.de === 'Mit und ohne Führung' && before.objectives.at(-1).en === 'Say what surprised you.', 'the words are not there');
  await desk.page.waitForTimeout(kKept_ms);
  await desk.page.reload();
  await desk.page.waitForFunction(() => window.lessonDesk);
  check(JSON.stringify((await desk.project()).items[0].lesson) === JSON.stringify(before), 'the draft is another one after a reload');
  await desk.press('Drafts');
  await desk.press('Begin: Free-hand against sleeve');
  check((await desk.project()).items[0].lesson.id === before.id, 'the draft cannot be gone on with');
  await noTroubles(visitor);
}

async function savesAndOpens({ bench }) {
  const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 } });
  const desk = await Desk.open(visitor);
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-'));
  const openFile = async (...files) => {
    const choosing = desk.page.waitForEvent('filechooser');
    await desk.press('Open files…');
    await (await choosing).setFiles(files);
  };
  try {
    const shipped = path.join(kRoot, 'lessons/templates/jaw-case.lesson.json');
    await openFile(shipped);
    await desk.row(/A case in the jaw/).waitFor();
    check((await desk.read()).length === 0, 'a skeleton is not good');
    await desk.press('Save…');
    const [saving] = await Promise.all([desk.page.waitForEvent('download'), desk.press('Save jaw-case.lesson.json')]);
    const saved = path.join(folder, saving.suggestedFilename());
    await saving.saveAs(saved);
    check(await readFile(saved, 'utf8') === await readFile(shipped, 'utf8'), 'a file that was only opened is saved in another way');
    await desk.press('Close');

    // A set and two lessons, out of one zip file; a broken file is named with its place.
    await desk.press('Drafts');
    await desk.press('Take it: Through the sleeve');
    await desk.row(/^2\. Seat it first/).click();
    await desk.press('Take a copy to change it');
    await desk.row(/^4\. Which guide/).click();
    await desk.page.keyboard.press('Delete');
    // Entries that name a digest: of a lesson of the app, and of an own one.
    await desk.page.getByLabel('Show every field').check();
    for (const row of [/^1\. /, /^2\. /]) {
      await desk.row(row).click();
      await desk.page.getByLabel('Exactly this revision').check();
    }
    check((await desk.read()).length === 0 && (await desk.project()).items.length === 4, `the set is not good: ${JSON.stringify(await desk.errors())}`);
    await desk.press('Save…');
    const [zipping] = await Promise.all([desk.page.waitForEvent('download'), desk.press('Save all as one zip file')]);
    const zip = path.join(folder, zipping.suggestedFilename());
    await zipping.saveAs(zip);
    await desk.press('Close');
    const before = await desk.project();
    await desk.press('Drafts');
    await openFile(zip);
    await desk.row(/^2\. Seat it first/).waitFor();
    const after = await desk.project();
    check(after.set.id === before.set.id && after.items[1].lesson.id === before.items[1].lesson.id, 'the zip file holds something else');
    const broken = path.join(folder, 'broken.lesson.json');
    await writeFile(broken, '{"format": "driftbench-lesson",\n "version": 1,}');
    await openFile(broken);
    await desk.page.getByText(/broken\.lesson\.json cannot be opened: 2:/).waitFor();
    // The learner's page takes the same zip file, and keeps what was in it.
    const learner = await Visitor.arrive(bench);
    let hands = await learner.open();
    const choosing = hands.page.waitForEvent('filechooser');
    await hands.click('Open file…');
    await (await choosing).setFiles(zip);
    await hands.item(/the set is on the shelf/);
    await hands.untilState((state) => state.opened.some((name) => name.endsWith('.set.json')), 'the opened set');
    await hands.page.waitForTimeout(kKept_ms);
    await hands.page.close();
    hands = await learner.open(`?set=${before.set.id}&lock=1`);
    const state = await hands.state();
    check(!state.notice && state.shelf.length === 1 && state.shelf[0].lessons.length === 4, `the kept set is not what the address finds: ${state.notice}`);
    await noTroubles(learner);
  } finally {
    await rm(folder, { recursive: true });
  }
  await noTroubles(visitor);
}

async function refusesBadLinks({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const page = await visitor.context.newPage();
  await page.goto(`${bench.address}#open=abcdef`);
  const dialog = page.getByRole('dialog', { name: 'This link cannot be opened' });
  await dialog.waitFor();
  check((await dialog.innerText()).includes('damaged'), 'the dialog does not say why');
  await dialog.getByRole('button', { name: 'Go to the shelf' }).click();
  await untilDrawn(page);
  check(await page.evaluate(() => window.app.state().screen === 'shelf' && window.app.state().opened.length === 0 && !location.hash), 'the shelf is not there');

  const desk = await Desk.open(visitor);
  await desk.press('Take it: Sleeve drill');
  await desk.read();
  await desk.button('Share…').last().click();
  const share = await desk.dialog('Share');
  await desk.page.waitForFunction(() => document.querySelector('.desk-dialog textarea').value.includes('#open='));
  await share.getByLabel('Learners see nothing else').check();
  await desk.page.waitForFunction(() => document.querySelector('.desk-dialog textarea').value.includes('lock=1'));
  const link = await share.locator('textarea:visible').inputValue();
  await share.getByRole('tab', { name: 'What comes with the app' }).click();
  await share.getByLabel(/^Opens/).selectOption('set=guided-work');
  await desk.type(share.getByLabel(/^Class word/), 'Not a word');
  await share.getByText(/expected 1 to 64 lower-case/).waitFor();
  await desk.type(share.getByLabel(/^Class word/), 'monday');
  await desk.type(share.getByLabel(/^Seed/), '77');
  const plain = await share.locator('textarea:visible').inputValue();
  check(plain === `${bench.address}?set=guided-work&seed=77&class=monday`, `the address is ${plain}`);

  // Declined: nothing is kept. Taken, locked: nothing else is there.
  const learner = await Visitor.arrive(bench);
  const first = await learner.context.newPage();
  await first.goto(link);
  await first.getByRole('button', { name: 'Not now' }).click();
  await untilDrawn(first);
  check(await first.evaluate(() => window.app.state().opened.length === 0), 'a declined lesson is kept');
  const second = await learner.context.newPage();
  await second.goto(link);
  await second.getByRole('button', { name: 'Open', exact: true }).click();
  await untilDrawn(second);
  const hands = new Hands(second);
  const state = await hands.untilScreen('lesson');
  check(state.shelf.length === 1 && state.shelf[0].lessons.length === 1 && !state.notice, `the locked page shows ${state.shelf.length} rows, "${state.notice}"`);
  await noTroubles(learner);
}

async function servesEverybody({ bench }) {
  for (const scheme of ['dark', 'light']) {
    const visitor = await Visitor.arrive(bench, { viewport: { width: 1440, height: 900 }, scheme });
    const desk = await Desk.open(visitor);
    const inspect = async (where) => {
      const report = await new AxeBuilder({ page: desk.page }).exclude('iframe').analyze();
      const found = report.violations.map((item) => `${item.id}: ${item.nodes.map((node) => node.html).join(' ').slice(0, 200)}`);
      check(found.length === 0, `${scheme}, ${where}: ${found.join('; ').slice(0, 900)}`);
    };
    await inspect('start');
    await desk.press('Build a set');
    await inspect('adding');
    await (await desk.dialog('Add a lesson')).getByRole('button', { name: 'Take it: A case in the jaw', exact: true }).click();
    await desk.page.getByLabel('Show every field').check();
    await desk.page.getByLabel('Second language').selectOption('de');
    await inspect('lesson');
    await desk.row('By hand').click();
    await desk.type(desk.field('Depth'), '99');
    await desk.read();
    await inspect('block');
    // By keys alone: from the outline to the form, and into the next lesson.
    await desk.row('By hand').focus();
    await desk.page.keyboard.press('ArrowLeft');
    await desk.page.keyboard.press('ArrowUp');
    check((await desk.page.evaluate(() => window.lessonDesk.chosen())).item === -1, 'arrows do not move in the outline');
    await desk.page.keyboard.press('ArrowDown');
    await desk.page.keyboard.press('Control+d');
    check((await desk.project()).items.length === 2, 'Ctrl+D does not duplicate');
    await noTroubles(visitor);
  }
}

export const cases = [
  ['an instructor builds, tries and shares a set, and another browser works it', buildsSharesAndWorks],
  ['what is wrong is said beside its field, and nothing is lost on a reload', mendsWhileTyping],
  ['files are saved and opened again, by desk and shelf', savesAndOpens],
  ['links that are damaged, declined or locked', refusesBadLinks],
  ['the desk serves keyboards and screen readers in both themes', servesEverybody],
];
