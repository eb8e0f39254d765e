// What the checks share: the files of the source tree, their code without comments, and planted trees for self-tests.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const kSkippedFolders = new Set(['.git', 'build', 'node_modules']);

/** Paths of all files that are, or would be, under version control, relative to root and sorted. */
export function list_files(root) {
  if (existsSync(path.join(root, '.git'))) {
    const listed = execFileSync('git', ['-C', root, 'ls-files', '-z', '--cached', '--others', '--exclude-standard']);
    const names = listed.toString().split('\0').filter((name) => name && existsSync(path.join(root, name)));
    return [...new Set(names)].sort();
  }
  const names = [];
  const walk = (folder) => {
    for (const entry of readdirSync(path.join(root, folder))) {
      const name = folder ? `${folder}/${entry}` : entry;
      if (kSkippedFolders.has(entry)) continue;
      if (statSync(path.join(root, name)).isDirectory()) walk(name);
      else names.push(name);
    }
  };
  walk('');
  return names.sort();
}

export const read = (root, name) => readFileSync(path.join(root, name), 'utf8');

/** Rows {layer, allowed} of src/layers.txt; `core` marks the rows above the border comment. */
export function read_layers(root) {
  const layers = new Map();
  let core = true;
  for (const line of read(root, 'src/layers.txt').split('\n')) {
    if (/^#.*border/i.test(line)) core = false;
    const [layer, allowed] = line.replace(/#.*/, '').split(':');
    if (allowed === undefined) continue;
    layers.set(layer.trim(), { core, allowed: new Set(allowed.trim().split(/\s+/).filter(Boolean)) });
  }
  return layers;
}

/** C++ text with comments and the insides of string and character literals blanked; line numbers stay. */
export function strip_comments_and_strings(text) {
  const token = /\/\/[^\n]*|\/\*[\s\S]*?\*\/|R"([^()\\\s]*)\([\s\S]*?\)\1"|"(?:[^"\\\n]|\\.)*"|(?<![0-9a-fA-F])'(?:[^'\\\n]|\\.)*'/g;
  return text.replace(token, (found, _tag, offset) => {
    // An include's name is not a string to be blanked.
    const line_start = text.lastIndexOf('\n', offset) + 1;
    if (found[0] === '"' && /^\s*#\s*include\s*$/.test(text.slice(line_start, offset))) return found;
    return found.replace(/[^\n]/g, ' ');
  });
}

/** All {file, line, text} of C++ files for which keep(file) holds. */
export function* cpp_lines(root, keep) {
  for (const file of list_files(root)) {
    if (!/\.(h|cpp)$/.test(file) || !keep(file)) continue;
    const lines = strip_comments_and_strings(read(root, file)).split('\n');
    for (const [index, text] of lines.entries()) yield { file, line: index + 1, text };
  }
}

export const layer_of = (file) => /^src\/([a-z_]+)\//.exec(file)?.[1];

/** Gives what action(folder), which may be asynchronous, gives in a temporary folder that holds `files` (name -> text). */
export async function with_tree(files, action) {
  const root = mkdtempSync(path.join(os.tmpdir(), 'driftbench-check-'));
  try {
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(path.dirname(path.join(root, name)), { recursive: true });
      writeFileSync(path.join(root, name), text);
    }
    return await action(root);
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}
