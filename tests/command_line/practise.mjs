// Virtual attempts: files, the same bytes with any number of threads, any count and in every build.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { root } from './program.mjs';

const kLesson = 'lessons/find-the-centre.lesson.json';

const read_folder = (folder) => Object.fromEntries(fs.readdirSync(folder).sort()
  .map((name) => [name, fs.readFileSync(path.join(folder, name), 'utf8')]));

/** Time of the youngest file below a folder. */
const youngest = (folder) => Math.max(...fs.readdirSync(folder, { withFileTypes: true }).map((entry) => {
  const name = path.join(folder, entry.name);
  return entry.isDirectory() ? youngest(name) : fs.statSync(name).mtimeMs;
}));

/**
 * The tool of the plain native build, when this is another build (clang, sanitizers, WebAssembly) and that one is there
 * and not older than its sources; tests/run builds it first.
 */
function native_tool(command) {
  const tool = path.join(root, 'build/native/bin/driftbench');
  if (!fs.existsSync(tool) || command.includes(tool)) return undefined;
  const age = fs.statSync(tool).mtimeMs;
  return ['src', 'lessons', 'assets'].every((folder) => youngest(path.join(root, folder)) <= age) ? tool : undefined;
}

export function test(t) {
  const practise = (out, count, ...more) => t.json(0, 'practise', kLesson, '--out', t.path(out), '--count', String(count), '--seed', '7', ...more);
  const summary = practise('a', 2, '--threads', '2');
  t.equal(summary, { attempts: 4, seed: 7, holes_csv: `${t.path('a')}/holes.csv` }, 'practise: summary');
  const a = read_folder(t.path('a'));
  t.equal(Object.keys(a), ['freehand-00001.attempt.json', 'freehand-00002.attempt.json', 'holes.csv',
    'sleeve-00001.attempt.json', 'sleeve-00002.attempt.json'], 'practise: files');
  const lines = (a['holes.csv'] ?? '').trim().split('\r\n').map((line) => line.split(','));
  t.equal(lines.length, 5, 'holes.csv: lines');
  t.equal(lines.slice(1).map((cells) => cells[3]), ['freehand', 'freehand', 'sleeve', 'sleeve'], 'holes.csv: approaches');
  t.equal(lines.slice(1).map((cells) => cells[9]), ['1', '3', '2', '4'], 'holes.csv: periods, approaches in turn');
  t.expect(lines.slice(1).every((cells) => cells.length === 21 && cells.every((cell, i) => cell !== '' || i === 2)),
    'holes.csv: found an empty cell, expected every measure (cohort may be empty)');

  const native = native_tool(t.command);
  if (native === undefined) {
    console.log('practise: no other build to compare with');
  } else {
    spawnSync(native, ['practise', kLesson, '--out', t.path('native'), '--count', '2', '--seed', '7'], { cwd: root });
    const other = read_folder(t.path('native'));
    for (const [name, text] of Object.entries(a)) t.expect(other[name] === text, `${name}: found other bytes than the native build wrote, expected the same`);
    for (const entry of t.json(0, 'replay', ...Object.keys(other).filter((name) => name.endsWith('.json')).map((name) => path.join(t.path('native'), name))) ?? [])
      t.equal(entry.reasons, [], `replay of the native build's ${entry.file}`);
  }

  practise('b', 2, '--threads', '1');
  t.expect(JSON.stringify(read_folder(t.path('b'))) === JSON.stringify(a), 'practise: found other bytes with one thread, expected the same');
  practise('c', 1);
  const c = read_folder(t.path('c'));
  for (const name of ['freehand-00001.attempt.json', 'sleeve-00001.attempt.json'])
    t.expect(c[name] === a[name], `${name}: found other bytes with a smaller count, expected the same`);
  t.json(0, 'practise', kLesson, '--out', t.path('d'), '--count', '1', '--seed', '8');
  t.expect(read_folder(t.path('d'))['freehand-00001.attempt.json'] !== a['freehand-00001.attempt.json'],
    'practise: found the same bytes with another seed, expected others');
  t.expect_code(t.run('practise', kLesson, '--out', t.path('a')), 2);  // not empty
  for (const [flag, value] of [['--count', '0'], ['--count', '1.5'], ['--seed', '-1'], ['--seed', '9007199254740992'], ['--threads', '0']])
    t.expect_code(t.run('practise', kLesson, '--out', t.path('never'), flag, value), 2);
  t.expect(!fs.existsSync(t.path('never')), 'practise: found a folder after bad usage, expected none');

  // A lesson that ends with the implant: the table says so, the record repeats it.
  const seated = t.json(0, 'practise', 'lessons/seat-the-implant.lesson.json', '--out', t.path('implant'), '--count', '1', '--seed', '7');
  t.equal(seated?.attempts, 2, 'practise with implants: attempts');
  const rows = fs.readFileSync(path.join(t.path('implant'), 'holes.csv'), 'utf8').trim().split('\r\n').map((line) => line.split(','));
  t.equal(rows.slice(1).map((cells) => cells.slice(3, 6)), [['freehand', 'no', 'implant'], ['sleeve', 'yes', 'implant']],
    'holes.csv: approach, implant through guide, measured');
  const placed = path.join(t.path('implant'), 'freehand-00001.attempt.json');
  const { implant } = JSON.parse(fs.readFileSync(placed, 'utf8')).results;
  t.expect(implant.final_torque_nmm > 100 && implant.final_torque_nmm <= implant.peak_torque_nmm,
    `implant: found ${implant.final_torque_nmm} N mm at the end and ${implant.peak_torque_nmm} at most`);
  t.equal((rows[1] ?? [])[12], String(implant.depth_error_mm), 'holes.csv: depth at the platform');
  const [again] = t.json(0, 'replay', placed) ?? [];
  t.equal([again?.equal, again?.reasons], [true, []], 'replay with an implant');
}
