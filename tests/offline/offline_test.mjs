// The service worker and the one-file page without a browser: node offline_test.mjs. The worker runs among caches, pages and a
// server made of maps.
import { createHash, webcrypto } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import { bodyOf, importsOf } from '../../src/offline_page.mjs';
import { withoutAddresses } from '../../web/crash.js';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const kScope = 'https://school.example/bench/';
const problems = [];
const check = (good, sentence) => { if (!good) problems.push(sentence); };
const hashOf = (text) => createHash('sha256').update(text).digest('hex');

/** The worker of a build among `world`: {stores, server, pages, log}. Gives {fire(kind, event) -> promise, skipped()}. */
function workerOf(world, build, files) {
  const handlers = {};
  let skipped = false;
  const keyOf = (request) => (typeof request === 'string' ? request : request.url);
  const cacheOf = (store) => ({
    match: async (request) => store.get(keyOf(request))?.clone(),
    put: async (request, answer) => { store.set(keyOf(request), answer); },
  });
  const caches = {
    open: async (name) => {
      if (!world.stores.has(name)) world.stores.set(name, new Map());
      return cacheOf(world.stores.get(name));
    },
    keys: async () => [...world.stores.keys()],
    delete: async (name) => world.stores.delete(name),
    match: async (request) => {
      for (const store of world.stores.values()) if (store.has(keyOf(request))) return store.get(keyOf(request)).clone();
      return undefined;
    },
  };
  const context = {
    URL, Response, Uint8Array, Object, Error, crypto: webcrypto, caches,
    self: { driftbenchSite: { build, files: Object.fromEntries(Object.entries(files).map(([name, text]) => [name, hashOf(text)])) } },
    importScripts: () => {},
    registration: { scope: kScope, unregister: async () => world.log.push('unregister') },
    clients: { matchAll: async () => world.pages },
    skipWaiting: () => { skipped = true; },
    addEventListener: (kind, handler) => { handlers[kind] = handler; },
    fetch: async (address) => {
      world.log.push(address.slice(kScope.length));
      const text = world.server.get(address.slice(kScope.length));
      return text === undefined ? new Response('404', { status: 404 }) : new Response(text, { headers: { 'content-type': 'text/plain' } });
    },
  };
  vm.runInNewContext(readFileSync(path.join(root, 'web/sw.js'), 'utf8'), context);
  const fire = async (kind, event = {}) => {
    let work = Promise.resolve();
    let answer = null;
    handlers[kind]({ ...event, waitUntil: (promise) => { work = promise; }, respondWith: (promise) => { answer = promise; } });
    await work;
    return answer;
  };
  const get = async (address, method = 'GET') => {
    const answer = await fire('fetch', { request: { method, url: kScope + address } });
    return answer && (answer.type === 'error' ? 'error' : answer.text());
  };
  return { fire, get, skipped: () => skipped };
}

const worldWith = (files) => ({ stores: new Map(), server: new Map(Object.entries(files)), pages: [], log: [] });
const kFirst = { 'index.html': 'page 1', 'boot.js': 'boot 1', 'icon.svg': 'icon' };
const kSecond = { 'index.html': 'page 2', 'boot.js': 'boot 2', 'icon.svg': 'icon' };

async function keepsOneBuild() {
  const world = worldWith(kFirst);
  const worker = workerOf(world, 'one', kFirst);
  await worker.fire('install');
  await worker.fire('activate');
  world.server.clear();
  check(await worker.get('') === 'page 1' && await worker.get('index.html?lesson=x#y') === 'page 1', 'the page does not open without a server');
  check(await worker.get('boot.js') === 'boot 1', 'a file does not come without a server');
  check(await worker.get('class-summary.json') === null && await worker.get('boot.js', 'POST') === null, 'it answers what is not its own');
}

