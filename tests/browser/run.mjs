// Runs the browser tests: node tests/browser/run.mjs [--only WORD] [--site FOLDER] [--full]
// Every file *.spec.mjs exports `cases`: [name, async ({bench}) => {...}]. Last line: "N passed, N failed".
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { openBench } from './lib.mjs';

const kCase_ms = 240000;
const words = process.argv.slice(2);
const valueOf = (name) => (words.includes(name) ? words[words.indexOf(name) + 1] : undefined);
const only = valueOf('--only');
const isFull = words.includes('--full');

function inTime(promise, limit_ms) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(`not done after ${limit_ms / 1000} s`)), limit_ms);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

const folder = path.dirname(fileURLToPath(import.meta.url));
const files = (await readdir(folder)).filter((name) => name.endsWith('.spec.mjs')).sort();
const bench = await openBench({ site: valueOf('--site') });
let passed = 0;
let failed = 0;
for (const file of files) {
  const { cases } = await import(pathToFileURL(path.join(folder, file)).href);
  for (const [name, run, options = {}] of cases) {
    const title = `${file.replace('.spec.mjs', '')}: ${name}`;
    if ((only && !title.includes(only)) || (options.full && !isFull)) continue;
    const start = Date.now();
    try {
      await inTime(run({ bench, isFull }), options.limit_ms ?? kCase_ms);
      passed += 1;
      console.log(`ok    ${title} (${((Date.now() - start) / 1000).toFixed(1)} s)`);
    } catch (failure) {
      failed += 1;
      console.log(`FAIL  ${title}: ${failure.message}`);
      if (process.env.DRIFTBENCH_STACKS) console.log(failure.stack);
    } finally {
      for (const context of bench.browser.contexts()) await context.close();
    }
  }
}
await bench.close();
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
