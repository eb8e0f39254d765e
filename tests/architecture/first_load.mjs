// What each page loads, compressed as a web server would, stays within the first-load budget: node first_load.mjs SITE
// What a script names by `new URL(...)` is loaded on first use; it is listed, not counted. The part of a program that
// follows after its start (*_later.wasm) has a budget of its own. Texts of other languages than English, <program>.<code>.json,
// are fetched where they are wanted, and listed.
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync } from 'node:zlib';

const kBudget_bytes = 450_000;
const kLaterBudget_bytes = 172_000;  // own choice

const site = process.argv[2];
/** All files of the site, by their path in it. */
function files_in(folder) {
  return readdirSync(path.join(site, folder), { withFileTypes: true }).flatMap((entry) => {
    const name = path.posix.join(folder, entry.name);
    return entry.isDirectory() ? files_in(name) : [name];
  });
}

const unused = new Set(files_in('.'));
const read = (name) => readFileSync(path.join(site, name));

/** Files of the site that a page or script names in attributes and imports; `later`: by new URL(...) instead. */
function named_in(name, later) {
  if (!/\.(html|js|mjs|css)$/.test(name)) return [];
  // A program's own glue finds its .wasm by new URL(...), and at once.
  const text = read(name).toString('utf8').replace(/new URL\(["']([\w-]+\.wasm)["']/g, '"$1"');
  const named = (pattern) => [...text.matchAll(pattern)].map((word) => path.posix.join(path.posix.dirname(name), word[1]))
    .filter((other) => existsSync(path.join(site, other)));
  const on_first_use = [...named(/new URL\(["']((?:[\w.-]+\/)*[\w-]+\.(?:js|mjs))["']/g), ...named(/["'](?:\.\/)?([\w-]+_later\.wasm)["']/g)];
  if (later) return on_first_use;
  return named(/["'(=]((?:[\w.-]+\/)*[\w-]+\.(?:js|mjs|wasm|css|svg|webmanifest))["')\s]/g).filter((other) => !on_first_use.includes(other));
}

/** `start` and all that these files lead to, in order of names. */
function loaded_by(start) {
  const seen = new Set(start);
  for (const name of seen) {
    for (const other of named_in(name, false)) seen.add(other);
  }
  return [...seen].sort();
}

const size_of = (name) => brotliCompressSync(read(name)).length;

function list(names) {
  let total = 0;
  for (const name of names) {
    const bytes = size_of(name);
    console.log(`${String(bytes).padStart(8)}  ${name}`);
    total += bytes;
    unused.delete(name);
  }
  return total;
}

// One file for a disk, never loaded from a server.
const kWhole = 'offline.html';
unused.delete(kWhole);
const pages = readdirSync(site).filter((name) => name.endsWith('.html') && name !== kWhole).sort();
let good = pages.length > 0;
for (const page of pages) {
  console.log(`${page}:`);
  const first = loaded_by([page]);
  const total = list(first);
  console.log(`${String(total).padStart(8)}  total, at most ${kBudget_bytes} bytes`);
  const later = loaded_by(first.flatMap((name) => named_in(name, true))).filter((name) => !first.includes(name));
  if (later.length > 0) console.log('  on first use:');
  list(later);
  const follows = later.filter((name) => name.endsWith('_later.wasm')).reduce((sum, name) => sum + size_of(name), 0);
  good &&= total <= kBudget_bytes && follows <= kLaterBudget_bytes;
}
const languages = [...unused].filter((name) => /^(app|desk)\.[a-z]+\.json$/.test(name)).sort();
console.log('in another language, one of:');
list(languages);
// What no page names would hide from the sums.
if (unused.size > 0) {
  console.log(`named by no page: ${[...unused].join(', ')}`);
  good = false;
}
process.exitCode = good ? 0 : 1;
