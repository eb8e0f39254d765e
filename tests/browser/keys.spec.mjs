// A whole lesson attempt by keys alone, step by step, told only by the page's copy of the work area (role, name, value)
// and by what its live region says; nothing else of the program is looked at until it is over.
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { check, runTool, Visitor } from './lib.mjs';

const kWait_ms = 60000;
const kFollows_ms = 4000;
const kMostSteps = 120;
const kDrillKeys = ['2', '3', '4', '5'];

/** Someone with keys and a screen reader. */
class Reader {
  constructor(page) {
    this.page = page;
  }

  static async at(page) {
    await page.evaluate(() => {
      window.heard = [];
      const status = document.getElementById('status');
      new MutationObserver(() => window.heard.push(status.textContent)).observe(status, { childList: true, characterData: true, subtree: true });
    });
    return new Reader(page);
  }

  /** Role, name and state of everything, in order. */
  all() {
    return this.page.evaluate(() => [...document.querySelectorAll('#mirror > *')].map((node) => ({
      role: node.getAttribute('role') ?? { BUTTON: 'button', H2: 'heading', P: 'text' }[node.tagName],
      name: node.getAttribute('aria-label') ?? node.textContent,
      value: node.getAttribute('aria-valuetext') ?? '',
      isOn: node.getAttribute('aria-checked') === 'true',
      isHere: node.getAttribute('aria-current') === 'true',
    })));
  }

  async find(name, role) {
    return (await this.all()).find((one) => name.test(one.name) && (!role || one.role === role));
  }

  async until(ask, what, patience_ms = kWait_ms) {
    const end = Date.now() + patience_ms;
    for (;;) {
      const answer = await ask();
      if (answer) return answer;
      check(Date.now() < end, `waited in vain for ${what}; heard: ${(await this.heard()).slice(-4).join(' | ')}; ` +
        `there is: ${(await this.all()).map((one) => one.name).join(' | ').slice(0, 500)}`);
      await this.page.waitForTimeout(100);
    }
  }

  heard() {
    return this.page.evaluate(() => window.heard);
  }

  /** What was said since the last call of listen(). */
  async listen() {
    const all = await this.heard();
    const fresh = all.slice(this.listened ?? 0);
    this.listened = all.length;
    return fresh;
  }

  untilSaid(words, what) {
    return this.until(async () => (await this.heard()).slice(this.listened ?? 0).some((sentence) => words.test(sentence)), what);
  }

  /** Waits until the copy of the work area has stood still for a while. */
  async still() {
    let before = '';
    let since = Date.now();
    await this.until(async () => {
      const now = JSON.stringify(await this.all());
      if (now !== before) {
        before = now;
        since = Date.now();
      }
      return Date.now() - since > 800;
    }, 'the work area to stand still');
  }

  async key(name) {
    await this.page.keyboard.press(name, { delay: 50 });
    await this.page.waitForTimeout(80);
  }

  /** Tab until the focus is on it. */
  async tabTo(name) {
    const here = async () => (await this.all()).find((one) => one.isHere)?.name;
    for (let i = 0; i < 90; i += 1) {
      const now = await here();
      if (now !== undefined && name.test(now)) return;
      await this.key('Tab');
      // The copy follows the picture.
      for (const end = Date.now() + kFollows_ms; Date.now() < end && await here() === now;) await this.page.waitForTimeout(50);
    }
    check(false, `Tab never reaches ${name}; there is: ${(await this.all()).map((one) => one.name).join(' | ').slice(0, 500)}`);
  }
}

async function goToBench(reader) {
  await reader.until(() => reader.find(/^Find the centre: /), 'the shelf');
  await reader.tabTo(/^Find the centre: /);
  await reader.key('Space');
  await reader.until(() => reader.find(/^(Begin|Go on): /), 'the page of the lesson');
  await reader.tabTo(/^(Begin|Go on): /);
  await reader.key('Space');
  await reader.until(() => reader.find(/^Start$/), 'the briefing');
  await reader.key('s');
  await reader.until(async () => (await reader.find(/^Step by step$/))?.isOn, 'time to go step by step');
  await reader.tabTo(/^Start$/);
  await reader.key('Space');
  await reader.untilSaid(/^Bench, attempt 1/, 'the bench');
}

/** The words of the front look. */
const lookOf = async (reader) => (await reader.find(/^Front look/)).name;

/** Brings the tip to the middle, by what the look says of it. */
async function place(reader) {
  const keys = { right: 'ArrowLeft', left: 'ArrowRight', far: 'ArrowDown', near: 'ArrowUp' };
  for (let i = 0; i < kMostSteps; i += 1) {
    const [, tip] = /tip ([^;]*)/.exec(await lookOf(reader));
    const off = /([\d.]+) mm (right|left|far|near)/.exec(tip);
    if (!off) return;
    await reader.key(keys[off[2]]);
    await reader.still();
  }
  check(false, `the tip never comes to the middle: ${await lookOf(reader)}`);
}

async function lean(reader) {
  await reader.key('t');
  await reader.until(() => reader.find(/Arrows lean/), 'the arrows to lean');
  await reader.key('ArrowRight');
  await reader.key('ArrowRight');
  await reader.until(async () => /leans .*right/.test(await lookOf(reader)), 'a lean to the right');
  await reader.key('ArrowLeft');
  await reader.key('ArrowLeft');
  await reader.until(async () => !/leans .*[2-9]° right/.test(await lookOf(reader)), 'the drill upright again');
  await reader.key('t');
  await reader.until(() => reader.find(/Arrows move/), 'the arrows to move');
}

