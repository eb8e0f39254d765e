// The site's files, compressed as a web server would, stay within the first-load budget: node first_load.mjs SITE
import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync } from 'node:zlib';

const kBudget_bytes = 450_000;

const site = process.argv[2];
let total = 0;
for (const name of readdirSync(site).sort()) {
  const bytes = brotliCompressSync(readFileSync(path.join(site, name))).length;
  console.log(`${String(bytes).padStart(8)}  ${name}`);
  total += bytes;
}
console.log(`${String(total).padStart(8)}  total, at most ${kBudget_bytes} bytes`);
process.exitCode = total > 0 && total <= kBudget_bytes ? 0 : 1;
