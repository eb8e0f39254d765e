// Without a network: the site kept by its service worker, a new build that takes over whole, and the one file for a disk.
import { execFileSync } from 'node:child_process';
import { appendFile, cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { serve } from '../../web/serve_static.mjs';
import { drillOneHole, goToBench, openSaved } from './drilling.mjs';
import { check, kRoot, untilDrawn, Visitor } from './lib.mjs';

const kPatience_ms = 90000;

/** Runs `work(folder, server)` with a copy of the site that may be changed. */
async function withCopy(bench, work) {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-site-'));
  await cp(bench.site, folder, { recursive: true });
  const server = await serve(folder);
  try {
    await work(folder, server);
  } finally {
    await server.close().catch(() => {});
    await rm(folder, { recursive: true });
  }
}

/** As the build does after its last file. */
const list = (folder) => execFileSync(process.execPath, [path.join(kRoot, 'src/offline.mjs'), folder]);

const mark = (folder, word) => appendFile(path.join(folder, 'boot.js'), `\nwindow.buildMark = '${word}';\n`);
const markIn = (hands) => hands.page.evaluate(() => window.buildMark ?? '');
const caches = (hands) => hands.page.evaluate(() => window.caches.keys());
const notice = (hands) => hands.page.locator('#notice-update');

const untilKept = (hands) => hands.until(
  () => hands.page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state === 'activated'), 'the site to be kept', kPatience_ms);

const untilWaiting = (hands) => hands.until(
  () => hands.page.evaluate(async () => Boolean((await navigator.serviceWorker.getRegistration()).waiting)), 'a new build to wait', kPatience_ms);

const visit = (bench, server, options) => Visitor.arrive({ ...bench, address: server.address }, { offline: true, ...options });

async function worksWithoutNetwork({ bench }) {
  await withCopy(bench, async (folder, server) => {
    const visitor = await visit(bench, server);
    let hands = await visitor.open();
    await untilKept(hands);
    check(JSON.stringify(await visitor.allTroubles()) === '[]', (await visitor.allTroubles()).join('; '));
    await hands.page.close();
    await server.close();

    hands = await visitor.open('?lesson=find-the-centre&lang=de');
    const state = await hands.state();
    check(state.screen === 'lesson' && state.language === 'de', `screen ${state.screen} in ${state.language}`);
    await hands.click(/^(Beginnen|Weiter): /);
    await hands.untilScreen('briefing');  // needs the second part of the program
    for (const needed of ['app_later.wasm', 'course.wasm', 'app.de.json', 'classroom.html', 'lesson_desk/desk.js', 'author.wasm', 'check.wasm']) {
      check(await hands.page.evaluate((name) => fetch(name).then((answer) => answer.ok, () => false), needed), `${needed} does not come`);
    }
    await hands.page.goto(`${server.address}classroom.html`);
    await untilDrawn(hands.page);
    await hands.page.goto(`${server.address}lesson-desk.html`);
    await hands.page.waitForFunction(() => window.lessonDesk, null, { timeout: kPatience_ms });
  });
}

async function changesWhole({ bench }) {
  await withCopy(bench, async (folder, server) => {
    await mark(folder, 'first');
    list(folder);
    const visitor = await visit(bench, server);
    let hands = await visitor.open();
    await untilKept(hands);
    await hands.page.close();

    // Somebody drills while the next build comes: no word of it, and not a file of it.
    hands = await visitor.open('?seed=5');
    await goToBench(hands, 'Free-hand');
    await mark(folder, 'second');
    list(folder);
    await hands.page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
    await untilWaiting(hands);
    await hands.page.waitForTimeout(1500);
    check(await notice(hands).count() === 0, 'a new version is offered at the bench');
    const text = await hands.page.evaluate(async () => (await fetch('boot.js')).text());
    check(text.includes("'first'") && !text.includes("'second'"), 'the page is given a file of the other build');

    // Not drilling: it is offered, but does not take over while another page is open.
    await hands.click('Leave');
    await hands.untilState((state) => state.screen !== 'bench', 'another screen than the bench');
    await notice(hands).waitFor({ timeout: kPatience_ms });
    check((await notice(hands).textContent()).includes('new version'), `it says "${await notice(hands).textContent()}"`);
    const other = await visitor.open();
    check(await markIn(other) === 'first', 'a second page got another build than the first');
    await notice(hands).getByRole('button', { name: 'Reload' }).click();
    await hands.until(async () => /Another tab/.test(await notice(hands).textContent()), 'a word about the other tab');
    check(await markIn(hands) === 'first' && await markIn(other) === 'first', 'the build changed under an open page');
    await other.page.close();
    await notice(hands).getByRole('button', { name: 'Reload' }).click();
    await hands.until(async () => (await markIn(hands).catch(() => '')) === 'second', 'the new build', kPatience_ms);
    await untilDrawn(hands.page);
    await hands.until(async () => (await caches(hands)).length === 1, 'the earlier build to be forgotten');
    const troubles = await visitor.allTroubles();
    check(troubles.length === 0, troubles.join('; '));
  });
}

