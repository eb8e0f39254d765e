// Every C++ file is named in a CMakeLists.txt of its folder or of a folder above, so nothing is left out of the build.
import path from 'node:path';
import { list_files, read } from './tree.mjs';

export function check(root) {
  const files = list_files(root);
  const lists = new Map(files.filter((name) => path.basename(name) === 'CMakeLists.txt')
    .map((name) => [path.dirname(name), read(root, name).replace(/#.*/g, '')]));
  const problems = [];
  for (const file of files) {
    if (!/^(src|tests)\/.*\.(cpp|h)$/.test(file)) continue;
    if (file.startsWith('tests/') && file.endsWith('.h')) continue;
    let listed = false;
    for (let folder = path.dirname(file); folder !== '.' && !listed; folder = path.dirname(folder)) {
      const relative = path.relative(folder, file).replaceAll('.', '\\.');
      listed = new RegExp(`(^|[\\s("/])${relative}($|[\\s)";])`, 'm').test(lists.get(folder) ?? '');
    }
    if (!listed) problems.push(`${file}: no CMakeLists.txt names it`);
  }
  return problems;
}

export const clean = {
  'src/base/CMakeLists.txt': 'driftbench_layer(base\n  HEADERS a.h\n  SOURCES a.cpp)\n', 'src/base/a.h': '', 'src/base/a.cpp': '',
  'tests/unit/base/CMakeLists.txt': 'driftbench_test(base_test SOURCES a_test.cpp)\n', 'tests/unit/base/a_test.cpp': '',
  'tests/support/near.h': '',
};
export const planted = [
  { files: { 'src/base/ba.cpp': '' }, expect: /ba\.cpp: no CMakeLists/ },
  { files: { 'src/base/b.h': '' }, expect: /b\.h: no CMakeLists/ },
  { files: { 'tests/unit/base/b_test.cpp': '' }, expect: /b_test\.cpp: no CMakeLists/ },
];
