// Runs the command-line tool and collects findings of one group of tests.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');

/// `command` is the program with the words in front of it, like ['node', 'driftbench.js'].
export function make_group(command) {
  const problems = [];
  let passed = 0;
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'driftbench-'));

  /// Runs in the project folder; gives {code, out, err}.
  const run = (...words) => {
    const done = spawnSync(command[0], [...command.slice(1), ...words], { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 });
    if (done.error) throw done.error;
    return { code: done.status, out: done.stdout, err: done.stderr, words: words.join(' ') };
  };
  const expect = (good, sentence) => { if (good) ++passed; else problems.push(sentence); };
  const expect_code = (done, code) =>
    expect(done.code === code, `${done.words}: found exit code ${done.code}, expected ${code}; stderr: ${done.err.trim()}`);

  return {
    command, run, expect, expect_code,
    path: (name) => path.join(folder, name),
    write(name, text) { fs.writeFileSync(path.join(folder, name), text); return path.join(folder, name); },
    /// Runs with --json: stdout must be one JSON document and nothing else.
    json(code, ...words) {
      const done = run(...words, '--json');
      expect_code(done, code);
      try {
        return JSON.parse(done.out);
      } catch {
        expect(false, `${done.words}: found stdout ${JSON.stringify(done.out.slice(0, 200))}, expected one JSON document`);
        return undefined;
      }
    },
    equal(found, expected, what) {
      expect(JSON.stringify(found) === JSON.stringify(expected),
        `${what}: found ${JSON.stringify(found)}, expected ${JSON.stringify(expected)}`);
    },
    near(found, expected, tolerance, what) {
      expect(typeof found === 'number' && Math.abs(found - expected) <= tolerance,
        `${what}: found ${found}, expected ${expected} within ${tolerance}`);
    },
    /// Prints the findings and gives the exit code.
    finish(name) {
      fs.rmSync(folder, { recursive: true, force: true });
      problems.forEach((problem) => console.log(problem));
      console.log(`${name}: ${passed} passed, ${problems.length} failed`);
      return problems.length === 0 && passed > 0 ? 0 : 1;
    },
  };
}
