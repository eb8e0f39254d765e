// The page's budgets: from navigation to the first click that counts, bytes of the first load, memory after an attempt.
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { brotliCompressSync } from 'node:zlib';
import { openBench, Visitor } from '../browser/lib.mjs';
import { drillWholeFreehand, giveEstimate, goToBench } from '../browser/drilling.mjs';
import { median, row } from './measure.mjs';

const kFirstInput_ms = 1000;
const kFirstLoad_kb = 450;
const kMemory_mb = 256;
const kLoads = 5;
const kPatience_ms = 60000;
const kSecondTry_ms = 1000;
// The pictures of the bench are 320 by 180 or smaller at the picture scale that software GL starts with.
const kViewport = { width: 1024, height: 576 };

/** Where the first lesson's start button is, once it can be seen. */
const shelfButton = () => {
  // Until the program has started, window.app is the element of that name.
  if (!window.app?.state || window.app.state().meters.frames < 1) return null;
  return window.app.items().find((item) => item.label.endsWith(': Begin') && item.enabled) ?? null;
};
const acceptedAt = () => (window.app.state().screen === 'lesson' ? performance.now() : 0);

/** One load by a visitor who was never here: times in ms from navigation, names of what was fetched. */
async function firstLoad(bench) {
  const context = await bench.browser.newContext({ viewport: kViewport, serviceWorkers: 'block' });
  try {
    const page = await context.newPage();
    const fetched = new Set();
    page.on('response', (response) => fetched.add(new URL(response.url()).pathname));
    await page.goto(bench.address, { waitUntil: 'commit' });
    const seen = await page.waitForFunction(shelfButton, null, { timeout: kPatience_ms });
    const { item, started, shown } = await seen.evaluate((found) => ({
      item: found, started: window.app.startedAfter_ms, shown: performance.now(),
    }));
    let accepted = 0;
    for (let clicks = 0; accepted === 0 && clicks < 10; clicks += 1) {
      await page.mouse.click(item.x + item.w / 2, item.y + item.h / 2);
      const answer = await page.waitForFunction(acceptedAt, null, { timeout: kSecondTry_ms }).catch(() => null);
      accepted = answer === null ? 0 : await answer.jsonValue();
    }
    if (accepted === 0) throw new Error('no click on the shelf was accepted');
    return { accepted, started, shown, fetched: [...fetched] };
  } finally {
    await context.close();
  }
}

async function compressedBytes(site, names) {
  let total = 0;
  for (const name of names) {
    total += brotliCompressSync(await readFile(path.join(site, name === '/' ? 'index.html' : name))).length;
  }
  return total;
}

export async function load({ site }) {
  const bench = await openBench({ site });
  try {
    await firstLoad(bench); // warms the server and the browser
    const loads = [];
    for (let i = 0; i < kLoads; i += 1) loads.push(await firstLoad(bench));
    const of = (name) => median(loads.map((each) => each[name]));
    const bytes = await compressedBytes(site, loads[0].fetched);
    return [
      row('navigation to first accepted click', of('accepted'), 'ms', {
        budget: kFirstInput_ms,
        note: `median of ${kLoads} (${loads.map((each) => each.accepted.toFixed(0)).join(', ')}); ` +
          `program started after ${of('started').toFixed(0)}, shelf seen after ${of('shown').toFixed(0)}`,
      }),
      row('first load, brotli', bytes / 1000, 'kB', { budget: kFirstLoad_kb, note: `${loads[0].fetched.length} files` }),
    ];
  } finally {
    await bench.close();
  }
}

/** Keeps the program's memory where the test can see it. */
const watchMemory = () => {
  for (const name of ['instantiate', 'instantiateStreaming']) {
    const original = WebAssembly[name];
    WebAssembly[name] = async (...values) => {
      const made = await original.apply(WebAssembly, values);
      const { exports } = made.instance ?? made;
      // The second part of a split program has no memory of its own.
      window.programMemory ??= Object.values(exports).find((each) => each instanceof WebAssembly.Memory);
      return made;
    };
  }
};

/** Memory of the tab once a whole free-hand attempt has been drilled, judged and kept. */
export async function memory({ site }) {
  const bench = await openBench({ site, extraArguments: ['--enable-precise-memory-info'] });
  try {
    const visitor = await Visitor.arrive(bench, { viewport: kViewport });
    await visitor.context.addInitScript(watchMemory);
    const hands = await visitor.open('?seed=11');
    await goToBench(hands, 'Free-hand');
    await drillWholeFreehand(hands);
    await giveEstimate(hands);
    const { program, script } = await hands.page.evaluate(() => ({
      program: window.programMemory.buffer.byteLength / 1e6,
      script: performance.memory.usedJSHeapSize / 1e6,
    }));
    return [row('memory after one attempt', program + script, 'MB', {
      budget: kMemory_mb, note: `program ${program.toFixed(0)}, script ${script.toFixed(0)}`,
    })];
  } finally {
    await bench.close();
  }
}
