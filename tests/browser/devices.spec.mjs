// Pen, fingers, gamepad and the left hand at the bench, by the browser's own events.
import { check, Visitor } from './lib.mjs';
import { goToBench, kPlanned, openLesson, takeHold } from './drilling.mjs';

const kTablet = { viewport: { width: 1024, height: 768 }, touch: true };
const kTarget_px = 44;
const kFollows_ms = 4000;
const kFront = /^Front look$/;

const middle = (item, right = 0.5, down = 0.5) => ({ x: item.x + item.w * right, y: item.y + item.h * down });

/** A pen over the page: the browser's own events, with force and tilt. */
class Pen {
  static async over(hands) {
    const pen = new Pen();
    pen.hands = hands;
    pen.cdp = await hands.page.context().newCDPSession(hands.page);
    pen.at = { x: 0, y: 0 };
    pen.isDown = false;
    return pen;
  }

  async send(type, { force = 0, tiltX = 0, tiltY = 0 } = {}) {
    await this.cdp.send('Input.dispatchMouseEvent', {
      type, ...this.at, pointerType: 'pen', force, tiltX, tiltY,
      button: type === 'mouseMoved' ? 'none' : 'left', buttons: this.isDown ? 1 : 0, clickCount: type === 'mouseMoved' ? 0 : 1,
    });
    await this.hands.page.waitForTimeout(60);
  }

  async move(to, how) {
    this.at = to;
    await this.send('mouseMoved', how);
  }

  async down(how) {
    this.isDown = true;
    await this.send('mousePressed', how);
  }

  async up() {
    this.isDown = false;
    await this.send('mouseReleased');
  }

  async tap(label) {
    await this.move(middle(await this.hands.item(label, { enabled: true })));
    await this.down({ force: 0.4 });
    await this.up();
  }
}

/** Degrees to the right, by what the front look says of itself. */
async function leanOf(hands) {
  const [, amount, side] = /leans (\d+)° (right|left)/.exec((await hands.item(kFront)).value) ?? [];
  return side === 'left' ? -Number(amount) : Number(amount ?? 0);
}

async function takePilot(hands) {
  await hands.key(kPlanned[0].key);
  await hands.untilState((state) => state.drill === kPlanned[0].index, 'the pilot drill');
}

async function penToBench(bench) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=61');
  await openLesson(hands);
  await hands.clickInPage(/^Free-hand: /);
  if ((await hands.state()).screen === 'lesson') await hands.click(/^(Begin|Go on): /);
  await hands.untilScreen('briefing');
  const pen = await Pen.over(hands);
  await pen.tap('Start');
  await hands.untilScreen('bench');
  await takePilot(hands);
  return { visitor, hands, pen };
}

