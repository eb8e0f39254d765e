// Random pointer, key, touch, pen and gamepad events: no exception, nothing stuck, no number that is not one.
//   DRIFTBENCH_FUZZ_MINUTES=10 node tests/browser/run.mjs --only fuzz_input    for longer; without it, half a minute
//   DRIFTBENCH_FUZZ_SEED=12 node tests/browser/run.mjs --only fuzz_input       from that seed; one a round, counted up
// A round begins on one screen with empty storage; its seed alone chooses screen, device and events, so that it can be
// done again. How the program's frames fall between the events is up to the machine.
import { check, Visitor } from './lib.mjs';
import { finishAttempt, goToBench, kPlanned, openLesson } from './drilling.mjs';

const kRound_ms = 30000;
const kMinutes = Number(process.env.DRIFTBENCH_FUZZ_MINUTES ?? kRound_ms / 60000);
const kFirstSeed = Number(process.env.DRIFTBENCH_FUZZ_SEED ?? 1);
const kReachForAll_ms = 120000;
const kBurst = 25;
const kViewports = [[1280, 720], [1024, 768], [768, 1024], [390, 844], [1440, 900]];
const kKeys = ['Space', 'Enter', 'Escape', 'Tab', 'Shift+Tab', 'ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End',
  'PageUp', 'PageDown', 'Delete', 'Backspace', 'Control+z', 'Control+y', 'Control+a', 'Control+v', 'Alt+x',
  ...'123456bdefghiklmnopqrstvwxyz[]-=?'];
const kHeld = ['Shift', 'x', 't', 'ArrowLeft', 'ArrowUp', ']'];
// The window library answers touches that the browser has taken for itself; the browser remarks on it, and nothing else happens.
const kRemark = /^console: Ignored attempt to cancel a touch\w+ event/;
// The ways that lead to the shelf from wherever a round ends.
const kWaysHome = /^(Leave|Shelf|Back|Skip|Close|Show me|Done|Cancel|No)$/;

