// The page around the program: start, address parameters, missing graphics, rest, lost graphics, accessibility.
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { check, kRoot, openBench, untilDrawn, Visitor } from './lib.mjs';

/** Waits until the page has been at rest for half a second. */
async function untilRest(hands) {
  await hands.until(async () => {
    const before = await hands.page.evaluate(() => window.app.counters.ticks);
    await hands.page.waitForTimeout(500);
    return (await hands.page.evaluate(() => window.app.counters.ticks)) === before;
  }, 'the page to rest');
}

async function startsClean({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  const state = await hands.state();
  check(state.screen === 'shelf', `the first screen is ${state.screen}`);
  check(/^[a-z]+ [a-z]+$/.test(state.code_name), `code name "${state.code_name}"`);
  check(await hands.page.evaluate(() => document.getElementById('loading').hidden), 'the loading text is still shown');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function keepsCodeName({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const first = (await (await visitor.open()).state()).code_name;
  const second = (await (await visitor.open()).state()).code_name;
  check(first === second, `"${first}" became "${second}"`);
}

async function readsParameters({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let hands = await visitor.open('?lesson=find-the-centre&theme=light&mute=1&seed=7');
  let state = await hands.state();
  check(state.screen === 'lesson' && state.lesson === 'find-the-centre', `screen ${state.screen}, lesson ${state.lesson}`);
  check(state.theme === 'light' && state.muted, 'theme or mute not taken from the address');
  check(state.notice === '', `notice "${state.notice}"`);
  for (const [query, word] of [['?lesson=no-such', 'no-such'], ['?seed=-3', '-3'], ['?seed=9007199254740993', '9007199254740993'],
    ['?theme=pink', 'pink'], ['?mute=loud', 'loud'], ['?lesson=%ff%fe', 'lesson']]) {
    hands = await visitor.open(query);
    state = await hands.state();
    check(state.screen === 'shelf', `${query} leads to ${state.screen}`);
    check(state.notice.includes(word), `${query} gives the notice "${state.notice}"`);
    await hands.page.close();
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function explainsMissingGraphics({ bench }) {
  const poor = await openBench({ site: bench.site, graphics: false });
  try {
    const page = await poor.browser.newPage();
    await page.goto(poor.address);
    await page.waitForSelector('#trouble:not([hidden])');
    const text = await page.textContent('#trouble');
    check(text.includes('WebGL 2'), `the page says "${text}"`);
    check(await page.evaluate(() => document.getElementById('loading').hidden), 'the loading text covers the message');
  } finally {
    await poor.close();
  }
}

async function restsWhenIdle({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await untilRest(hands);
  const before = await hands.state();
  const ticks = await hands.page.evaluate(() => window.app.counters.ticks);
  await hands.page.waitForTimeout(2000);
  const after = await hands.state();
  const turns = (await hands.page.evaluate(() => window.app.counters.ticks)) - ticks;
  check(after.meters.frames === before.meters.frames, `${after.meters.frames - before.meters.frames} frames were drawn at rest`);
  check(turns === 0, `the program was called ${turns} times at rest`);
  await hands.page.mouse.move(300, 300);
  await hands.until(async () => (await hands.frames()) > after.meters.frames, 'a frame after moving the pointer');
}

async function survivesLostGraphics({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await untilRest(hands);
  const picture = async () => (await hands.page.screenshot()).toString('base64');
  const before = await picture();
  await hands.page.evaluate(() => {
    window.lost = document.getElementById('canvas').getContext('webgl2').getExtension('WEBGL_lose_context');
    window.lost.loseContext();
  });
  await hands.page.waitForTimeout(300);
  const frames = await hands.frames();
  await hands.page.mouse.move(200, 200);
  await hands.page.waitForTimeout(300);
  check((await hands.frames()) === frames, 'frames were drawn without graphics');
  await hands.page.mouse.move(2, 2);
  await hands.page.evaluate(() => window.lost.restoreContext());
  await hands.until(async () => (await hands.frames()) > frames, 'a frame after the graphics came back');
  await untilRest(hands);
  await hands.until(async () => (await picture()) === before, 'the same picture as before', 8000);
}

async function showsCrash({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await hands.page.evaluate(() => { setTimeout(() => { throw new Error('a test of the crash page'); }, 0); });
  await hands.page.waitForSelector('#trouble:not([hidden])');
  const text = await hands.page.textContent('#trouble');
  check(text.includes('a test of the crash page') && /saved/.test(text), `the page says "${text}"`);
  await hands.page.click('#trouble button');
  await hands.page.waitForSelector('#trouble', { state: 'hidden' });
  await untilDrawn(hands.page);
}

async function isAccessible({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await untilRest(hands);
  const report = await new AxeBuilder({ page: hands.page }).analyze();
  const found = report.violations.map((item) => `${item.id}: ${item.nodes.map((node) => node.html).join(' ')}`);
  check(found.length === 0, found.join('; ').slice(0, 800));
  const items = (await hands.items()).filter((item) => item.role === 'button' && item.enabled && item.label);
  check(items.length > 0, 'the shelf has no button');
  check(await hands.page.getByRole('button', { name: items[0].label }).count() > 0,
    `the page mirror lacks the button "${items[0].label}"`);
}

async function canBeLeftByKeyboard({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open();
  await hands.page.focus('#canvas');
  await hands.key('Tab');
  check(await hands.page.evaluate(() => document.activeElement.id) === 'canvas', 'Tab left the canvas at once');
  await hands.key('Escape');
  await hands.keyboard.press('Tab');
  check(await hands.page.evaluate(() => document.activeElement.id) !== 'canvas', 'Escape, Tab did not leave the canvas');
}

async function keepsTabOnEveryScreen({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=71');
  const kMostTabs = 40;
  const kFollows_ms = 4000;
  const here = async () => (await hands.items()).find((item) => item.focused)?.label;
  const tabTo = async (label) => {
    for (let i = 0; i < kMostTabs; i += 1) {
      const now = await here();
      if (now !== undefined && label.test(now)) return;
      await hands.key('Tab');
      for (const end = Date.now() + kFollows_ms; Date.now() < end && await here() === now;) await hands.page.waitForTimeout(50);
    }
    check(false, `Tab never reaches ${label}`);
  };
  // What had the focus goes with its screen; Tab goes on all the same.
  await tabTo(/^Find the centre: /);
  await hands.key('Space');
  await hands.untilScreen('lesson');
  await tabTo(/^(Begin|Go on): /);
  await hands.key('Space');
  await hands.untilScreen('briefing');
  await tabTo(/^Start$/);
  await hands.key('Space');
  await hands.untilScreen('bench');
}

async function followsSizes({ bench }) {
  const visitor = await Visitor.arrive(bench, { scale: 2 });
  const hands = await visitor.open();
  const size = () => hands.page.evaluate(() => {
    const canvas = document.getElementById('canvas');
    return [canvas.width, canvas.height];
  });
  await hands.until(async () => (await size()).join() === '2560,1440', 'a canvas of 2560 x 1440');
  await hands.page.setViewportSize({ width: 1000, height: 600 });
  await hands.until(async () => (await size()).join() === '2000,1200', 'a canvas of 2000 x 1200');
}

async function isSmall({ bench }) {
  const measured = spawnSync(process.execPath, [path.join(kRoot, 'tests/architecture/first_load.mjs'), bench.site], { encoding: 'utf8' });
  check(measured.status === 0, `the download is too large:\n${measured.stdout}${measured.stderr}`);
}

async function startsBeforeTheSecondPart({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let release = null;
  const held = new Promise((resolve) => { release = resolve; });
  await visitor.context.route('**/app_later.wasm', async (route) => {
    await held;
    await route.continue();
  });
  const hands = await visitor.open('?lesson=find-the-centre');
  check((await hands.state()).screen === 'lesson', 'the page of the lesson waits for the second part');
  await hands.click(/^(Begin|Go on): /);
  await hands.untilState((state) => /moment/.test(state.notice), 'a word that the rest is coming');
  check((await hands.state()).screen === 'lesson', 'the briefing opened before the second part came');
  release();
  await hands.untilScreen('briefing');
  check((await hands.state()).notice === '', 'the word that the rest is coming stays');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

export const cases = [
  ['starts without errors, violations or foreign requests', startsClean],
  ['keeps the code name', keepsCodeName],
  ['reads the address and names what it cannot use', readsParameters],
  ['explains a browser without WebGL 2', explainsMissingGraphics],
  ['draws and computes nothing at rest', restsWhenIdle],
  ['goes on after the graphics were lost', survivesLostGraphics],
  ['shows what happened when the program stops', showsCrash],
  ['has no accessibility violations and mirrors its buttons', isAccessible],
  ['can be left by keyboard', canBeLeftByKeyboard],
  ['Tab goes on when the screen has changed', keepsTabOnEveryScreen],
  ['is a small download', isSmall],
  ['starts before the second part of the program has come', startsBeforeTheSecondPart],
  ['follows window size and pixel ratio', followsSizes],
];
