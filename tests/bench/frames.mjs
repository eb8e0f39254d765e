// The 3-D view's budget: time of one frame in software GL, each forced to end by reading a pixel.
import path from 'node:path';
import { openBench } from '../browser/lib.mjs';
import { median, row } from './measure.mjs';

const kFrame_ms = 60;
const kSizes = [[640, 360], [320, 180]];
const kFramesPerRound = 2;
const kRounds = 9;
const kScene = 'drilling';
const kFineVoxel_mm = 0.1;

/** Processor seconds that the browser's processes have used. */
async function processorSeconds(session) {
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  return processInfo.reduce((sum, each) => sum + each.cpuTime, 0);
}

async function timeSize(page, session, [width, height]) {
  const before = await processorSeconds(session);
  const found = [];
  for (let i = 0; i < kRounds; i += 1) {
    found.push(await page.evaluate(([w, h, n]) => window.page.ccall('render_time_ms', 'number', ['number', 'number', 'number'], [w, h, n]),
      [width, height, kFramesPerRound]));
  }
  // Every round draws one frame more than it times.
  const frames = kRounds * (kFramesPerRound + 1);
  return { frame_ms: median(found), processor_ms: ((await processorSeconds(session)) - before) * 1000 / frames };
}

export async function frames({ build }) {
  const bench = await openBench({ site: path.join(build, 'wasm/render_page') });
  try {
    const page = await bench.browser.newPage();
    const session = await bench.browser.newBrowserCDPSession();
    await page.goto(bench.address);
    await page.waitForFunction(() => window.ready, null, { timeout: 60000 });
    const call = (name, type, value) => page.evaluate(([f, t, v]) => window.page.ccall(f, 'number', t, v), [name, type, value]);
    if (await call('render_scene', ['string', 'number', 'number'], [kScene, 0, 0]) !== 1) throw new Error(`no scene ${kScene}`);
    const rows = [];
    const timeAll = async (block) => {
      for (const size of kSizes) {
        const { frame_ms, processor_ms } = await timeSize(page, session, size);
        const budget = size[0] === 640 ? kFrame_ms : undefined;
        rows.push(row(`3-D frame ${size.join('x')}, ${block}`, frame_ms, 'ms',
          { budget, note: `software GL; ${processor_ms.toFixed(0)} ms of processor time a frame` }));
      }
    };
    await timeAll('bench block');
    const edge = await call('render_voxels', ['number'], [kFineVoxel_mm]);
    if (edge === 0) throw new Error('no finer block');
    await timeAll(`${edge}^3`);
    return rows;
  } finally {
    await bench.close();
  }
}
