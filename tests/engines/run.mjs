// The same short course in three browser engines: node tests/engines/run.mjs [--only chromium|firefox|webkit] [--site FOLDER]
// Chromium makes the attempt that the others must repeat to the same state hash. Last line: "N passed, N failed".
import { spawnSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { drillOneHole, drillWholeGuided, goToBench, kPlanned, openSaved } from '../browser/drilling.mjs';
import { check, Hands, kRoot, openBench, runTool } from '../browser/lib.mjs';
import { openFirefox } from './firefox.mjs';
import { startScreen } from './processes.mjs';
import { RemotePage, untilTrue } from './remote_page.mjs';
import { openWebKit } from './webkit.mjs';

const words = process.argv.slice(2);
const valueOf = (name) => (words.includes(name) ? words[words.indexOf(name) + 1] : undefined);
const only = valueOf('--only');

const kEngines = {
  firefox: { open: openFirefox, needs: ['firefox-esr', 'Xvfb'], packages: 'firefox-esr, xvfb' },
  webkit: { open: openWebKit, needs: ['WebKitWebDriver', 'Xvfb'], packages: 'webkit2gtk-driver, xvfb' },
};
const isThere = (program) => spawnSync('which', [program]).status === 0;

/** Loads the page anew and waits until it draws. */
async function visit(hands, address) {
  await hands.page.goto(address);
  await untilTrue(() => hands.page.evaluate(() => typeof window.app?.state === 'function' && window.app.state().meters.frames > 2), 'the page to draw', 120000);
}

/** Files that the page offers are kept in the page, in place of the browser's way of saving. */
const catchFiles = (hands) => hands.page.evaluate(() => {
  window.offered = [];
  URL.createObjectURL = (blob) => {
    blob.text().then((text) => window.offered.push(text));
    return 'data:,';
  };
  HTMLAnchorElement.prototype.click = () => {};
});
const offered = (hands) => hands.until(() => hands.page.evaluate(() => window.offered[0] ?? null), 'the exported file');

const drop = (hands, name, text) => hands.page.evaluate(([file, content]) => {
  const event = new Event('drop', { bubbles: true, cancelable: true });
  event.dataTransfer = { files: [new File([content], file)] };
  document.getElementById('canvas').dispatchEvent(event);
}, [name, text]);

async function noTroubles(hands) {
  const found = await hands.page.evaluate(() => [...window.app.errors, ...window.app.violations]);
  check(found.length === 0, found.join('; '));
}

async function drillsFreehand({ hands, address, own }) {
  await visit(hands, `${address}?seed=71&lang=en`);
  await goToBench(hands, 'Free-hand');
  const done = await drillOneHole(hands);
  own.hash = done.hash;
  await noTroubles(hands);
}

async function keepsOverReload({ hands, address, own }) {
  await visit(hands, `${address}?lang=en`);
  await hands.untilState((state) => state.saved.length === 1, 'the saved attempt');
  await openSaved(hands, /^Open: Free-hand/);
  const opened = await hands.untilScreen('debrief');
  check(opened.verification.includes('replays to the same result') && opened.hash === own.hash, `verification "${opened.verification}", hash ${opened.hash}, was ${own.hash}`);
  await noTroubles(hands);
}

/** Another engine, that of node, finds the same bits. */
async function exportsTheSame({ hands, own }) {
  await catchFiles(hands);
  await hands.click('Export');
  own.text = await offered(hands);
  check(own.text.includes(own.hash), 'the exported file lacks the state hash of the page');
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-engine-'));
  try {
    const file = path.join(folder, 'own.attempt.json');
    await writeFile(file, own.text);
    const replayed = await runTool(['replay', file, '--json']);
    check(replayed.code === 0 && JSON.parse(replayed.stdout)[0].equal === true, `driftbench replay: ${replayed.stdout.slice(0, 300)} ${replayed.stderr.slice(0, 300)}`);
  } finally {
    await rm(folder, { recursive: true });
  }
}

async function repeatsChromiums({ hands, address, first }) {
  check(first.text, 'Chromium made no attempt to repeat');
  await visit(hands, `${address}?lang=en`);
  await drop(hands, 'chromium.attempt.json', first.text);
  const opened = await hands.untilScreen('debrief');
  check(opened.verification.includes('replays to the same result'), `verification "${opened.verification}"`);
  check(opened.hash === first.hash, `state hash ${opened.hash}, Chromium's is ${first.hash}`);
  await noTroubles(hands);
}

async function drillsThroughTheSleeve({ hands, address }) {
  await visit(hands, `${address}?seed=72&lang=en`);
  await goToBench(hands, 'Drill-guided');
  await drillWholeGuided(hands, { drills: kPlanned.slice(0, 1) });
  await hands.click('Skip');
  const done = await hands.untilScreen('debrief');
  check(done.results.has_hole && done.results.entry_lateral_mm < 1, `the sleeve let the entry stray by ${done.results.entry_lateral_mm} mm`);
  await noTroubles(hands);
}

/** The one file from a disk: it starts, goes as far as the bench, and says so when nothing is kept there. */
async function opensFromDisk({ hands, site }) {
  await visit(hands, `${pathToFileURL(path.join(site, 'offline.html')).href}?lang=en`);
  await goToBench(hands, 'Free-hand');
  await hands.key('2');
  await hands.untilState((state) => state.drill === 1, 'the drill in the hand');
  await noTroubles(hands);
}

const kCases = [
  ['a free-hand hole', drillsFreehand],
  ['kept over a reload, repeated to the same hash', keepsOverReload],
  ['exported, repeated by node to the same result', exportsTheSame],
  ["Chromium's attempt, repeated to Chromium's hash", repeatsChromiums],
  ['a hole through the sleeve', drillsThroughTheSleeve],
  ['the one file opens from a disk', opensFromDisk],
];

let passed = 0;
let failed = 0;
async function course(name, about) {
  for (const [title, run] of kCases) {
    const begun = Date.now();
    try {
      await run(about);
      passed += 1;
      console.log(`ok    ${name}: ${title} (${((Date.now() - begun) / 1000).toFixed(1)} s)`);
    } catch (failure) {
      failed += 1;
      console.log(`FAIL  ${name}: ${title}: ${failure.message}`);
      if (process.env.DRIFTBENCH_STACKS) console.log(failure.stack);
    }
  }
}

const bench = await openBench({ site: valueOf('--site') ?? path.join(kRoot, 'build/wasm/site') });
const first = {};
try {
  const context = await bench.browser.newContext({ viewport: { width: 1280, height: 720 }, serviceWorkers: 'block' });
  await course(`Chromium ${bench.browser.version()}`, { hands: new Hands(await context.newPage()), address: bench.address, site: bench.site, own: first, first });
  await context.close();
  for (const [name, { open, needs, packages }] of Object.entries(kEngines)) {
    if (only && only !== name) continue;
    const missing = needs.filter((program) => !isThere(program));
    if (missing.length > 0) {
      console.log(`${name} is not tried: ${missing.join(' and ')} not installed (Debian packages ${packages}).`);
      continue;
    }
    const screen = await startScreen();
    let engine = null;
    try {
      engine = await open(screen.name);
      await course(engine.name, { hands: new Hands(new RemotePage(engine.driver)), address: bench.address, site: bench.site, own: {}, first });
    } catch (failure) {
      failed += 1;
      console.log(`FAIL  ${name} did not start: ${failure.message}`);
    } finally {
      await engine?.end();
      await screen.end();
    }
  }
} finally {
  await bench.close();
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