async function changesWhole() {
  const world = worldWith(kFirst);
  const one = workerOf(world, 'one', kFirst);
  await one.fire('install');
  world.server = new Map(Object.entries(kSecond));
  world.log.length = 0;
  const two = workerOf(world, 'two', kSecond);
  await two.fire('install');
  check(world.log.join() === 'index.html,boot.js', `asked of the server: ${world.log}; what is the same need not be`);
  check(await one.get('boot.js') === 'boot 1' && await one.get('') === 'page 1', 'the first build has files of the second');
  world.pages = [{ id: 'a', url: `${kScope}index.html`, frameType: 'top-level' }, { id: 'b', url: `${kScope}classroom.html`, frameType: 'top-level' }];
  const told = [];
  const source = { id: 'a', postMessage: (word) => told.push(word) };
  await two.fire('message', { data: 'take-over', source });
  check(!two.skipped() && told.join() === 'others-are-open', 'it takes over under another open page');
  world.pages = [world.pages[0], { id: 'c', url: 'https://school.example/other/', frameType: 'top-level' }, { id: 'd', url: kScope, frameType: 'nested' }];
  await two.fire('message', { data: 'take-over', source });
  check(two.skipped(), 'a page of another program, or a frame, keeps it from taking over');
  await two.fire('activate');
  check(world.stores.size === 1 && await two.get('boot.js') === 'boot 2', 'the first build is still kept');
}

async function refusesAMix() {
  const world = worldWith(kFirst);
  const one = workerOf(world, 'one', kFirst);
  await one.fire('install');
  world.server.set('index.html', 'page 2');  // boot.js is still the first one
  let failure = null;
  await workerOf(world, 'two', kSecond).fire('install').catch((error) => { failure = error; });
  check(failure !== null && world.stores.size === 1, 'half a build is kept');
  for (const store of world.stores.values()) store.delete(`${kScope}index.html`);
  check(await one.get('') === 'error' && world.log.at(-1) === 'unregister', 'the page of another build is given beside files of this one');
}

function makesFunctionsOfModules() {
  const run = (text, modules = {}) => {
    const out = {};
    const need = (name) => modules[name];
    new Function('out', 'need', 'bring', 'fetch', bodyOf(text, 'x.js'))(out, need, async (address) => need(String(address).replace(/.*\//, '')), null);
    return out;
  };
  const given = { 'a.js': { one: 1, two: 2 }, 'b.mjs': { default: 3 } };
  check(run('import{one as e,two}from"./a.js";import f from"./b.mjs";export const sum=e+two+f;', given).sum === 6, 'imports and exported values');
  check(run("import './a.js';\nimport {one} from './a.js';\nexport function two() { return one + 1; }\nexport async function three() {}\nexport class Four {}", given).two() === 2, 'exported functions');
  check(run('export default n;var e,n=(e=import.meta.url,()=>e);').default() === 'inside:///x.js', 'a default export that gets its value later');
  check(run('const x="Export const; import of";export const text=x+" export const";').text === 'Export const; import of export const', 'words inside texts');
  check(importsOf('import{a}from"./a.js";const b=()=>import(new URL("./b.js",import.meta.url));').join() === 'a.js,b.js', 'names of imports');
}

function reportsWithoutAddresses() {
  const text = 'Error\n at file:///disk/Downloads/app.wasm:1\n at file:///disk/Downloads/boot.js:2';
  check(withoutAddresses(text, 'file:///disk/Downloads/offline.html?x#y') === 'Error\n at app.wasm:1\n at boot.js:2', 'where the page lies is in the report');
  check(withoutAddresses('at https://school.example/bench/app.wasm', `${kScope}?seed=1`) === 'at app.wasm', 'the server is in the report');
}

await keepsOneBuild();
await changesWhole();
await refusesAMix();
makesFunctionsOfModules();
reportsWithoutAddresses();
for (const problem of problems) console.log(problem);
console.log(problems.length === 0 ? 'offline: ok' : `offline: ${problems.length} problems`);
process.exitCode = problems.length === 0 ? 0 : 1;
