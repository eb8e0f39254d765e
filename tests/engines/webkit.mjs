// WebKitGTK's small browser by WebDriver.
import { existsSync } from 'node:fs';
import { freePort, start } from './processes.mjs';
import { untilTrue } from './remote_page.mjs';

const kFolders = ['x86_64-linux-gnu', 'aarch64-linux-gnu'].map((machine) => `/usr/lib/${machine}/webkit2gtk-4.1`);
// As root there is no sandbox; graphics are computed by the processor.
const kEnvironment = { WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1', WEBKIT_FORCE_SANDBOX: '0', LIBGL_ALWAYS_SOFTWARE: '1' };

/** {name, driver, end()}; `screen`: name for DISPLAY. */
export async function openWebKit(screen) {
  const binary = kFolders.map((folder) => `${folder}/MiniBrowser`).find((file) => existsSync(file));
  if (!binary) throw new Error('MiniBrowser is not installed');
  const port = await freePort();
  const service = start('WebKitWebDriver', ['-p', String(port)], { env: { ...kEnvironment, DISPLAY: screen, LANG: 'C.UTF-8' } });
  const ask = async (method, place, body) => {
    const answer = await fetch(`http://127.0.0.1:${port}${place}`, { method, body: body ? JSON.stringify(body) : undefined, headers: { 'content-type': 'application/json' } });
    const { value } = await answer.json();
    if (value?.error) throw new Error(`${value.error}: ${value.message}`);
    return value;
  };
  let session = '';
  const end = async () => {
    if (session) await ask('DELETE', session).catch(() => {});
    await service.end();
  };
  try {
    await untilTrue(() => ask('GET', '/status').then(() => true), 'WebKitWebDriver', 30000);
    const { sessionId, capabilities } = await ask('POST', '/session', { capabilities: { alwaysMatch: { 'webkitgtk:browserOptions': { binary, args: ['--automation'] } } } });
    session = `/session/${sessionId}`;
    await ask('POST', `${session}/timeouts`, { script: 60000, pageLoad: 120000 });
    await ask('POST', `${session}/window/rect`, { x: 0, y: 0, width: 1320, height: 900 }).catch(() => {});
    return {
      name: `WebKitGTK ${capabilities.browserVersion}`,
      driver: {
        navigate: (url) => ask('POST', `${session}/url`, { url }),
        script: (script, args) => ask('POST', `${session}/execute/sync`, { script, args }),
        actions: (actions) => ask('POST', `${session}/actions`, { actions }),
      },
      end,
    };
  } catch (failure) {
    await end();
    throw failure;
  }
}
