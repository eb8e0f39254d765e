// Frames from a movement of the pointer to the picture that shows it, counted in the page.
import { openBench, Visitor } from '../browser/lib.mjs';
import { goToBench, takeHold } from '../browser/drilling.mjs';
import { median, row } from './measure.mjs';

const kMost_frames = 2;
const kMoves = 15;
const kReach_px = 40;
const kPatience_ms = 30000;
const kRest_ms = 700;  // so long without a frame the hand is at rest
// Its looks have 320 by 180 pixels or fewer at the picture scale that software GL starts with.
const kViewport = { width: 1024, height: 576 };

/**
 * Counts the browser's frames and looks at the watched part of the picture whenever the program has drawn one. A move is
 * answered by the first frame whose picture differs from the one before the move.
 */
const watchFrames = () => {
  const watch = { part: null, drawnAt: 0, isArmed: false, movedIn: null, answer: null };
  window.latencyWatch = watch;
  let last = null;
  let frame = 0;
  const copyOf = () => {
    const canvas = document.querySelector('canvas');
    const ratio = canvas.width / canvas.clientWidth;
    const { x, y, w, h } = watch.part;
    const copy = new OffscreenCanvas(Math.round(w), Math.round(h)).getContext('2d', { willReadFrequently: true });
    copy.drawImage(canvas, x * ratio, y * ratio, w * ratio, h * ratio, 0, 0, Math.round(w), Math.round(h));
    return copy.getImageData(0, 0, Math.round(w), Math.round(h)).data;
  };
  const original = window.requestAnimationFrame.bind(window);
  const count = () => {
    frame += 1;
    original(count);
  };
  original(count);
  window.requestAnimationFrame = (callback) => original((time) => {
    const before = window.app?.state?.().meters?.frames;
    callback(time);
    if (watch.part === null || before === undefined || window.app.state().meters.frames === before) return;
    watch.drawnAt = performance.now();
    const now = copyOf();
    if (watch.movedIn === null) {
      last = now;
    } else if (watch.answer === null && now.some((byte, i) => Math.abs(byte - last[i]) > 8)) {
      watch.answer = frame - watch.movedIn;
    }
  });
  addEventListener('pointermove', () => {
    if (watch.isArmed) watch.movedIn ??= frame;
  }, { capture: true });
};

export async function latency({ site }) {
  const bench = await openBench({ site });
  try {
    const visitor = await Visitor.arrive(bench, { viewport: kViewport });
    await visitor.context.addInitScript(watchFrames);
    const hands = await visitor.open('?seed=11');
    const { page } = hands;
    await goToBench(hands, 'Free-hand');
    await hands.key('2');
    await takeHold(hands);
    const part = await hands.item('Front look');
    const middle = { x: part.x + part.w / 2, y: part.y + part.h / 2 };
    const found = [];
    for (let i = 0; i < kMoves; i += 1) {
      await page.evaluate((p) => Object.assign(window.latencyWatch, { part: p, isArmed: false, movedIn: null, answer: null }), part);
      await page.mouse.move(middle.x, middle.y + (i % 2));
      await page.waitForFunction((rest) => performance.now() - window.latencyWatch.drawnAt > rest, kRest_ms, { timeout: kPatience_ms });
      await page.evaluate(() => { window.latencyWatch.isArmed = true; });
      await page.mouse.move(middle.x + (i % 2 === 0 ? kReach_px : -kReach_px), middle.y);
      found.push(await (await page.waitForFunction(() => window.latencyWatch.answer, null, { timeout: kPatience_ms })).jsonValue());
    }
    return [row('frames from a move of the pointer to its picture', median(found), 'frames', {
      budget: kMost_frames, note: `median of ${kMoves} (most ${Math.max(...found)}), look of ${Math.round(part.w)}x${Math.round(part.h)} px in software GL`,
    })];
  } finally {
    await bench.close();
  }
}
