// Runs one check on the source tree, or its self-test: node run.mjs CHECK ROOT [--self-test]
// A check module gives `check(root)` -> list of problems, `clean` (a tree without any) and
// `planted` (list of {files, expect}: each, laid over `clean`, must give a problem that matches).
import { with_tree } from './tree.mjs';

const kSkipped = 77;
const [name, root, mode] = process.argv.slice(2);
const { check, clean, planted, skip } = await import(`./${name}.mjs`);

const reason = skip?.();
if (reason) {
  console.log(`${name}: skipped, ${reason}`);
  process.exit(kSkipped);
}

const problems = [];
if (mode === '--self-test') {
  for (const problem of await with_tree(clean, check)) problems.push(`finds a problem in the clean tree: ${problem}`);
  for (const { files, expect } of planted) {
    const found = await with_tree({ ...clean, ...files }, check);
    if (!found.some((problem) => expect.test(problem)))
      problems.push(`misses the violation planted in ${Object.keys(files)}: expected ${expect}, found [${found}]`);
  }
} else {
  problems.push(...check(root));
}
for (const problem of problems) console.log(problem);
console.log(`${name}${mode ? ' self-test' : ''}: ${problems.length === 0 ? 'ok' : `${problems.length} problems`}`);
process.exitCode = problems.length === 0 ? 0 : 1;
