// All C++ is formatted as .clang-format says, by clang-format 14.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { list_files } from './tree.mjs';

const kProgram = ['clang-format-14', 'clang-format'].find((name) => / 14\./.test(spawnSync(name, ['--version']).stdout ?? ''));
const kStyle = readFileSync(path.join(path.dirname(fileURLToPath(import.meta.url)), '../../.clang-format'), 'utf8');

export const skip = () => (kProgram ? '' : 'clang-format 14 is not installed (other versions format differently)');

export function check(root) {
  const files = list_files(root).filter((name) => /^(src|tests)\/.*\.(h|cpp)$/.test(name));
  if (files.length === 0) return [];
  const run = spawnSync(kProgram, ['--dry-run', '-Werror', ...files], { cwd: root, encoding: 'utf8' });
  const bad = new Set([...run.stderr.matchAll(/^(\S+?):(\d+):\d+: error/gm)].map(([, file, line]) => `${file}:${line}: not formatted`));
  if (run.status !== 0 && bad.size === 0) bad.add(run.stderr.trim());
  return [...bad];
}

export const clean = { '.clang-format': kStyle, 'src/base/a.cpp': 'int main() {\n  return 0;\n}\n' };
export const planted = [{ files: { 'src/base/a.cpp': 'int   main( ) {return 0;}\n' }, expect: /a\.cpp:1: not formatted/ }];
