// The test runner's counting, the web server and the page's tables, driven with small made-up inputs: node scripts_test.mjs ROOT
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import http from 'node:http';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { with_tree } from './tree.mjs';

const root = path.resolve(process.argv[2]);

function count(cases) {
  return with_tree({ 'a.xml': `<testsuite>\n${cases}</testsuite>\n` }, (folder) => {
    const run = spawnSync(process.execPath, [`${root}/tests/count_results.mjs`, `${folder}/a.xml`], { encoding: 'utf8' });
    return run.stdout.trim();
  });
}

const ok = (name) => `[       OK ] ${name} (3 ms)\n`;
const bad = (name) => `[  FAILED  ] ${name} (3 ms)\n`;
assert.equal(await count('<testcase name="a" status="run"/>\n<testcase name="b" status="run"><system-out>x</system-out></testcase>'), '2 0');
assert.equal(await count('<testcase name="a" status="fail"><failure/><system-out>Segmentation fault</system-out></testcase>'), '0 1');
assert.equal(await count('<testcase name="a" status="notrun"><skipped message="x"/></testcase>'), '0 0');
assert.equal(await count('<testcase name="a" status="notrun"><failure/></testcase>'), '0 1');
assert.equal(await count(`<testcase name="p" status="run"><system-out>${ok('A.a')}${ok('A.b')}</system-out></testcase>`), '2 0');
assert.equal(await count(`<testcase name="p" status="fail"><system-out>${ok('A.a')}${bad('A.b')}${bad('A.c')}[  FAILED  ] A.b\n</system-out></testcase>`), '1 2');
// A program that dies in the middle is a failure although every case it reported was good.
assert.equal(await count(`<testcase name="p" status="fail"><system-out>${ok('A.a')}</system-out></testcase>`), '1 1');

const { serve } = await import(pathToFileURL(`${root}/web/serve_static.mjs`));
const get = (address, name, method = 'GET', headers = {}) => new Promise((resolve, reject) => {
  const { hostname, port } = new URL(address);
  http.request({ hostname, port, path: name, method, headers }, (response) => {
    response.resume();
    response.on('end', () => resolve(response));
  }).on('error', reject).end();
});
await with_tree({ 'site/index.html': '<p>', 'site/app.wasm': 'x', 'site/app.mjs': '', 'secret.txt': 's' }, async (folder) => {
  const site = await serve(path.join(folder, 'site'));
  const index = await get(site.address, '/');
  assert.equal(index.statusCode, 200);
  assert.match(index.headers['content-type'], /^text\/html/);
  // Kept by a browser, but never used without asking whether it is still the same.
  assert.equal(index.headers['cache-control'], 'no-cache');
  assert.equal((await get(site.address, '/', 'GET', { 'if-none-match': index.headers.etag })).statusCode, 304);
  assert.equal((await get(site.address, '/app.wasm', 'GET', { 'if-none-match': index.headers.etag })).statusCode, 200);
  assert.equal((await get(site.address, '/app.wasm')).headers['content-type'], 'application/wasm');
  assert.match((await get(site.address, '/app.mjs?x=1')).headers['content-type'], /^text\/javascript/);
  assert.equal((await get(site.address, '/../secret.txt')).statusCode, 404);
  assert.equal((await get(site.address, '/%2e%2e/secret.txt')).statusCode, 404);
  assert.equal((await get(site.address, '/..%2fsecret.txt')).statusCode, 404);
  assert.equal((await get(site.address, '/none')).statusCode, 404);
  assert.equal((await get(site.address, '/', 'POST')).statusCode, 405);
  await site.close();
});
// Mappings that the page keeps: text and back.
const { csvRows, csvText } = await import(pathToFileURL(`${root}/web/csv_text.js`));
const rows = [['column', 'as'], ['x "y"', '1,5'], ['', 'depth_mm'], ['two\nlines', ''], ['ä µ', ';']];
assert.deepEqual(csvRows(csvText(rows)), rows);
assert.deepEqual(csvRows('a,b\nc,\n'), [['a', 'b'], ['c', '']]);
assert.deepEqual(csvRows(''), []);
console.log('scripts: ok');
