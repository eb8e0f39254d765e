// Firefox by its own remote protocol (Marionette): messages of JSON, each after its length, over a socket.
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { freePort, start } from './processes.mjs';
import { untilTrue } from './remote_page.mjs';

// Software graphics are refused by default; the rest keeps a fresh profile from opening pages and asking the network.
const kPreferences = {
  'webgl.force-enabled': true, 'webgl.disable-fail-if-major-performance-caveat': true,
  'browser.shell.checkDefaultBrowser': false, 'browser.startup.page': 0, 'browser.startup.homepage_override.mstone': 'ignore',
  'browser.aboutwelcome.enabled': false, 'datareporting.policy.dataSubmissionEnabled': false, 'toolkit.telemetry.reportingpolicy.firstRun': false,
  'app.normandy.enabled': false, 'network.captive-portal-service.enabled': false, 'network.connectivity-service.enabled': false,
  'extensions.update.enabled': false, 'browser.safebrowsing.update.enabled': false, 'services.settings.server': 'data:,#driftbench-tests',
  'intl.accept_languages': 'en-GB', 'browser.tabs.warnOnClose': false, 'focusmanager.testmode': true,
};

function connect(port) {
  return new Promise((resolve, reject) => {
    const socket = net.connect(port, '127.0.0.1');
    const waiting = new Map();
    let bytes = Buffer.alloc(0);
    let next = 1;
    const send = (command, values = {}) => new Promise((done, failed) => {
      const id = next;
      next += 1;
      waiting.set(id, { done, failed });
      const message = Buffer.from(JSON.stringify([0, id, command, values]));
      socket.write(Buffer.concat([Buffer.from(`${message.length}:`), message]));
    });
    socket.once('error', reject);
    socket.on('close', () => waiting.forEach(({ failed }) => failed(new Error('Firefox closed the connection'))));
    socket.on('data', (more) => {
      bytes = Buffer.concat([bytes, more]);
      for (;;) {
        const colon = bytes.indexOf(':');
        const length = colon < 0 ? Infinity : Number(bytes.toString('latin1', 0, colon));
        if (bytes.length < colon + 1 + length) return;
        const message = JSON.parse(bytes.toString('utf8', colon + 1, colon + 1 + length));
        bytes = bytes.subarray(colon + 1 + length);
        if (!Array.isArray(message)) {  // the greeting
          resolve({ send, end: () => socket.destroy() });
          continue;
        }
        const [, id, error, result] = message;
        const asked = waiting.get(id);
        waiting.delete(id);
        if (error) asked?.failed(new Error(`${error.error}: ${error.message}`));
        else asked?.done(result);
      }
    });
  });
}

/** {name, driver, end()}; `screen`: name for DISPLAY. */
export async function openFirefox(screen) {
  const profile = await mkdtemp(path.join(os.tmpdir(), 'driftbench-firefox-'));
  const port = await freePort();
  const lines = Object.entries({ ...kPreferences, 'marionette.port': port }).map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});`);
  await writeFile(path.join(profile, 'user.js'), `${lines.join('\n')}\n`);
  const browser = start('firefox-esr', ['--marionette', '--no-remote', '--profile', profile], { env: { DISPLAY: screen, MOZ_DISABLE_CONTENT_SANDBOX: '1' } });
  const end = async () => {
    await browser.end();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    const { send } = await untilTrue(() => connect(port), 'Firefox', 90000);
    const { capabilities } = await send('WebDriver:NewSession', {});
    await send('WebDriver:SetTimeouts', { script: 60000, pageLoad: 120000 });
    await send('WebDriver:SetWindowRect', { x: 0, y: 0, width: 1320, height: 900 });
    return {
      name: `Firefox ${capabilities.browserVersion}`,
      driver: {
        navigate: (url) => send('WebDriver:Navigate', { url }),
        script: async (script, words) => (await send('WebDriver:ExecuteScript', { script, args: words })).value,
        actions: (actions) => send('WebDriver:PerformActions', { actions }),
      },
      end,
    };
  } catch (failure) {
    await end();
    throw failure;
  }
}
