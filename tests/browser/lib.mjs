// What the browser tests share: the site, the browser, and hands that click, press and drill.
import { execFile } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { chromium } from 'playwright-core';
import { serve } from '../../web/serve_static.mjs';

export const kRoot = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const kPatience_ms = 60000;
const kChromium = process.env.DRIFTBENCH_CHROMIUM ?? '/usr/bin/chromium';
const kArguments = ['--no-sandbox', '--autoplay-policy=user-gesture-required'];
const kSoftwareGraphics = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist'];
const kNoGraphics = ['--disable-gpu', '--disable-3d-apis', '--disable-software-rasterizer'];

export class CheckFailed extends Error {}

/** Fails the case with `what` unless `holds`. */
export function check(holds, what) {
  if (!holds) throw new CheckFailed(what);
}

/** The site on a local server and one browser; `graphics`: whether it has WebGL. */
export async function openBench({ site = path.join(kRoot, 'build/wasm/site'), graphics = true } = {}) {
  const server = await serve(site);
  const browser = await chromium.launch({
    executablePath: kChromium, args: [...kArguments, ...(graphics ? kSoftwareGraphics : kNoGraphics)],
  });
  return {
    site,
    address: server.address,
    browser,
    close: async () => {
      await browser.close();
      await server.close();
    },
  };
}

/** Runs the command-line tool under node and gives {code, stdout, stderr}. */
export async function runTool(words) {
  const tool = process.env.DRIFTBENCH_TOOL ?? path.join(kRoot, 'build/wasm/bin/driftbench.js');
  try {
    const { stdout, stderr } = await promisify(execFile)(process.execPath, [tool, ...words], { maxBuffer: 1 << 26 });
    return { code: 0, stdout, stderr };
  } catch (failure) {
    if (typeof failure.code !== 'number') throw failure;
    return { code: failure.code, stdout: failure.stdout, stderr: failure.stderr };
  }
}

/** Waits until the program in the page draws. (Before it runs, `window.app` is the element of that id.) */
export function untilDrawn(page) {
  return page.waitForFunction(() => typeof window.app.state === 'function' && window.app.state().meters.frames > 2, null,
    { timeout: kPatience_ms });
}

/** One visitor with storage of their own; several pages may share it. */
export class Visitor {
  constructor(bench, context) {
    this.bench = bench;
    this.context = context;
    this.troubles = [];
  }

  /** `offline`: the page may keep itself for use without a network; it takes time, and other cases do without. */
  static async arrive(bench, { viewport = { width: 1280, height: 720 }, touch = false, scale = 1, scheme = 'dark', locale = 'en-GB', offline = false } = {}) {
    const context = await bench.browser.newContext({
      viewport, hasTouch: touch, deviceScaleFactor: scale, acceptDownloads: true, colorScheme: scheme, locale, serviceWorkers: offline ? 'allow' : 'block',
    });
    return new Visitor(bench, context);
  }

  /** Opens the app and waits until it draws; `english` gives what a label may be in English (labels.mjs). */
  async open(query = '', english) {
    const page = await this.context.newPage();
    page.on('pageerror', (error) => this.troubles.push(`page error: ${error.message}`));
    page.on('console', (message) => {
      if (message.type() === 'error' || /of the second part was called/.test(message.text())) this.troubles.push(`console: ${message.text()}`);
    });
    page.on('request', (request) => {
      if (!/^(blob:|data:)/.test(request.url()) && !request.url().startsWith(this.bench.address)) {
        this.troubles.push(`request to ${request.url()}`);
      }
    });
    await page.goto(this.bench.address + query);
    const hands = new Hands(page, english);
    await untilDrawn(page);
    return hands;
  }

  /** Errors, content-policy violations and foreign requests of all pages so far. */
  async allTroubles() {
    const found = [...this.troubles];
    for (const page of this.context.pages()) {
      found.push(...await page.evaluate(() => [...(window.app?.errors ?? []), ...(window.app?.violations ?? [])]).catch(() => []));
    }
    return found;
  }

  async leave() {
    await this.context.close();
  }
}

/** Drives one page by real pointer and key events, told by what is on the screen. */
export class Hands {
  constructor(page, english = (label) => [label]) {
    this.page = page;
    this.english = english;
    this.keyboard = page.keyboard;
  }

  state() {
    return this.page.evaluate(() => window.app.state());
  }

  items() {
    return this.page.evaluate(() => window.app.items());
  }

  /** The item whose label is `label` (text or pattern), or undefined. */
  async find(label, { enabled } = {}) {
    const all = await this.items();
    const isIt = (words) => (label instanceof RegExp ? label.test(words) : words === label);
    const fits = (item) => this.english(item.label).some(isIt);
    return all.find((item) => fits(item) && (enabled === undefined || item.enabled === enabled));
  }

  async item(label, options) {
    const found = await this.until(() => this.find(label, options), `an item "${label}"`);
    return found;
  }

  /** Waits until `ask` gives something true. */
  async until(ask, what, patience_ms = kPatience_ms) {
    const end = Date.now() + patience_ms;
    for (;;) {
      const answer = await ask();
      if (answer) return answer;
      if (Date.now() > end) {
        const state = await this.state().catch(() => ({}));
        const labels = (await this.items().catch(() => [])).map((item) => item.label).join(' | ');
        throw new CheckFailed(`waited in vain for ${what}; screen ${state.screen}, hint ${state.hint}, ` +
          `notice "${state.notice}", items: ${labels.slice(0, 600)}`);
      }
      await this.page.waitForTimeout(50);
    }
  }

  untilState(fits, what, patience_ms) {
    return this.until(async () => {
      const state = await this.state();
      return fits(state) ? state : null;
    }, what, patience_ms);
  }

  untilScreen(name, patience_ms) {
    return this.untilState((state) => state.screen === name, `the screen "${name}"`, patience_ms);
  }

  async moveTo(item, right = 0.5, down = 0.5) {
    await this.page.mouse.move(item.x + item.w * right, item.y + item.h * down);
  }

  async click(label) {
    const item = await this.item(label, { enabled: true });
    await this.moveTo(item);
    await this.page.waitForTimeout(60);
    await this.page.mouse.down();
    await this.page.waitForTimeout(60);
    await this.page.mouse.up();
    await this.page.waitForTimeout(60);
  }

  /** The same, after scrolling with the wheel until the item is whole in the window. */
  async clickInPage(label) {
    const { width, height } = this.page.viewportSize();
    const kBar_px = 56;
    const kFoot_px = 80;
    for (let turn = 0; turn < 40; turn += 1) {
      const item = await this.item(label, { enabled: true });
      const isLow = item.y + item.h > height - kFoot_px;
      const isHigh = item.y < kBar_px || (item.h <= 20 && item.y < height / 2);
      if (!isLow && !isHigh && item.h > 20) break;
      await this.page.mouse.move(width / 2, height / 2);
      await this.page.mouse.wheel(0, isHigh ? -120 : 120);
      await this.page.waitForTimeout(60);
    }
    await this.click(label);
  }

  async tap(label) {
    const item = await this.item(label, { enabled: true });
    await this.page.touchscreen.tap(item.x + item.w / 2, item.y + item.h / 2);
    await this.page.waitForTimeout(120);
  }

  async key(name) {
    await this.keyboard.press(name, { delay: 60 });
    await this.page.waitForTimeout(80);
  }

  frames() {
    return this.state().then((state) => state.meters.frames);
  }
}