async function penIsTheHandpiece({ bench }) {
  const { visitor, hands, pen } = await penToBench(bench);
  check((await hands.state()).device === 'pen', `the record names "${(await hands.state()).device}"`);
  const look = await hands.item(kFront);
  // Above the page it places.
  await pen.move(middle(look));
  const before = await hands.state();
  await pen.move({ x: pen.at.x + 20, y: pen.at.y });
  const placed = await hands.untilState((state) => Math.abs(state.hand_x_mm - before.hand_x_mm - 1) < 0.02, 'the hand 1 mm to the right');
  check(placed.press_n === 0, 'a pen above the page presses');
  // Its pressure presses: light, hard, resting, gone.
  await pen.down({ force: 0.3, tiltX: 30 });
  const light = await hands.untilState((state) => state.press_n > 1, 'a light press');
  await hands.page.waitForTimeout(400);
  const settled = (await hands.state()).press_n;
  await pen.move(pen.at, { force: 0.8, tiltX: 30 });
  await hands.untilState((state) => state.press_n > settled + 8, `a harder press than ${light.press_n} N`);
  check(Math.abs(await leanOf(hands)) < 4, 'the way the pen is held leans the drill');
  await pen.move(pen.at, { force: 0.05, tiltX: 30 });
  await hands.untilState((state) => state.press_n < 0.5, 'a resting pen not to press');
  // Its tilt from where it came down leans.
  await pen.move(pen.at, { force: 0.05, tiltX: 50 });
  await hands.until(async () => await leanOf(hands) > 5, 'a lean to the right');
  await pen.move(pen.at, { force: 0.05, tiltX: 10 });
  await hands.until(async () => await leanOf(hands) < -5, 'a lean to the left');
  await pen.move(pen.at, { force: 0.5, tiltX: 10 });
  await hands.untilState((state) => state.press_n > 5, 'a press');
  await pen.up();
  await hands.untilState((state) => state.press_n < 0.5, 'the press to end with the pen lifted');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function plainPenPressesLikeAMouse({ bench }) {
  const { hands, pen } = await penToBench(bench);
  await pen.move(middle(await hands.item(kFront)));
  await pen.down({ force: 0.5 });
  const level_n = (await hands.state()).press_level_n;
  await hands.untilState((state) => Math.abs(state.press_n - level_n) < 1, `the chosen level of ${level_n} N`);
  await hands.key(']');
  await hands.untilState((state) => state.press_level_n > level_n && state.press_n > level_n + 1, 'the next level');
  await pen.up();
  await hands.untilState((state) => state.press_n < 0.5, 'the press to end');
}

/** Fingers by their number: put([[1, point], [2, point]]) is what is down now. */
async function fingersOf(hands) {
  const cdp = await hands.page.context().newCDPSession(hands.page);
  let last = [];
  return async (now) => {
    const type = now.length > last.length ? 'touchStart' : now.length < last.length ? 'touchEnd' : 'touchMove';
    // The end of a touch names the fingers that leave.
    const meant = type === 'touchEnd' ? last.filter(([id]) => !now.some(([other]) => other === id)) : now;
    const points = meant.map(([id, at]) => ({ id, x: at.x, y: at.y, force: 1 }));
    await cdp.send('Input.dispatchTouchEvent', { type, touchPoints: points });
    last = now;
    await hands.page.waitForTimeout(80);
  };
}

async function tabletToBench(bench, block) {
  const visitor = await Visitor.arrive(bench, kTablet);
  const hands = await visitor.open('?lesson=find-the-centre&seed=62');
  await hands.tap(/^(Begin|Go on): /);
  await hands.untilScreen('briefing');
  if (block) {
    await hands.tap('Back');
    await hands.untilScreen('lesson');
    await hands.clickInPage(block);
    if ((await hands.state()).screen === 'lesson') await hands.tap(/^(Begin|Go on): /);
    await hands.untilScreen('briefing');
  }
  await hands.tap(/^(Start|I have read the sheet: start)$/);
  await hands.untilScreen('bench');
  await hands.page.waitForTimeout(300);
  return { visitor, hands };
}

function tooSmall(items) {
  return items.filter((item) => ['button', 'switch', 'radio', 'slider'].includes(item.role) && item.visible &&
    (item.w < kTarget_px || item.h < kTarget_px)).map((item) => `${item.label} ${item.w}x${item.h}`);
}

async function twoThumbsDrill({ bench }) {
  const { visitor, hands } = await tabletToBench(bench);
  check((await hands.state()).device === 'touch', 'the record does not name the finger');
  const small = tooSmall(await hands.items());
  check(small.length === 0, `too small for a finger: ${small.join(', ')}`);
  await hands.tap(kPlanned[0].name);
  await hands.untilState((state) => state.drill === kPlanned[0].index, 'the pilot drill');
  const fingers = await fingersOf(hands);
  const look = await hands.item(kFront);
  const gauge = await hands.item('Press level');

  // One finger steers, relative to where it came down.
  const before = await hands.state();
  const start = middle(look, 0.3, 0.6);
  await fingers([[1, start]]);
  check(Math.abs((await hands.state()).hand_x_mm - before.hand_x_mm) < 1e-6, 'a finger that comes down moves the hand');
  await fingers([[1, { x: start.x + 20, y: start.y }]]);
  await hands.untilState((state) => Math.abs(state.hand_x_mm - before.hand_x_mm - 1) < 0.02, 'the hand 1 mm to the right');
  await fingers([[1, start]]);
  await hands.untilState((state) => Math.abs(state.hand_x_mm - before.hand_x_mm) < 0.02, 'the hand back');
  await fingers([]);

  // The pad leans, and back.
  const pad = middle(await hands.item('Lean'));
  await fingers([[1, pad]]);
  await fingers([[1, { x: pad.x + 30, y: pad.y }]]);
  await hands.until(async () => /right/.test((await hands.item('Lean')).value), 'a lean to the right on the pad');
  await fingers([[1, pad]]);
  await hands.until(async () => (await hands.item('Lean')).value === 'upright', 'the drill upright');
  await fingers([]);

  // Two fingers on a look turn and zoom the picture and move nothing.
  await hands.untilState((state) => state.resting, 'the bench to rest', 120000);
  const where = { x: look.x + 40, y: look.y + 60, width: look.w - 80, height: look.h - 120 };
  const picture = async () => (await hands.page.screenshot({ clip: where })).toString('base64');
  const straight = await picture();
  const hand = await hands.state();
  await fingers([[1, middle(look, 0.4, 0.5)]]);
  await fingers([[1, middle(look, 0.4, 0.5)], [2, middle(look, 0.6, 0.5)]]);
  await fingers([[1, middle(look, 0.3, 0.5)], [2, middle(look, 0.8, 0.5)]]);
  await fingers([]);
  await hands.untilState((state) => state.resting, 'the bench to rest', 120000);
  check((await picture()) !== straight, 'two fingers did not change the picture');
  check((await hands.state()).hand_x_mm === hand.hand_x_mm, 'two fingers moved the hand');
  const turned = await picture();
  await hands.key('Home');
  await hands.until(async () => (await picture()) !== turned, 'the look to be straight again');

  // One thumb presses while the other steers; letting go ends the press at once.
  await hands.tap('Motor');
  await hands.untilState((state) => state.motor_rpm > 500, 'the motor to turn');
  await fingers([[1, start]]);
  await fingers([[1, start], [2, middle(gauge, 0.6)]]);
  await hands.untilState((state) => state.press_n > 5, 'the thumb to press');
  await fingers([[1, { x: start.x + 4, y: start.y }], [2, middle(gauge, 0.6)]]);
  await hands.untilState((state) => state.shoulder_depth_mm > 1, 'the drill to go in', 60000);
  await fingers([[1, start]]);
  await hands.untilState((state) => state.press_n < 0.5, 'the press to end with the thumb');
  await fingers([]);
  await hands.tap('Lift');
  await hands.untilState((state) => state.is_out && !state.lifting, 'the drill to be out');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function guidedBenchFitsFingers({ bench }) {
  const { hands } = await tabletToBench(bench, /^Drill-guided: /);
  await hands.tap(kPlanned[0].name);
  await hands.item(kPlanned[0].length);
  const small = tooSmall(await hands.items());
  check(small.length === 0, `too small for a finger: ${small.join(', ')}`);
}

/** A gamepad of the standard layout that the test holds: `set({axes, buttons})`. */
function putInPad() {
  const pad = {
    id: 'test', index: 0, connected: true, mapping: 'standard', timestamp: 0, axes: [0, 0, 0, 0],
    buttons: Array.from({ length: 17 }, () => ({ value: 0, pressed: false })), rumbles: [],
    vibrationActuator: { playEffect: (kind, how) => { pad.rumbles.push([kind, how]); return Promise.resolve('complete'); } },
  };
  window.pad = { pad, isThere: false, asked: 0 };
  navigator.getGamepads = () => {
    window.pad.asked += 1;
    return window.pad.isThere ? [pad] : [null];
  };
}

async function padInHand({ bench }) {
  const visitor = await Visitor.arrive(bench);
  await visitor.context.addInitScript(putInPad);
  const asked = [];
  visitor.context.on('request', (request) => asked.push(request.url()));
  const hands = await visitor.open('?seed=63');
  const hold = (axes, buttons = {}) => hands.page.evaluate(([sticks, down]) => {
    window.pad.pad.axes = sticks;
    window.pad.pad.buttons = window.pad.pad.buttons.map((_, i) => ({ value: down[i] ?? 0, pressed: (down[i] ?? 0) > 0.5 }));
  }, [axes, buttons]);
  const kRest = [0, 0, 0, 0];
  const push = async (button) => {
    await hold(kRest, { [button]: 1 });
    await hands.page.waitForTimeout(120);
    await hold(kRest);
    await hands.page.waitForTimeout(180);
  };

  // Without a pad nothing is loaded and nothing asked; with one at rest the program sleeps on.
  check(!asked.some((url) => url.endsWith('pad.js')), 'pad.js was loaded without a pad');
  check(await hands.page.evaluate(() => window.pad.asked) === 0, 'the page asked for pads');
  await hands.page.evaluate(() => { window.pad.isThere = true; dispatchEvent(new Event('gamepadconnected')); });
  await hands.until(async () => await hands.page.evaluate(() => window.pad.asked) > 2, 'the page to ask for pads');
  const ticks = () => hands.page.evaluate(() => window.app.counters.ticks);
  await hands.until(async () => {
    const before = await ticks();
    await hands.page.waitForTimeout(1000);
    return await ticks() === before;
  }, 'the program to sleep with the pad at rest');

  // From the shelf to the bench by its buttons alone.
  const focusOn = async (label) => {
    const here = async () => (await hands.items()).find((item) => item.focused)?.label;
    for (let i = 0; i < 60; i += 1) {
      const now = await here();
      if (now !== undefined && label.test(now)) return;
      await push(13);
      for (const end = Date.now() + kFollows_ms; Date.now() < end && await here() === now;) await hands.page.waitForTimeout(50);
    }
    check(false, `the pad never reaches ${label}`);
  };
  await focusOn(/^Find the centre: /);
  await push(0);
  await hands.untilScreen('lesson');
  await focusOn(/^(Begin|Go on): /);
  await push(0);
  await hands.untilScreen('briefing');
  await focusOn(/^Start$/);
  await push(0);
  await hands.untilScreen('bench');
  check((await hands.state()).device === 'pad', `the record names "${(await hands.state()).device}"`);

  // The hand: next drill twice (starter, pilot), motor, stick, trigger, lift, probe.
  await push(8);
  await push(3);
  await push(3);
  await hands.untilState((state) => state.drill === kPlanned[0].index, 'the pilot drill');
  const before = await hands.state();
  await hold([0.5, 0, 0, 0]);
  await hands.untilState((state) => state.hand_x_mm > before.hand_x_mm + 0.5, 'the stick to move the hand');
  await hold([-0.5, 0, 0, 0]);
  await hands.untilState((state) => state.hand_x_mm < before.hand_x_mm + 0.1, 'the stick to move it back');
  await hold([0, 0, 0.5, 0]);
  await hands.until(async () => await leanOf(hands) > 2, 'the other stick to lean it');
  await hold([0, 0, -0.5, 0]);
  await hands.until(async () => await leanOf(hands) < 2, 'it to lean it back');
  await hold(kRest);
  await push(0);
  await hands.untilState((state) => state.motor_rpm > 500, 'the motor to turn');
  await hold(kRest, { 7: 0.6 });
  await hands.untilState((state) => state.press_n > 8 && state.press_n < 25, 'the trigger to press');
  await hands.untilState((state) => state.shoulder_depth_mm > 1, 'the drill to go in', 60000);
  const rumbles = await hands.page.evaluate(() => window.pad.pad.rumbles);
  check(rumbles.length > 0 && rumbles.every(([kind, how]) => kind === 'dual-rumble' && how.strongMagnitude > 0 && how.strongMagnitude <= 1),
    `rumble by load: ${JSON.stringify(rumbles.slice(0, 3))}`);
  await hold(kRest);
  await hands.untilState((state) => state.press_n < 0.5, 'the press to end with the trigger');
  await push(1);
  await hands.untilState((state) => state.is_out && !state.lifting, 'the drill to be out');
  await push(2);
  await hands.until(async () => (await hands.items()).some((item) => item.role === 'status' && /floor|wall/i.test(item.label)), 'what the probe found');

  // Pulled out while it presses: let go, and nothing is asked any more.
  await hold(kRest, { 7: 1 });
  await hands.untilState((state) => state.press_n > 5, 'a press');
  await hands.page.evaluate(() => { window.pad.isThere = false; });
  await hands.untilState((state) => state.press_n < 0.5, 'the press to end with the pad');
  await hands.page.waitForTimeout(200);
  const count = await hands.page.evaluate(() => window.pad.asked);
  await hands.page.waitForTimeout(500);
  check(await hands.page.evaluate(() => window.pad.asked) === count, 'the page goes on asking for pads');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function leftHandIsKept({ bench }) {
  const visitor = await Visitor.arrive(bench);
  let hands = await visitor.open('?seed=64&lesson=find-the-centre');
  await hands.click(/^(Begin|Go on): /);
  await hands.untilScreen('briefing');
  await hands.click('Left hand');
  await hands.until(async () => (await hands.item('Left hand')).checked, 'the left hand');
  await hands.page.close();
  hands = await visitor.open('?seed=64');
  await goToBench(hands, 'Free-hand');
  const front = await hands.item(kFront);
  const side = await hands.item('Side look');
  check(side.x < front.x, 'the small pictures are not at the left');
  check((await hands.item('Press level')).x < front.x, 'the press gauge is not at the left');
  // The side look comes from the left: right in it is toward the operator.
  await hands.key('2');
  await takeHold(hands, 'Side look');
  await hands.page.waitForTimeout(150);
  const before = await hands.state();
  await hands.page.mouse.move(side.x + side.w / 2 + 20, side.y + 0.6 * side.h);
  await hands.untilState((state) => Math.abs(state.hand_y_mm - before.hand_y_mm + 1) < 0.02, 'the hand 1 mm nearer');
  const troubles = await visitor.allTroubles();
  check(troubles.length === 0, troubles.join('; '));
}

async function aPairKeepsHandAndDevice({ bench }) {
  const visitor = await Visitor.arrive(bench);
  const hands = await visitor.open('?seed=65&lesson=same-hand-two-approaches');
  await hands.click(/^(Begin|Go on): /);
  await hands.untilScreen('briefing');
  check((await hands.item('Left hand')).enabled, 'the hand cannot be chosen before the first attempt');
  await hands.click(/^(Start|I have read the sheet: start)$/);
  await hands.untilScreen('bench');
  await hands.key('i');
  await hands.untilState((state) => state.trace_entries > 0, 'the attempt to begin');
  // A pen on the bench moves nothing now, and the page says why.
  const before = await hands.state();
  const pen = await Pen.over(hands);
  await pen.move(middle(await hands.item(kFront)));
  await pen.move({ x: pen.at.x + 30, y: pen.at.y });
  await pen.down({ force: 0.8 });
  await hands.untilState((state) => /device/.test(state.notice), 'a word that the device is kept');
  const after = await hands.state();
  check(after.press_n < 0.5 && after.hand_x_mm === before.hand_x_mm, 'another device moves the hand');
  await pen.up();
  await hands.click('Close');
  await hands.key('s');
  await hands.key('2');
  await hands.click(kPlanned[0].length);
  await hands.untilState((state) => state.drill === kPlanned[0].index, 'the drill in the hand');
  await takeHold(hands);
  await hands.moveTo(await hands.item(kFront), 0.55, 0.6);
  await hands.untilState((state) => state.hand_x_mm !== before.hand_x_mm, 'the mouse to move the hand still');
}

export const cases = [
  ['a pen presses by pressure and leans by tilt', penIsTheHandpiece],
  ['a pen without sensors presses like a mouse', plainPenPressesLikeAMouse],
  ['two thumbs steer and press, a pad leans, two fingers turn the look', twoThumbsDrill],
  ['the guided bench has room for fingers', guidedBenchFitsFingers],
  ['a gamepad is enough, and asks for nothing at rest', padInHand],
  ['the left hand mirrors the bench and is kept', leftHandIsKept],
  ['a lesson that compares keeps hand and device', aPairKeepsHandAndDevice],
];
