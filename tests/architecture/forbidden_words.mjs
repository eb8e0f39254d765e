// The core is free of clocks, files, threads and everything whose bits differ between builds.
import { cpp_lines, layer_of, read_layers } from './tree.mjs';

// Report-grade layers: statistics use the C library and Boost.Math, nothing in a recording depends on them.
const kReportGrade = new Set(['stats', 'classroom']);

const kTranscendental = 'sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh|asinh|acosh|atanh|exp|exp2|expm1|log|log2|log10|log1p|' +
  'pow|cbrt|hypot|erf|erfc|tgamma|lgamma|sincos';

const kCore = [
  { what: 'clock', pattern: /#\s*include\s*<(chrono|ctime|time\.h|sys\/time\.h)>|\bstd::chrono\b|\bstd::time\s*\(|\bclock\s*\(\s*\)/ },
  { what: 'file system or console', pattern: /#\s*include\s*<(fstream|filesystem|iostream|unistd\.h|dirent\.h)>|\b(fopen|freopen|getenv|system)\s*\(|\bstd::(cout|cerr|ifstream|ofstream|filesystem)\b/ },
  { what: 'thread', pattern: /#\s*include\s*<(thread|mutex|future|atomic|condition_variable|execution)>|\bstd::(thread|mutex|async|atomic)\b|\bthread_local\b/ },
  { what: 'standard random numbers', pattern: /#\s*include\s*<random>|\bstd::(random_device|mt19937\w*|shuffle|sample|\w+_distribution)\b|\b(std::)?s?rand\s*\(/ },
  { what: 'unordered container or std::hash', pattern: /#\s*include\s*<unordered_(map|set)>|\bunordered_(multi)?(map|set)\b|\bstd::hash\b/ },
  { what: 'sum in unspecified order', pattern: /\bstd::(reduce|transform_reduce)\s*\(/ },
  { what: 'platform', pattern: /[<"](SDL|GLES|GL\/|imgui|emscripten|windows\.h|X11)/ },
  { what: 'long double', pattern: /\blong\s+double\b/ },
];

const kStepGrade = [
  { what: 'C library function', pattern: new RegExp(`\\bstd::(${kTranscendental})f?l?\\s*\\(`) },
  { what: 'glm extension header', pattern: /#\s*include\s*<glm\/(gtc|gtx|ext\/(quaternion|matrix_transform|matrix_clip)|trigonometric|exponential|detail|simd)/ },
  { what: 'glm function with libm inside', pattern: new RegExp(`\\bglm::(rotate\\w*|angleAxis|slerp|angle|axis|eulerAngles|yaw|pitch|roll|lookAt|perspective\\w*|quat\\w*|dquat|quat_cast|${kTranscendental})\\b\\s*[({<]`) },
];
const kUnqualified = { what: 'C library function', pattern: new RegExp(`(?<![\\w:.>]|->)(::)?(${kTranscendental})f?\\s*\\(`) };

const is_declaration = (text) => /^\s*(\[\[nodiscard\]\]\s*)?(constexpr\s+|inline\s+|static\s+)*(double|float|Vec\d|SinCos)\s+\w+\s*\(/.test(text);

export function check(root) {
  const layers = read_layers(root);
  const problems = [];
  for (const { file, line, text } of cpp_lines(root, (name) => layers.get(layer_of(name))?.core)) {
    const layer = layer_of(file);
    const rules = [...kCore];
    if (!kReportGrade.has(layer)) rules.push(...kStepGrade);
    // In math these names are our own functions; elsewhere an unqualified call means the C library.
    if (!kReportGrade.has(layer) && layer !== 'math' && !is_declaration(text)) rules.push(kUnqualified);
    for (const { what, pattern } of rules) {
      const found = pattern.exec(text);
      if (found) problems.push(`${file}:${line}: ${what}: ${found[0].trim()}`);
    }
  }
  return problems;
}

const plant = (text, expect, file = 'src/drilling/step.cpp') => ({ files: { [file]: text }, expect });
export const clean = {
  'src/layers.txt': 'base:\nmath: base\ndrilling: base math\nstats: base math\n# Core border\napp: base\n',
  'src/drilling/step.cpp': '#include <cmath>\n#include <glm/geometric.hpp>\n// sin(x), std::chrono\nconst char* text = "pow(x)";\n' +
    'double a = std::sqrt(x) + math::sin(y) + glm::dot(u, v) + curve.exp(z) + using_log(2);\n',
  'src/math/elementary.cpp': 'double tan(double x) { return sin(x) / cos(x); }\n',
  'src/stats/t.cpp': '#include <cmath>\ndouble a = std::log(x);\n',
  'src/app/main.cpp': '#include <chrono>\n#include <thread>\n',
};
export const planted = [
  plant('double a = std::sin(x);\n', /C library function: std::sin/),
  plant('double a = 1 + pow(x, 2);\n', /C library function: pow/),
  plant('double a = ::cos(x);\n', /C library function/),
  plant('double a = std::hypot(x, y);\n', /C library function/, 'src/math/solve.cpp'),
  plant('double a = cosf(x);\n', /C library function/),
  plant('#include <glm/gtc/quaternion.hpp>\n', /glm extension header/),
  plant('#include <glm/gtx/norm.hpp>\n', /glm extension header/),
  plant('auto m = glm::rotate(m, a, axis);\n', /glm function/),
  plant('auto q = glm::angleAxis(a, axis);\n', /glm function/),
  plant('auto q = glm::slerp(a, b, t);\n', /glm function/),
  plant('auto q = glm::pow(a, b);\n', /glm function/),
  plant('#include <unordered_map>\n', /unordered/),
  plant('std::unordered_set<int> s;\n', /unordered/, 'src/stats/t.cpp'),
  plant('auto h = std::hash<int>{}(3);\n', /std::hash/),
  plant('std::normal_distribution<double> d;\n', /standard random numbers/),
  plant('std::mt19937_64 g;\n', /standard random numbers/),
  plant('auto t = std::chrono::steady_clock::now();\n', /clock/),
  plant('#include <fstream>\n', /file system/, 'src/base/text.cpp'),
  plant('FILE* f = fopen(name, mode);\n', /file system/),
  plant('#include <thread>\n', /thread/),
  plant('#include <SDL.h>\n', /platform/),
  plant('#include <GLES3/gl3.h>\n', /platform/),
  plant('#include <imgui.h>\n', /platform/),
  plant('#include <emscripten.h>\n', /platform/),
  plant('long double x = 0;\n', /long double/),
  plant('double s = std::reduce(v.begin(), v.end());\n', /unspecified order/),
];
