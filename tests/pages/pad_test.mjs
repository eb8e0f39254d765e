// A gamepad's readings (web/pad.js): dead zones, shapes, buttons as keys, and polling only while one is there.
import assert from 'node:assert/strict';
import { followPads, reading, stick, trigger } from '../../web/pad.js';

const button = (value = 0) => ({ value, pressed: value > 0.5 });
const pad = ({ axes = [0, 0, 0, 0], buttons = {} } = {}) => ({
  connected: true, axes, buttons: Array.from({ length: 17 }, (_, i) => button(buttons[i])),
});

// --- Sticks: radial rest, squared, no jump at its edge, full at the rim in every direction ---
assert.deepEqual(stick(0.1, 0.1), [0, 0]);
assert.deepEqual(stick(NaN, 0), [0, 0]);
assert.ok(stick(0.16, 0)[0] > 0 && stick(0.16, 0)[0] < 0.001);
for (let turn = 0; turn < 12; turn += 1) {
  const [x, y] = [Math.cos(turn * Math.PI / 6), Math.sin(turn * Math.PI / 6)];
  const [right, down] = stick(x, y);
  assert.ok(Math.hypot(right - x, down - y) < 1e-12);
  assert.ok(Math.hypot(...stick(2 * x, 2 * y)) < 1 + 1e-12);
}
let before = 0;
for (let x = 0; x <= 1; x += 0.01) {
  const now = stick(x, 0)[0];
  assert.ok(now >= before && now - before < 0.03, `jump at ${x}`);
  before = now;
}

// --- Trigger: force itself; rests ---
assert.equal(trigger(0), 0);
assert.equal(trigger(0.05), 0);
assert.equal(trigger(1), 1);
assert.equal(trigger(undefined), 0);

// --- A reading: up is away; the shoulder button makes it finer ---
assert.equal(reading(pad()).isActive, false);
assert.deepEqual(reading(pad({ axes: [0, -1, 1, 0] })).rates.map((rate) => rate || 0), [0, 1, 1, 0]);
assert.equal(reading(pad({ axes: [1, 0, 0, 0], buttons: { 4: 1 } })).rates[0], 0.25);
assert.equal(reading(pad({ buttons: { 7: 1 } })).press, 1);
assert.equal(reading({ connected: true, axes: [], buttons: [] }).isActive, false);

// --- Following: frames are asked for only while a pad is there; nothing is sent while it rests ---
const frames = [];
const keys = [];
const sent = [];
const rumbles = [];
let woken = 0;
let now = 1000;
let pads = [];
globalThis.requestAnimationFrame = (turn) => frames.push(turn);
globalThis.addEventListener = () => {};
globalThis.KeyboardEvent = class {
  constructor(type, { code, key }) { Object.assign(this, { type, code, key }); }
};
Object.defineProperty(globalThis, 'navigator', { value: { getGamepads: () => pads }, configurable: true });
Object.defineProperty(globalThis, 'performance', { value: { now: () => now }, configurable: true });
const turn = (span_ms = 16) => {
  now += span_ms;
  frames.splice(0).forEach((one) => one(now));
};
const load = { load: 0, roughness: 0 };
pads = [pad()];
followPads({
  send: (...amounts) => sent.push(amounts), load: () => load, wake: () => { woken += 1; },
  target: { dispatchEvent: (event) => keys.push(`${event.type} ${event.code} ${event.key}`) },
});
for (let i = 0; i < 10; i += 1) turn();
assert.equal(frames.length, 1);
assert.deepEqual([sent.length, woken, keys.length], [0, 0, 0]);

pads = [pad({ axes: [1, 0, 0, 0] })];
turn(20);
turn(5000);
assert.ok(Math.abs(sent[0][0] - 0.02) < 1e-9, `${sent[0][0]}`);
assert.ok(Math.abs(sent[1][0] - 0.1) < 1e-9, 'a page that stood still moves no farther than a tenth of a second');
pads = [pad()];
turn();
turn();
assert.deepEqual(sent.slice(2).map((amounts) => amounts.map(Math.abs)), [[0, 0, 0, 0, 0]], 'rest is told once');

pads = [pad({ buttons: { 0: 1, 12: 1 } })];
turn();
pads = [pad()];
turn();
assert.deepEqual(keys, ['keydown Space  ', 'keydown ShiftLeft Shift', 'keydown Tab Tab', 'keyup Space  ', 'keyup Tab Tab', 'keyup ShiftLeft Shift']);

load.load = 0.5;
load.roughness = 1;
pads = [{ ...pad({ buttons: { 7: 1 } }), vibrationActuator: { playEffect: (kind, how) => { rumbles.push([kind, how]); return Promise.resolve(); } } }];
for (let i = 0; i < 20; i += 1) turn(10);
assert.ok(rumbles.length >= 2 && rumbles.length <= 4, `${rumbles.length} rumbles in 0.2 s`);
assert.equal(rumbles[0][0], 'dual-rumble');
assert.equal(rumbles[0][1].strongMagnitude, 0.5);

// Pulled out while it presses and holds a button: both are let go, and nothing is asked any more.
pads = [pad({ buttons: { 7: 1, 1: 1 } })];
turn();
pads = [null];
turn();
assert.deepEqual(sent.at(-1), [0, 0, 0, 0, 0]);
assert.equal(keys.at(-1), 'keyup KeyR r');
turn();
assert.equal(frames.length, 0);
console.log('pad: ok');
