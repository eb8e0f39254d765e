// nlohmann-json is slow to compile and throws: at most three .cpp files and no header include it.
import { cpp_lines } from './tree.mjs';

const kLimit = 3;

export function check(root) {
  const problems = [];
  const files = new Set();
  for (const { file, line, text } of cpp_lines(root, (name) => name.startsWith('src/'))) {
    if (!/#\s*include\s*[<"]nlohmann\//.test(text)) continue;
    files.add(file);
    if (file.endsWith('.h')) problems.push(`${file}:${line}: a header includes nlohmann-json`);
  }
  if (files.size > kLimit) problems.push(`${files.size} files include nlohmann-json, at most ${kLimit} may: ${[...files].join(' ')}`);
  return problems;
}

const include = '#include <nlohmann/json.hpp>\n';
export const clean = { 'src/base/a.cpp': include, 'src/base/b.cpp': include, 'src/base/c.cpp': include };
export const planted = [
  { files: { 'src/base/d.cpp': '#include <nlohmann/json_fwd.hpp>\n' }, expect: /4 files include/ },
  { files: { 'src/base/a.cpp': '', 'src/base/a.h': include }, expect: /a\.h:1: a header/ },
];
