// All pictures of the app, on one page to look at: node tests/browser/gallery.mjs FOLDER [--site FOLDER] [--only WORD] [--lang CODE]
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const kTours = [
  ['shots.mjs', 'From the shelf to the logbook'],
  ['jaw_shots.mjs', 'In the jaw'],
  ['shots_classroom.mjs', 'Classroom'],
  ['shots_lesson_desk.mjs', 'Lesson desk'],
];
const kFewest = 16;

const words = process.argv.slice(2);
if (!words[0] || words[0].startsWith('--')) {
  console.error('usage: node tests/browser/gallery.mjs FOLDER [--site FOLDER] [--only WORD] [--lang CODE]');
  process.exit(2);
}
const folder = path.resolve(words[0]);
const own = path.dirname(fileURLToPath(import.meta.url));
let failed = 0;
const chapters = [];
for (const [script, title] of kTours) {
  const name = path.basename(script, '.mjs');
  const into = path.join(folder, name);
  mkdirSync(into, { recursive: true });
  console.log(`${title} (${script})`);
  const { status } = spawnSync(process.execPath, [path.join(own, script), into, ...words.slice(1)], { stdio: 'inherit' });
  failed += status === 0 ? 0 : 1;
  const pictures = readdirSync(into).filter((file) => file.endsWith('.png')).sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  chapters.push({ name, title, pictures });
}

const figure = (name, file) => `<figure><a href="${name}/${file}"><img src="${name}/${file}" alt=""></a><figcaption>${file.replace('.png', '')}</figcaption></figure>`;
writeFileSync(path.join(folder, 'index.html'), `<!doctype html>
<meta charset="utf-8">
<title>Driftbench in pictures</title>
<style>
body { font: 16px sans-serif; margin: 24px; background: #222b33; color: #f1f5f8; }
section { display: grid; grid-template-columns: repeat(auto-fill, minmax(480px, 1fr)); gap: 16px; }
figure { margin: 0; }
img { width: 100%; }
</style>
${chapters.map(({ name, title, pictures }) => `<h1>${title}</h1>\n<section>${pictures.map((file) => figure(name, file)).join('\n')}</section>`).join('\n')}
`);
const count = chapters.reduce((sum, { pictures }) => sum + pictures.length, 0);
console.log(`${count} pictures: ${path.join(folder, 'index.html')}`);
if (failed > 0 || count < kFewest) {
  console.error(`gallery: ${failed} of ${kTours.length} tours broke off, ${count} pictures, at least ${kFewest} wanted`);
  process.exit(1);
}
