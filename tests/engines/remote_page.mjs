// A page in a browser that is driven by WebDriver commands, with as much of Playwright's page as the hands use.

const kKeys = { Enter: '\uE007', Escape: '\uE00C', Tab: '\uE004', Space: ' ' };
const kMouse = { type: 'pointer', id: 'mouse', parameters: { pointerType: 'mouse' } };
const wait = (time_ms) => new Promise((resolve) => { setTimeout(resolve, time_ms); });

export class RemotePage {
  /** `driver`: {navigate(url), script(text, arguments), actions(list)}, each answering when the browser has. */
  constructor(driver) {
    this.driver = driver;
    this.size = { width: 0, height: 0 };
    const mouse = (...steps) => driver.actions([{ ...kMouse, actions: steps }]);
    this.mouse = {
      move: (x, y) => mouse({ type: 'pointerMove', duration: 0, origin: 'viewport', x: Math.round(x), y: Math.round(y) }),
      down: () => mouse({ type: 'pointerDown', button: 0 }),
      up: () => mouse({ type: 'pointerUp', button: 0 }),
      // Synthetic, on the canvas: wheel actions are not in every engine.
      wheel: (deltaX, deltaY) => this.evaluate(([x, y]) => {
        document.getElementById('canvas').dispatchEvent(new WheelEvent('wheel', { deltaX: x, deltaY: y, bubbles: true, cancelable: true }));
      }, [deltaX, deltaY]),
    };
    this.keyboard = {
      press: (name, { delay = 0 } = {}) => {
        const value = kKeys[name] ?? name;
        return driver.actions([{ type: 'key', id: 'keys', actions: [{ type: 'keyDown', value }, { type: 'pause', duration: delay }, { type: 'keyUp', value }] }]);
      },
    };
  }

  async goto(address) {
    await this.driver.navigate(address);
    this.size = await this.evaluate(() => ({ width: innerWidth, height: innerHeight }));
  }

  /** Runs a function in the page with one argument that is data; gives what it returns, as data. */
  async evaluate(work, argument = null) {
    const text = await this.driver.script(`return JSON.stringify((${work})(arguments[0])) ?? 'null';`, [argument]);
    return JSON.parse(text);
  }

  viewportSize() {
    return this.size;
  }

  waitForTimeout(time_ms) {
    return wait(time_ms);
  }
}

/** Asks until the answer is true, or the time is over. */
export async function untilTrue(ask, what, patience_ms = 60000) {
  const end = Date.now() + patience_ms;
  for (;;) {
    const answer = await Promise.resolve().then(ask).catch(() => null);
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await wait(200);
  }
}
