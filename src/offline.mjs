// What makes the site work without a network: node offline.mjs SITE, once all its files are there. It writes
//   site_files.js  name and SHA-256 of every file that the service worker keeps (web/sw.js), and the build's own number
//   offline.html   the learner's page as one file (offline_page.mjs)
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { offlinePage } from './offline_page.mjs';

const site = process.argv[2];
// The worker itself, its list, what is made from the rest, and texts that only tests want.
const kLeftOut = /^(sw\.js|site_files\.js|offline\.html|\w+\.long\.json)$/;
const kBuildDigits = 12;

const hashOf = (bytes) => createHash('sha256').update(bytes).digest('hex');

function filesIn(folder) {
  return readdirSync(path.join(site, folder), { withFileTypes: true }).flatMap((entry) => {
    const name = path.posix.join(folder, entry.name);
    return entry.isDirectory() ? filesIn(name) : [name];
  });
}

/** Leaves the file alone when it is already so. */
function write(name, text) {
  const file = path.join(site, name);
  if (!existsSync(file) || readFileSync(file, 'utf8') !== text) writeFileSync(file, text);
}

function listFiles() {
  const names = filesIn('.').filter((name) => !kLeftOut.test(name)).sort();
  const files = Object.fromEntries(names.map((name) => [name, hashOf(readFileSync(path.join(site, name)))]));
  const build = hashOf(JSON.stringify(files)).slice(0, kBuildDigits);
  write('site_files.js', `self.driftbenchSite=${JSON.stringify({ build, files })};\n`);
}

listFiles();
write('offline.html', offlinePage(site));
