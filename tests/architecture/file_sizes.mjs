// No source file is longer than 500 lines.
import { list_files, read } from './tree.mjs';

const kLimit = 500;
const kSource = /(\.(h|cpp|js|mjs|css|html|cmake|vert|frag|glsl|sh)|CMakeLists\.txt|^web\/serve|^tests\/run)$/;

export function check(root) {
  const problems = [];
  for (const file of list_files(root)) {
    if (!kSource.test(file)) continue;
    const lines = read(root, file).split('\n').length - 1;
    if (lines > kLimit) problems.push(`${file}: ${lines} lines, at most ${kLimit}`);
  }
  return problems;
}

export const clean = { 'src/base/a.cpp': 'x\n'.repeat(kLimit), 'assets/table.json': '1\n'.repeat(kLimit + 1) };
export const planted = [
  { files: { 'src/base/a.cpp': 'x\n'.repeat(kLimit + 1) }, expect: /a\.cpp: 501 lines/ },
  { files: { 'web/shell.js': 'x\n'.repeat(kLimit + 1) }, expect: /shell\.js: 501 lines/ },
];