/** Random numbers of a seed: 0 <= next() < 1. */
function numbersOf(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A gamepad that the events hold; there from the first on. */
function putInPad() {
  const pad = { id: 'fuzz', index: 0, connected: true, mapping: 'standard', axes: [0, 0, 0, 0], buttons: [] };
  const rest = () => Array.from({ length: 17 }, () => ({ value: 0, pressed: false }));
  pad.buttons = rest();
  let isThere = false;
  navigator.getGamepads = () => [isThere ? pad : null];
  window.fuzzPad = (axes, button, value) => {
    pad.axes = axes;
    pad.buttons = rest();
    if (button >= 0) pad.buttons[button] = { value, pressed: value > 0.5 };
    if (!isThere) {
      isThere = true;
      dispatchEvent(new Event('gamepadconnected'));
    }
  };
  window.fuzzPadAway = () => { isThere = false; };
}

/** The events of one round. */
class Storm {
  constructor(hands, cdp, random) {
    Object.assign(this, { hands, cdp, random });
    this.fingers = [];
    this.buttons = 0;
    this.keysDown = new Set();
    this.at = { x: 0, y: 0 };
  }

  below(count) {
    return Math.floor(this.random() * count);
  }

  one(list) {
    return list[this.below(list.length)];
  }

  /** Anywhere in the window, and a little outside; half the time near the last place. */
  place() {
    const { width, height } = this.hands.page.viewportSize();
    const isNear = this.random() < 0.5;
    const [right, down] = [this.random() - 0.5, this.random() - 0.5];
    const { x, y } = isNear ? { x: this.at.x + 80 * right, y: this.at.y + 80 * down }
      : { x: width * (0.5 + 1.04 * right), y: height * (0.5 + 1.04 * down) };
    this.at = { x: Math.max(-10, Math.min(width + 10, x)), y: Math.max(-10, Math.min(height + 10, y)) };
    return this.at;
  }

  async mouse(pen) {
    const place = this.place();
    const [kind, force, tiltX, tiltY] = [this.random(), this.random(), this.below(181) - 90, this.below(181) - 90];
    const button = this.one(['left', 'left', 'left', 'right', 'middle']);
    const how = pen ? { pointerType: 'pen', force, tiltX, tiltY } : {};
    const send = (type, more) => this.cdp.send('Input.dispatchMouseEvent', { type, ...place, buttons: this.buttons, ...how, ...more });
    const bit = { left: 1, right: 2, middle: 4 }[button];
    if (kind < 0.5) {
      await send('mouseMoved', { button: 'none' });
    } else if (kind < 0.7) {
      this.buttons |= bit;
      await send('mousePressed', { button, buttons: this.buttons, clickCount: 1 });
    } else if (kind < 0.95) {
      this.buttons &= ~bit;
      await send('mouseReleased', { button, buttons: this.buttons, clickCount: 1 });
    } else if (!pen) {
      await this.cdp.send('Input.dispatchMouseEvent', { type: 'mouseWheel', ...place, deltaX: 400 * (force - 0.5), deltaY: 20 * tiltX });
    }
  }

  async touch() {
    const [kind, which] = [this.random(), this.random()];
    const point = { ...this.place(), force: 1 };
    const left = (fingers) => this.cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: fingers });
    if (this.fingers.length === 0 || (kind < 0.3 && this.fingers.length < 4)) {
      const used = this.fingers.map((finger) => finger.id);
      this.fingers.push({ ...point, id: [1, 2, 3, 4].find((id) => !used.includes(id)) });
      await this.cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: this.fingers });
    } else if (kind < 0.75) {
      const i = Math.floor(which * this.fingers.length);
      this.fingers[i] = { ...this.fingers[i], ...point };
      await this.cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: this.fingers });
    } else if (kind < 0.95) {
      await left(this.fingers.splice(Math.floor(which * this.fingers.length), 1));
    } else {
      this.fingers = [];
      await this.cdp.send('Input.dispatchTouchEvent', { type: 'touchCancel', touchPoints: [] });
    }
  }

  async key() {
    const [kind, key, held] = [this.random(), this.one(kKeys), this.one(kHeld)];
    if (kind < 0.8) {
      await this.hands.keyboard.press(key);
    } else if (this.keysDown.has(held)) {
      this.keysDown.delete(held);
      await this.hands.keyboard.up(held);
    } else {
      this.keysDown.add(held);
      await this.hands.keyboard.down(held);
    }
  }

  async pad() {
    const axes = Array.from({ length: 4 }, () => (this.random() < 0.5 ? 0 : 2.4 * this.random() - 1.2));
    const [button, value, isAway] = [this.below(20) - 3, this.random(), this.random() < 0.05];
    await this.hands.page.evaluate(([a, b, v, away]) => (away ? window.fuzzPadAway() : window.fuzzPad(a, b, v)), [axes, button, value, isAway]);
  }

  async page() {
    const [kind, size] = [this.random(), this.one(kViewports)];
    if (kind < 0.3) await this.hands.page.setViewportSize({ width: size[0], height: size[1] });
    else if (kind < 0.7) await this.hands.page.evaluate(() => { dispatchEvent(new Event('blur')); dispatchEvent(new Event('focus')); });
    else await this.hands.page.waitForTimeout(200);
  }

  async burst(device) {
    for (let i = 0; i < kBurst; i += 1) {
      const kind = this.random();
      if (kind < 0.02) await this.page();
      else if (kind < 0.3) await this.key();
      else if (kind < 0.4) await this[this.one(['mouse', 'touch', 'pad'])]();
      else await (device === 'pen' ? this.mouse(true) : this[device]());
    }
  }

  async letGo() {
    await this.cdp.send('Input.dispatchTouchEvent', { type: 'touchCancel', touchPoints: [] }).catch(() => {});
    this.fingers = [];
    for (const button of ['left', 'right', 'middle']) {
      this.buttons = 0;
      await this.cdp.send('Input.dispatchMouseEvent', { type: 'mouseReleased', x: 5, y: 5, button, buttons: 0, clickCount: 1 });
    }
    for (const key of this.keysDown) await this.hands.keyboard.up(key);
    this.keysDown.clear();
    await this.hands.page.evaluate(() => window.fuzzPadAway());
  }
}

const kStarts = {
  shelf: (hands) => hands.untilScreen('shelf'),
  lesson: (hands) => openLesson(hands),
  'free-hand': async (hands) => {
    await goToBench(hands, 'Free-hand');
    await hands.key(kPlanned[0].key);
    await hands.key('Space');
  },
  guided: async (hands) => {
    await goToBench(hands, 'Drill-guided');
    await hands.click('Put guide on');
  },
  estimate: async (hands) => {
    await goToBench(hands, 'Free-hand');
    await finishAttempt(hands);
  },
  debrief: async (hands) => {
    await kStarts.estimate(hands);
    await hands.click('Skip');
    await hands.untilScreen('debrief');
  },
};