/** A server in the middle of a change: the new list is there, a file still the old one. */
async function refusesHalfABuild({ bench }) {
  await withCopy(bench, async (folder, server) => {
    const visitor = await visit(bench, server);
    let hands = await visitor.open();
    await untilKept(hands);
    const [before] = await caches(hands);
    const old = await readFile(path.join(folder, 'boot.js'));
    await mark(folder, 'second');
    list(folder);
    await writeFile(path.join(folder, 'boot.js'), old);
    const ended = await hands.page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      const ending = new Promise((resolve) => registration.addEventListener('updatefound', () => {
        const next = registration.installing;
        next.addEventListener('statechange', () => resolve(next.state));
      }));
      registration.update().catch(() => {});
      return ending;
    });
    check(ended === 'redundant', `half a build became "${ended}"`);
    check((await caches(hands)).join() === before, `kept: ${await caches(hands)}`);
    await hands.page.close();
    await server.close();
    hands = await visitor.open();
    check(await markIn(hands) === '', 'the page has a file of the other build');
  });
}

async function asksTheServerOnlyForNews({ bench }) {
  const address = `${bench.address}app.wasm`;
  const first = await fetch(address);
  check(first.headers.get('cache-control') === 'no-cache', `cache-control ${first.headers.get('cache-control')}`);
  const again = await fetch(address, { headers: { 'if-none-match': first.headers.get('etag') } });
  check(again.status === 304, `the same file again: ${again.status}`);
  const other = await fetch(`${bench.address}sw.js`, { headers: { 'if-none-match': first.headers.get('etag') } });
  check(other.status === 200 && /javascript/.test(other.headers.get('content-type')), `another file: ${other.status}`);
}

/** The one file, opened from a disk, in a folder with nothing beside it. */
async function opensFromDisk({ bench }) {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench disk '));
  try {
    await cp(path.join(bench.site, 'offline.html'), path.join(folder, 'offline.html'));
    const { href } = pathToFileURL(path.join(folder, 'offline.html'));
    const { context } = await Visitor.arrive(bench);
    const visitor = new Visitor({ ...bench, address: href }, context);
    let hands = await visitor.open('?seed=9');
    await goToBench(hands, 'Free-hand');
    const done = await drillOneHole(hands);
    await hands.page.close();

    // Kept, as far as the browser lets a page from a disk keep anything; otherwise it says so.
    hands = await visitor.open();
    const state = await hands.untilState((now) => now.saved.length === 1 || /keep data/.test(now.notice), 'the attempt, or a word that it is not kept');
    if (state.saved.length === 1) {
      await openSaved(hands, /^Open: Free-hand/);
      const opened = await hands.untilScreen('debrief');
      check(opened.verification.includes('replays to the same result') && opened.hash === done.hash, `verification "${opened.verification}"`);
      // The dialog needs a program of its own.
      await hands.click('Shelf');
      await hands.click('Logbook');
      await hands.untilScreen('logbook');
      await hands.clickInPage(/^Turn in, compare/);
      await hands.page.getByRole('dialog').getByText('DRIFTBENCH-1').or(hands.page.locator('.db-code')).first().waitFor({ timeout: kPatience_ms });
      check(/DRIFTBENCH-1\./.test(await hands.page.locator('.db-code').inputValue()), 'no turn-in code');
      await hands.page.keyboard.press('Escape');
    }
    await hands.click('Shelf');
    await hands.clickInPage('Classroom');
    await hands.untilState((now) => /what learners use/.test(now.notice), 'a word that the Classroom is elsewhere');
    const german = await visitor.open('?lang=de');
    check((await german.state()).language === 'de', 'no German');
    const troubles = await visitor.allTroubles();
    check(troubles.length === 0, troubles.join('; '));
  } finally {
    await rm(folder, { recursive: true });
  }
}

export const cases = [
  ['all pages open without a network after the first visit', worksWithoutNetwork],
  ['a new build takes over whole, and not while somebody drills', changesWhole],
  ['half a build is refused', refusesHalfABuild],
  ['the server answers by what a browser has', asksTheServerOnlyForNews],
  ['one file opens from a disk and drills', opensFromDisk],
];
