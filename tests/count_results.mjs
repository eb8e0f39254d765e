// Counts test cases in CTest's JUnit files: node count_results.mjs FILE... prints "passed failed" and names failures on stderr.
// A GoogleTest program that ran as one entry (under node) counts with every case it reports.
import { readFileSync } from 'node:fs';

let passed = 0;
let failed = 0;
for (const file of process.argv.slice(2)) {
  const text = readFileSync(file, 'utf8');
  for (const [, attributes, body] of text.matchAll(/<testcase ([^>]*?)(?:\/>|>([\s\S]*?)<\/testcase>)/g)) {
    const name = /name="([^"]*)"/.exec(attributes)[1];
    const status = /status="([^"]*)"/.exec(attributes)[1];
    if (/<skipped/.test(body ?? '') || status === 'disabled') continue;
    const good = (body?.match(/(?:^|>)\[ {7}OK \] .*\(\d+ ms\)$/gm) ?? []).length;
    const bad = [...(body ?? '').matchAll(/(?:^|>)\[ {2}FAILED {2}\] (.*) \(\d+ ms\)$/gm)].map(([, which]) => which);
    if (status === 'run') {
      passed += Math.max(good, 1);
      continue;
    }
    passed += good;
    failed += Math.max(bad.length, 1);
    console.error(`failed: ${name}${bad.length ? ` (${bad.join('; ')})` : ''}`);
  }
}
console.log(`${passed} ${failed}`);
