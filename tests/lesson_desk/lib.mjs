// What the tests of the Lesson desk share: named cases, files of the project, and the tool that reads lessons.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const kRoot = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const read = (name) => readFileSync(path.join(kRoot, name), 'utf8');
export const readJson = (name) => JSON.parse(read(name));
export const namesIn = (folder, ending) => readdirSync(path.join(kRoot, folder)).filter((name) => name.endsWith(ending)).map((name) => `${folder}/${name}`);

/** Runs {name: work} one after the other; a failure names its case. */
export async function runCases(cases) {
  let failed = 0;
  for (const [name, work] of Object.entries(cases)) {
    try {
      await work();
    } catch (failure) {
      failed += 1;
      console.log(`FAIL  ${name}: ${failure.message}`);
    }
  }
  console.log(`${Object.keys(cases).length - failed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}

/** What `driftbench check --json` says of {name: text}; lessons lie beside their sets. */
export function checkFiles(files) {
  const tool = process.argv[2];
  if (!tool) throw new Error('found no path of driftbench on the command line');
  const folder = mkdtempSync(path.join(os.tmpdir(), 'driftbench-desk-'));
  try {
    const names = Object.entries(files).map(([name, text]) => {
      writeFileSync(path.join(folder, name), text);
      return path.join(folder, name);
    });
    const answer = (words) => {
      try {
        return execFileSync(tool, words, { encoding: 'utf8' });
      } catch (failure) {
        return failure.stdout;
      }
    };
    return JSON.parse(answer(['check', '--json', '--assets', path.join(kRoot, 'assets'), ...names]));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export const sentences = (checked) => checked.flatMap(({ file, problems }) => problems.map((problem) => `${path.basename(file)} ${problem.path}: ${problem.found}`));
