// The learner's page as one file that opens from a disk: scripts, styles, programs and languages inside, no request.
// A browser loads no modules from a disk, so each becomes a function that gives its exports.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import vm from 'node:vm';
import { gzipSync } from 'node:zlib';

// On the body: what web/boot.js says in place of going to another page.
const kAlone = 'This file holds what learners use. The other pages are where it came from.';
const kAddress = 'inside:///';  // of no server: fetch() below looks at the name alone
const kTypes = { '.wasm': 'application/wasm', '.json': 'application/json', '.js': 'application/octet-stream' };
const kImport = /(?<=^|[;}\n])import\s*(?:(\w+)\s*from|\{([^}]*)\}\s*from)?\s*["']\.\/([\w.]+)["'];?/g;
const kExport = /(?<=^|[;}\n])export\s+(default\s+(?=\w+;)|(?=async\s+function|function|const|class))/g;

/** Names of the modules that a module imports, at once or on first use. */
export function importsOf(text) {
  const named = (pattern) => [...text.matchAll(pattern)].map((found) => found.at(-1));
  return [...named(kImport), ...named(/import\(new URL\(["']\.\/([\w.]+)["']/g)];
}

/** A module as the body of a function of (out, need, bring, fetch); names of exports follow at its end, when all have values. */
export function bodyOf(text, name) {
  const exported = [];
  const body = text
    .replace(kImport, (_, all, some, from) => {
      const taken = `need(${JSON.stringify(from)})`;
      if (all) return `const ${all}=${taken}.default;`;
      return some ? `const {${some.replace(/\s+as\s+/g, ':')}}=${taken};` : `${taken};`;
    })
    .replace(kExport, (_, isDefault, at, whole) => {
      const rest = whole.slice(at).replace(/^export\s+/, '');
      const own = isDefault ? rest.match(/^default\s+(\w+)/)[1] : rest.match(/^(?:async\s+function|function|const|class)\s+(\w+)/)[1];
      exported.push(isDefault ? `default:${own}` : own);
      return isDefault ? 'void ' : '';
    })
    .replace(/import\.meta\.url/g, JSON.stringify(kAddress + name))
    .replace(/(?<![.\w])import\(/g, 'bring(');
  return `${body}\n;Object.assign(out,{${exported.join(',')}});`;
}

// What gives modules and files inside the page; `modules` stands before it.
const kLoader = `
const loaded={};
const nameOf=address=>String(address).replace(/[?#].*/,'').replace(/.*\\//,'');
const need=name=>{
  if(!loaded[name]){
    if(!modules[name])throw new TypeError(name+' is not part of this file');
    modules[name](loaded[name]={},need,bring,fetchInside);
  }
  return loaded[name];
};
const bring=async address=>need(nameOf(address));
const fetchInside=async address=>{
  const node=document.querySelector('script[data-file="'+nameOf(address)+'"]');
  if(!node)throw new TypeError(nameOf(address)+' is not part of this file');
  const packed=Uint8Array.from(atob(node.textContent),letter=>letter.charCodeAt(0));
  const bytes=new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip')));
  return new Response(await bytes.arrayBuffer(),{headers:{'content-type':node.type}});
};
need('boot.js');`;

function scriptOf(read, names) {
  const modules = names.map((name) => `${JSON.stringify(name)}:(out,need,bring,fetch)=>{${bodyOf(read(name), name)}}`);
  const script = `'use strict';{const modules={${modules.join(',\n')}};${kLoader}}`;
  new vm.Script(script, { filename: 'offline.html' });  // an import or export that was overlooked is an error here
  if (/<\/script|<!--/i.test(script)) throw new Error('offline_page.mjs: a script holds a word that would end it');
  return script;
}

/** The text of the page. */
export function offlinePage(site) {
  const read = (name) => readFileSync(path.join(site, name), 'utf8');
  const reached = new Set(['app.mjs', 'boot.js']);
  for (const name of reached) for (const other of importsOf(read(name))) reached.add(other);
  const script = scriptOf(read, [...reached].sort());
  const styles = [['', read('style.css')], [' data-of="dialog"', read('dialog.css')]];
  const programs = [...reached].filter((name) => name.endsWith('.mjs')).map((name) => name.replace('.mjs', '.wasm'));
  const languages = readdirSync(site).filter((name) => /^app\.[a-z]{2}\.json$/.test(name)).sort();
  const files = [...programs.sort(), 'app_later.wasm', ...languages, 'site_files.js'].map((name) =>
    `<script type="${kTypes[path.extname(name)]}" data-file="${name}">${gzipSync(readFileSync(path.join(site, name)), { level: 9 }).toString('base64')}</script>`);

  const sum = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  const policy = `default-src 'none'; script-src ${sum(script)} 'wasm-unsafe-eval'; style-src ${styles.map(([, text]) => sum(text)).join(' ')}; ` +
    "img-src data: blob:; base-uri 'none'; form-action 'none'";
  const icon = `data:image/svg+xml;base64,${Buffer.from(read('icon.svg')).toString('base64')}`;
  const put = (page, pattern, text) => {
    if (!pattern.test(page)) throw new Error(`offline_page.mjs: index.html lacks ${pattern}`);
    return page.replace(pattern, () => text);
  };
  let page = read('index.html');
  page = put(page, /(?<=http-equiv="Content-Security-Policy" content=")[^"]*/, policy);
  page = put(page, /(?<=<link rel="icon" href=")[^"]*/, icon);
  page = put(page, /<link rel="stylesheet"[^>]*>/, styles.map(([mark, text]) => `<style${mark}>${text}</style>`).join('\n'));
  page = page.replace(/<link rel="(manifest|modulepreload|preload)"[^>]*>\n/g, '');
  page = put(page, /(?<=<body )/, `data-alone="${kAlone}" `);
  return put(page, /<script type="module" src="boot.js"><\/script>/, `${files.join('\n')}\n<script>${script}</script>`);
}
