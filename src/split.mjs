// Splits a linked program in two: what the page needs to start, and what may follow a moment later.
// node split.mjs PROGRAM.wasm LIST OBJECTS_ROOT WASM_SPLIT NM OUT_FIRST OUT_LATER
//
// LIST names source files, "layer/file" a line; the functions of their object files go into the second part, and with
// them what they alone call. A function whose name occurs twice in the program stays in the first: a name would not tell
// which one is meant.
// PROGRAM must carry its functions' names as the linker wrote them (--profiling-funcs, -Wl,--no-demangle).
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const [program, list, root, wasmSplit, nm, first, later] = process.argv.slice(2);
const kCustomSection = 0;
const kFunctionNames = 1;

// The functions' names in the program's name section.
function functionNames(bytes) {
  let at = 8;
  const number = () => {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = bytes[at++];
      value |= (byte & 127) << shift;
      if (byte < 128) return value >>> 0;
    }
  };
  const text = () => {
    const length = number();
    at += length;
    return bytes.toString('utf8', at - length, at);
  };
  const names = [];
  while (at < bytes.length) {
    const section = bytes[at++];
    const size = number();
    const end = at + size;
    if (section === kCustomSection && text() === 'name') {
      while (at < end) {
        const kind = bytes[at++];
        const length = number();
        const next = at + length;
        if (kind === kFunctionNames) {
          for (let count = number(); count > 0; --count) {
            number();
            names.push(text());
          }
        }
        at = next;
      }
    }
    at = end;
  }
  return names;
}

// The calls of the program: callers by the name of what they call, and what may be called in other ways, too: what is
// exported, imported or in the table.
function calls() {
  const graph = execFileSync(path.join(path.dirname(wasmSplit), 'wasm-opt'),
    [program, '--all-features', '--print-call-graph', '-o', '/dev/null'], { encoding: 'utf8', maxBuffer: 1 << 27 });
  const callers = new Map();
  for (const [, caller, callee] of graph.matchAll(/^ *"([^"]+)" -> "([^"]+)"; \/\/ call$/gm)) {
    if (caller === callee) continue;
    if (!callers.has(callee)) callers.set(callee, []);
    callers.get(callee).push(caller);
  }
  const open = graph.matchAll(/^ *"([^"]+)" \[style="filled(?:, rounded"|", fillcolor="(?:turquoise|gray)")/gm);
  return { callers, open: new Set([...open].map(([, name]) => name)) };
}

// Adds to `moved` the functions that only functions in it call: inline ones, templates, those of libraries. The largest
// such set, so that those come along that call each other.
function follow(moved, { callers, open }) {
  const along = new Set([...callers.keys()].filter(name => once.has(name) && !twice.has(name) && !open.has(name) && !moved.has(name)));
  for (let before = -1; before !== along.size;) {
    before = along.size;
    for (const name of along) {
      if (!callers.get(name).every(caller => moved.has(caller) || along.has(caller))) along.delete(name);
    }
  }
  for (const name of along) moved.add(name);
}

const once = new Set();
const twice = new Set();
for (const name of functionNames(readFileSync(program))) (once.has(name) ? twice : once).add(name);
if (once.size === 0) throw new Error(`split.mjs: ${program} carries no names of functions`);

const objects = readFileSync(list, 'utf8').split('\n').filter(line => line && !line.startsWith('#')).map(line => {
  const [layer, file] = line.split('/');
  return path.join(root, layer, 'CMakeFiles', `driftbench_${layer}.dir`, `${file}.cpp.o`);
});
// "address kind name"; T and t are functions with a body of their own here.
const lines = execFileSync(nm, ['--defined-only', ...objects], { encoding: 'utf8', maxBuffer: 1 << 26 }).split('\n');
// The linker makes one of equal functions, under the name of either. Templates of the library, constructors and
// destructors are often equal to one that somebody else calls at the start; they move only where nobody does.
const isOwn = name => /^_ZZ?NK?10driftbench/.test(name) && !/[CD][012]Ev$/.test(name);
const moved = new Set(lines.map(line => line.trim().split(/\s+/))
  .filter(([, kind, name]) => /^[Tt]$/.test(kind ?? '') && once.has(name) && !twice.has(name) && isOwn(name))
  .map(([, , name]) => name));
follow(moved, calls());
const names = `${program}.later-names`;
writeFileSync(names, [...moved].join('\n') + '\n');
execFileSync(wasmSplit, [program, '--all-features', `--split-funcs=@${names}`, '-o1', first, '-o2', later,
  '--export-prefix=%', '--import-namespace=primary', '--placeholder-namespace=later'], { stdio: 'inherit' });
