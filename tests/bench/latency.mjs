// Frames from a movement of the pointer to the picture that shows it, counted in the page.
import { openBench, Visitor } from '../browser/lib.mjs';
import { enterLook, goToBench } from '../browser/drilling.mjs';
import { median, row } from './measure.mjs';

const kMost_frames = 2;
const kMoves = 15;
const kReach_px = 40;
const kQuiet_frames = 8;  // before a move, to know how much the hand's own wandering changes
const kPatience_ms = 30000;
// Its looks are 320 by 180 or smaller.
const kViewport = { width: 1024, height: 576 };

/**
 * Wraps the page's frames: after each, the change of the watched part of the picture is kept. A move is answered by the
 * first frame that changes several times as much as the frames before it did.
 */
const watchFrames = () => {
  const watch = { part: null, changes: [], movedAt: null, answer: null };
  window.latencyWatch = watch;
  let before = null;
  let frame = 0;
  const look = () => {
    const canvas = document.querySelector('canvas');
    const ratio = canvas.width / canvas.clientWidth;
    const { x, y, w, h } = watch.part;
    const copy = new OffscreenCanvas(Math.round(w), Math.round(h)).getContext('2d', { willReadFrequently: true });
    copy.drawImage(canvas, x * ratio, y * ratio, w * ratio, h * ratio, 0, 0, Math.round(w), Math.round(h));
    const { data } = copy.getImageData(0, 0, Math.round(w), Math.round(h));
    let change = 0;
    for (let i = 0; before !== null && i < data.length; i += 1) change += Math.abs(data[i] - before[i]);
    before = data;
    return change;
  };
  const original = window.requestAnimationFrame.bind(window);
  window.requestAnimationFrame = (callback) => original((time) => {
    const drawn = window.app?.state?.().meters?.frames;
    callback(time);
    if (watch.part === null || drawn === undefined || window.app.state().meters.frames === drawn) return;
    frame += 1;
    const change = look();
    if (watch.movedAt !== null && watch.answer === null && change > 4 * Math.max(...watch.changes)) watch.answer = frame - watch.movedAt;
    if (watch.movedAt === null) watch.changes.push(change);
  });
  addEventListener('pointermove', () => { watch.movedAt ??= frame; }, { capture: true });
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
    await enterLook(hands);
    const part = await hands.item('Front look');
    const middle = { x: part.x + part.w / 2, y: part.y + part.h / 2 };
    const found = [];
    for (let i = 0; i < kMoves; i += 1) {
      await page.waitForTimeout(600); // the hand comes to rest
      await page.evaluate((p) => Object.assign(window.latencyWatch, { part: p, changes: [], movedAt: null, answer: null }), part);
      await page.waitForFunction((n) => window.latencyWatch.changes.length > n, kQuiet_frames, { timeout: kPatience_ms });
      await page.evaluate(() => window.latencyWatch.changes.shift()); // the first has nothing before it
      await page.mouse.move(middle.x + (i % 2 === 0 ? kReach_px : -kReach_px), middle.y);
      found.push(await (await page.waitForFunction(() => window.latencyWatch.answer, null, { timeout: kPatience_ms })).jsonValue());
    }
    return [row('frames from a move of the pointer to its picture', median(found), 'frames', {
      budget: kMost_frames, note: `median of ${kMoves} (most ${Math.max(...found)}), looks ${Math.round(part.w)}x${Math.round(part.h)}`,
    })];
  } finally {
    await bench.close();
  }
}
