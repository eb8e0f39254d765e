// A gamepad as the handpiece; loaded when the first one is connected. Sticks place and lean by rate, the right trigger
// presses, the buttons are keys, and it rumbles by load. Asked for its state only while one is there and the page is seen.

// Own assumptions: sticks rest up to 0.15 off their middle; squared, small motions are fine ones.
const REST = 0.15;
const TRIGGER_REST = 0.05;
const FINE = 0.25;             // left shoulder button held
const LONGEST_S = 0.1;         // a page that stood still has not held the stick for longer
const RUMBLE_MS = 120;

/** Keys of the buttons, by their place in the standard layout. */
const KEYS = {
  0: ['Space'], 1: ['KeyR'], 2: ['KeyP'], 3: ['KeyN'], 6: ['Space'], 8: ['Escape'], 9: ['Enter'],
  12: ['ShiftLeft', 'Tab'], 13: ['Tab'], 14: ['ArrowLeft'], 15: ['ArrowRight'],
};
const NAMES = {Space: ' ', ShiftLeft: 'Shift', KeyR: 'r', KeyP: 'p', KeyN: 'n'};

/** A stick's way out of its rest, radially: 0 inside, 1 at the rim, squared between. */
export function stick(x, y) {
  const out = Math.hypot(x, y);
  if (!(out > REST)) return [0, 0];
  const share = ((Math.min(out, 1) - REST) / (1 - REST)) ** 2;
  return [x / out * share, y / out * share];
}

/** A trigger's way, 0..1. */
export const trigger = value => Math.max(0, ((value || 0) - TRIGGER_REST) / (1 - TRIGGER_REST));

/** What one reading means: amounts for the program, and whether anything is held. */
export function reading(pad) {
  const fine = pad.buttons[4]?.pressed ? FINE : 1;
  const [right, down] = stick(pad.axes[0] ?? 0, pad.axes[1] ?? 0);
  const [leanRight, leanDown] = stick(pad.axes[2] ?? 0, pad.axes[3] ?? 0);
  const rates = [right, -down, leanRight, -leanDown].map(rate => rate * fine || 0);
  const press = trigger(pad.buttons[7]?.value);
  return {rates, press, isActive: press > 0 || rates.some(rate => rate !== 0)};
}

export function followPads({send, target, load, wake}) {
  let last = 0;
  let following = false;
  let wasActive = false;
  let rumbleUntil = 0;
  const held = new Set();

  const key = (type, code) => target.dispatchEvent(new KeyboardEvent(type,
    {code, key: NAMES[code] ?? code, bubbles: true, cancelable: true}));
  const letGo = button => {
    held.delete(button);
    for (const code of [...KEYS[button]].reverse()) key('keyup', code);
  };
  const rumble = (pad, now) => {
    const {load: force, roughness} = load();
    if (force < 0.02 || now < rumbleUntil || !pad.vibrationActuator?.playEffect) return;
    rumbleUntil = now + RUMBLE_MS * 0.8;
    pad.vibrationActuator.playEffect('dual-rumble', {
      duration: RUMBLE_MS, strongMagnitude: Math.min(1, force), weakMagnitude: Math.min(1, 0.2 * force + 0.8 * force * roughness),
    })?.catch?.(() => {});
  };

  const turn = now => {
    const pad = [...navigator.getGamepads()].find(one => one?.connected);
    if (!pad) {
      following = false;
      for (const button of held) letGo(button);
      if (wasActive) send(0, 0, 0, 0, 0);
      wasActive = false;
      wake();
      return;
    }
    requestAnimationFrame(turn);
    let hasButton = false;
    const span_s = Math.min(LONGEST_S, Math.max(0, (now - last) / 1000));
    last = now;
    for (const button of Object.keys(KEYS)) {
      const isDown = Boolean(pad.buttons[button]?.pressed);
      if (isDown && !held.has(button)) {
        held.add(button);
        hasButton = true;
        for (const code of KEYS[button]) key('keydown', code);
      } else if (!isDown && held.has(button)) {
        letGo(button);
      }
    }
    const {rates, press, isActive} = reading(pad);
    if (isActive || wasActive || hasButton) {
      send(...rates.map(rate => rate * span_s), press);
      wake();
    }
    wasActive = isActive;
    rumble(pad, now);
  };

  const follow = () => {
    if (following) return;
    following = true;
    last = performance.now();
    requestAnimationFrame(turn);
  };
  addEventListener('gamepadconnected', follow);
  follow();
}