/** Names of numbers in the program's state that are none (JSON writes them as null). */
function notNumbers(value, name = 'state') {
  if (value === null) return [name];
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [name];
  if (typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => notNumbers(inner, `${name}.${key}`));
}

const isOnPage = (hands) => hands.page.evaluate(() => typeof window.app?.state === 'function').catch(() => false);

async function round(bench, seed) {
  const random = numbersOf(seed);
  const pick = (list) => list[Math.floor(random() * list.length)];
  const name = pick(['free-hand', 'free-hand', 'guided', 'guided', ...Object.keys(kStarts)]);
  const device = pick(['mouse', 'touch', 'pen', 'pad']);
  const [width, height] = pick(kViewports.slice(0, 2));
  const kept = { steps: random() < 0.3 ? '1' : '0', hand: random() < 0.3 ? 'left' : 'right' };
  const visitor = await Visitor.arrive(bench, { viewport: { width, height }, touch: true });
  await visitor.context.addInitScript(putInPad);
  await visitor.context.addInitScript(({ steps, hand }) => {
    if (!localStorage.getItem('driftbench-hand')) {
      localStorage.setItem('driftbench-steps', steps);
      localStorage.setItem('driftbench-hand', hand);
    }
  }, kept);
  const query = `?seed=${seed}&mute=1`;
  let hands;
  let events = 0;
  const start = async () => {
    hands = await visitor.open(query);
    hands.page.on('dialog', (dialog) => dialog.dismiss().catch(() => {}));
    hands.page.on('filechooser', () => {});
    return new Storm(hands, await hands.page.context().newCDPSession(hands.page), random);
  };
  const calm = async (state) => {
    const troubles = (await visitor.allTroubles()).filter((trouble) => !kRemark.test(trouble));
    check(troubles.length === 0, troubles.join('; '));
    const bad = notNumbers(state);
    check(bad.length === 0, `no number: ${bad.join(', ')}`);
  };
  try {
    let storm = await start();
    await kStarts[name](hands);
    for (const end = Date.now() + kRound_ms; Date.now() < end;) {
      await storm.burst(device);
      events += kBurst;
      if (!await isOnPage(hands)) {  // a way led to another page
        await hands.page.close();
        storm = await start();
      }
      await calm(await hands.state());
    }
    // Nothing is held any more: nothing presses, and the way home is open.
    await storm.letGo();
    await hands.key('Escape');
    const still = await hands.untilState((state) => state.screen !== 'bench' || state.press_n < 0.5, 'nothing to press', kReachForAll_ms);
    await calm(still);
    const before = await hands.frames();
    await hands.page.mouse.move(20, 20);
    await hands.page.mouse.move(40, 40);
    await hands.until(async () => await hands.frames() > before, 'the program to draw again', kReachForAll_ms);
    await hands.page.setViewportSize({ width: 1280, height: 720 });
    for (let i = 0; i < 12 && (await hands.state()).screen !== 'shelf'; i += 1) {
      const way = await hands.find(kWaysHome, { enabled: true });
      if (way) await hands.click(kWaysHome);
      await hands.page.waitForTimeout(300);
    }
    const home = await hands.state();
    check(home.screen === 'shelf', `no way home from "${home.screen}"`);
    await calm(home);
  } catch (failure) {
    failure.message = `seed ${seed}, from ${name} by ${device}, ${JSON.stringify(kept)}, after ${events} events: ${failure.message}`;
    throw failure;
  } finally {
    await visitor.leave();
  }
  return `${seed} ${name} ${device} ${events}`;
}

async function randomEvents({ bench }) {
  const rounds = [];
  for (const end = Date.now() + kMinutes * 60000; Date.now() < end - 1000;) rounds.push(await round(bench, kFirstSeed + rounds.length));
  console.log(`      seed, start, device, events: ${rounds.join('; ')}`);
}

export const cases = [
  ['random events break nothing', randomEvents, { limit_ms: kMinutes * 60000 + 360000 }],
];
