// A layer includes only itself and the layers that src/layers.txt allows; graphics stay below the core border; a source
// includes its own header first, which proves that the header compiles alone.
import { cpp_lines, layer_of, list_files, read_layers } from './tree.mjs';

const kGenerated = new Set(['embedded']);
const kGraphics = [
  { name: 'Dear ImGui', pattern: /[<"]imgui/, layers: ['ui', 'classroom_ui', 'app', 'platform'] },
  { name: 'SDL', pattern: /[<"]SDL/, layers: ['app', 'platform'] },
  { name: 'OpenGL', pattern: /[<"](GLES|GL\/|KHR)/, layers: ['render', 'app', 'platform'] },
  { name: 'Emscripten', pattern: /[<"]emscripten/, layers: ['app', 'desk', 'platform'] },
];

export function check(root) {
  const layers = read_layers(root);
  const problems = [];
  const files = new Set(list_files(root));
  const seen = new Set();
  for (const { file, line, text } of cpp_lines(root, (name) => name.startsWith('src/'))) {
    const layer = layer_of(file);
    if (!layers.has(layer)) {
      if (line === 1) problems.push(`${file}:1: layer '${layer}' has no row in src/layers.txt`);
      continue;
    }
    if (/#\s*ifn?def\s+__EMSCRIPTEN__|defined\s*\(?\s*__EMSCRIPTEN__/.test(text) && !['app', 'platform'].includes(layer))
      problems.push(`${file}:${line}: __EMSCRIPTEN__ is asked only in platform and app`);
    if (!/^\s*#\s*include/.test(text)) continue;
    const own = file.replace(/\.cpp$/, '.h');
    if (own !== file && !seen.has(file) && files.has(own) && !text.includes(`"${own.slice('src/'.length)}"`))
      problems.push(`${file}:${line}: the first include is not its own header`);
    seen.add(file);
    const target = /^\s*#\s*include\s+"([a-z_]+)\//.exec(text)?.[1];
    if (target && target !== layer && !kGenerated.has(target) && !layers.get(layer).allowed.has(target))
      problems.push(`${file}:${line}: layer '${layer}' may not include '${target}'`);
    if (/^\s*#\s*include\s+"[^/"]+"/.test(text))
      problems.push(`${file}:${line}: project files are included as "layer/file.h"`);
    for (const { name, pattern, layers: where } of kGraphics) {
      if (pattern.test(text) && !where.includes(layer)) problems.push(`${file}:${line}: layer '${layer}' may not use ${name}`);
    }
  }
  return problems;
}

const kLayers = 'base:\nmath: base\n# Core border\nui: base\nrender: base\nplatform: base\n';
export const clean = {
  'src/layers.txt': kLayers,
  'src/math/vec.h': '#include "base/result.h"\n#include "embedded/things.h"\n// #include "ui/panel.h"\n',
  'src/ui/panel.cpp': '#include "ui/panel.h"\n#include <imgui.h>\n',
};
export const planted = [
  { files: { 'src/base/result.h': '#include "math/vec.h"\n' }, expect: /base\/result\.h:1: .*'base' may not include 'math'/ },
  { files: { 'src/ui/p.h': '#pragma once\n #  include "render/r.h"\n' }, expect: /ui\/p\.h:2: .*may not include 'render'/ },
  { files: { 'src/math/vec.h': '#include "vec2.h"\n' }, expect: /included as "layer\/file\.h"/ },
  { files: { 'src/math/vec.h': '#include <SDL2/SDL.h>\n' }, expect: /may not use SDL/ },
  { files: { 'src/ui/panel.cpp': '#include <GLES3/gl3.h>\n' }, expect: /may not use OpenGL/ },
  { files: { 'src/render/r.cpp': '#include <imgui.h>\n' }, expect: /may not use Dear ImGui/ },
  { files: { 'src/math/vec.h': '#ifdef __EMSCRIPTEN__\n#endif\n' }, expect: /only in platform and app/ },
  { files: { 'src/ui/panel.h': '', 'src/ui/panel.cpp': '#include <vector>\n#include "ui/panel.h"\n' }, expect: /own header/ },
  { files: { 'src/extra/a.h': '\n' }, expect: /no row/ },
];