/** Pushes of half a second until it touches, then short ones, until the line of the planned depth has gone in. */
async function drillToDepth(reader) {
  await reader.listen();
  let push = 'x';
  for (let i = 0; i < kMostSteps; i += 1) {
    await reader.key(push);
    await reader.still();
    const said = await reader.listen();
    if (said.some((sentence) => /in past the 10 mm line/.test(sentence))) return;
    if (said.some((sentence) => /^Contact/.test(sentence))) push = 'Shift+X';
  }
  check(false, `the depth is never reached: ${await lookOf(reader)}; heard ${(await reader.heard()).slice(-5).join(' | ')}`);
}

async function wholeAttempt({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=71&mute=1');
  const reader = await Reader.at(hands.page);
  await goToBench(reader);
  await reader.key('Escape');
  for (const [i, key] of kDrillKeys.entries()) {
    await reader.key(key);
    await reader.until(async () => /tip/.test(await lookOf(reader)), 'a drill in the hand');
    await reader.still();
    if (i === 0) {
      await place(reader);
      await lean(reader);
    }
    await reader.key('Space');
    await reader.until(async () => (await reader.find(/^Motor/, 'switch'))?.isOn, 'the motor to turn');
    await drillToDepth(reader);
    await reader.listen();
    await reader.key('r');
    await reader.until(() => reader.find(/Take the next drill|Every planned drill was in/), 'the drill to be out');
    if (i === 0) {
      await reader.key('p');
      await reader.until(() => reader.find(/floor|wall/i, 'text'), 'what the probe found');
    }
  }
  await reader.key('Enter');
  await reader.untilSaid(/^Estimate your own error/, 'the estimate');
  await reader.tabTo(/^Your entry/);
  const before = (await reader.find(/^Your entry/)).value;
  await reader.key('ArrowRight');
  await reader.key('ArrowRight');
  await reader.until(async () => (await reader.find(/^Your entry/)).value !== before, 'the mark to move');
  await reader.tabTo(/^High$/);
  await reader.key('Space');
  await reader.until(async () => (await reader.find(/^High$/)).isOn, 'the confidence');
  await reader.tabTo(/^Show me$/);
  await reader.key('Space');
  await reader.untilSaid(/tolerance/, 'the result in words');
  const said = (await reader.heard()).find((sentence) => /tolerance/.test(sentence));
  check(/The entry is .*, the floor /.test(said), `the result is "${said}"`);
  const heard = await reader.heard();
  for (const words of [/^Contact/, /tip .*; (upright|leans)/, /in past the [68] mm line/]) {
    check(heard.some((sentence) => words.test(sentence)), `nobody said ${words}: ${heard.join(' | ').slice(0, 1500)}`);
  }

  // Over: now the program may be asked. The hole is one, the record names the keys and replays.
  const state = await hands.state();
  check(state.results.has_hole && Math.abs(state.results.depth_error_mm) < 1.5, `results ${JSON.stringify(state.results)}`);
  check(state.device === 'keys', `the record names "${state.device}"`);
  console.log(`      by keys: ${(state.end_step / 1000).toFixed(1)} s of drilling, entry ${state.results.entry_lateral_mm.toFixed(2)} mm off, ${heard.length} sentences`);
  const downloading = hands.page.waitForEvent('download');
  await reader.tabTo(/^Export$/);
  await reader.key('Space');
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-'));
  try {
    const file = path.join(folder, 'keys.attempt.json');
    await (await downloading).saveAs(file);
    const replayed = await runTool(['replay', file, '--json']);
    check(replayed.code === 0 && JSON.parse(replayed.stdout)[0].equal === true, `driftbench replay: ${replayed.stdout.slice(0, 300)}`);
  } finally {
    await rm(folder, { recursive: true });
  }
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function timeStandsStillBetweenKeys({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=72&mute=1');
  const reader = await Reader.at(hands.page);
  await goToBench(reader);
  await reader.key('Escape');
  await reader.key('2');
  await reader.key('Space');
  await hands.untilState((state) => state.resting && state.motor_rpm > 500, 'the bench to rest with the motor on');
  await hands.page.waitForTimeout(500);  // the last picture, sharp
  const before = await hands.state();
  await hands.page.waitForTimeout(1500);
  const after = await hands.state();
  check(after.step === before.step, `${after.step - before.step} steps ran between two keys`);
  check(after.meters.frames === before.meters.frames, 'frames were drawn between two keys');
  // A peck presses for exactly half a second of the bench's time, a short one for a tenth.
  for (const [key, steps] of [['x', 500], ['Shift+X', 100]]) {
    const entries = (await hands.state()).trace_entries;
    await reader.key(key);
    await hands.untilState((state) => state.resting && state.trace_entries === entries + 2, `${key} to press and let go`);
    const rows = await hands.page.evaluate(() => window.app.state().step);
    check(rows >= before.step + steps, `${key} ran too short`);
  }
}

export const cases = [
  ['a whole attempt by keys alone, read and heard', wholeAttempt, { limit_ms: 900000 }],
  ['time stands still between the keys', timeStandsStillBetweenKeys],
];
