// The service worker: keeps the files of one build in the browser, so that the pages open without a network.
// A build is taken whole or not at all: every file must have the hash that the build wrote down (src/offline.mjs).
importScripts('./site_files.js');

const {build, files} = self.driftbenchSite;
const scope = registration.scope;
const PREFIX = `driftbench ${scope} `;
const NAME = PREFIX + build;

const addressOf = name => new URL(name, scope).href;

async function hasItsHash(name, bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...hash].map(byte => byte.toString(16).padStart(2, '0')).join('') === files[name];
}

class OtherBuild extends Error {}

// Into the cache of this build: what an earlier build has the same, or what the server gives.
async function take(cache, name) {
  const address = addressOf(name);
  const keep = async (answer, bytes) => {
    // A new answer: one that was redirected could not open a page.
    const kept = new Response(bytes, {headers: {'content-type': answer.headers.get('content-type')}});
    await cache.put(address, kept.clone());
    return kept;
  };
  const before = await caches.match(address);
  if (before) {
    const bytes = await before.clone().arrayBuffer();
    if (await hasItsHash(name, bytes)) return keep(before, bytes);
  }
  const answer = await fetch(address, {cache: 'no-cache', credentials: 'same-origin'});
  const bytes = await answer.arrayBuffer();
  if (!answer.ok || !await hasItsHash(name, bytes)) throw new OtherBuild(`${name} is not that of build ${build}`);
  return keep(answer, bytes);
}

addEventListener('install', event => event.waitUntil((async () => {
  const cache = await caches.open(NAME);
  try {
    for (const name of Object.keys(files)) await take(cache, name);
  } catch (failure) {
    await caches.delete(NAME);
    throw failure;
  }
})()));

// Only now does no page use the earlier build any more.
addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== NAME) await caches.delete(name);
  }
})()));

async function give(name) {
  const cache = await caches.open(NAME);
  const kept = await cache.match(addressOf(name));
  if (kept) return kept;
  try {  // the browser threw it away
    return await take(cache, name);
  } catch (failure) {
    // Never a file of another build beside those of this one: the next reload comes from the server.
    if (failure instanceof OtherBuild) await registration.unregister();
    return Response.error();
  }
}

addEventListener('fetch', event => {
  const {method, url} = event.request;
  const address = url.replace(/[?#].*/, '');
  if (method !== 'GET' || !address.startsWith(scope)) return;
  const name = address.slice(scope.length) || 'index.html';
  if (Object.hasOwn(files, name)) event.respondWith(give(name));
});

// A page wants the build that waits here. With another page open, that one would get files of two builds.
addEventListener('message', event => event.waitUntil((async () => {
  if (event.data !== 'take-over') return;
  const open = await clients.matchAll({includeUncontrolled: true, type: 'window'});
  const others = open.filter(({id, url, frameType}) => id !== event.source.id && url.startsWith(scope) && frameType !== 'nested');
  if (others.length > 0) event.source.postMessage('others-are-open');
  else skipWaiting();
})()));
