// Tracked files name no folder of one machine and no registry host, and leave nothing marked as undone.
import { list_files, read } from './tree.mjs';

// Put together from pieces, so that this file does not find itself.
const word = (...pieces) => pieces.join('');
const kRules = [
  { what: 'path of one machine', pattern: new RegExp(`(?<![\\w.~$}-])/(${['wo,rk', 'ho,me', 'ro,ot', 'Us,ers'].map((p) => p.replace(',', '')).join('|')})/[\\w.]`) },
  { what: 'path in a temporary folder', pattern: new RegExp(`(?<![\\w.$}-])/t${''}mp/[\\w.]`) },
  { what: 'registry host', pattern: new RegExp(['registry\\.npm', 'npm' + 'js\\.(org|com)', 'deb\\.deb' + 'ian', '(security|snapshot|ftp)\\.deb' + 'ian', 'pypi\\.' + 'org', 'crates\\.' + 'io', 'proxy\\.go' + 'lang'].join('|')) },
  { what: 'address of one machine', pattern: /https?:\/\/(?!127\.0\.0\.1|localhost)(\d{1,3}(\.\d{1,3}){3}|[\w-]+(?=[:/]\d*\/?))(?![\w.-])/ },
  { what: 'lock file with addresses', pattern: /"resolved"\s*:/ },
  { what: 'marked as undone', pattern: new RegExp(`\\b(${word('TO', 'DO')}|${word('FIX', 'ME')}|${word('X', 'XX')})\\b|\\b${word('not', ' ', 'implemented')}\\b`) },
];
const kBinary = /\.(png|ttf|wasm|gz|br|ico)$/;

export function check(root) {
  const problems = [];
  for (const file of list_files(root)) {
    if (kBinary.test(file)) continue;
    for (const [index, text] of read(root, file).split('\n').entries()) {
      for (const { what, pattern } of kRules) {
        const found = pattern.exec(text);
        if (found) problems.push(`${file}:${index + 1}: ${what}: ${found[0]}`);
      }
    }
  }
  return problems;
}

const plant = (text, expect) => ({ files: { 'README.md': `${text}\n` }, expect });
export const clean = {
  'README.md': 'Open http://127.0.0.1:8000/ or http://localhost:8000/; cache in ~/.cache/driftbench; see /usr/share/doc.\n' +
    'https://doi.org/10.1000/1 http://www.w3.org/2000/svg $DRIFTBENCH_CACHE/third-party\n',
};
export const planted = [
  plant(word('see /ho', 'me/someone/driftbench'), /path of one machine/),
  plant(word('see /wo', 'rk/main'), /path of one machine/),
  plant(word('see /t', 'mp/build'), /temporary folder/),
  plant(word('https://registry.', 'npm', 'js.org/x'), /registry host/),
  plant(word('http://deb.', 'debian.org/debian'), /registry host/),
  plant(word('http:', '//10.1.2.3:8080/debian'), /address of one machine/),
  plant(word('http:', '//mirror:3142/debian'), /address of one machine/),
  plant(word('  "resol', 'ved": "x"'), /lock file/),
  plant(word('// TO', 'DO later'), /undone/),
  plant(word('this is not', ' implemented'), /undone/),
];
