// Virtual attempts: files, determinism over threads and counts, replay, and edits that are caught.
import fs from 'node:fs';
import path from 'node:path';

const kLesson = 'lessons/find-the-centre.lesson.json';

const read_folder = (folder) => Object.fromEntries(fs.readdirSync(folder).sort()
  .map((name) => [name, fs.readFileSync(path.join(folder, name), 'utf8')]));

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

  const files = ['freehand-00001', 'sleeve-00001'].map((name) => path.join(t.path('a'), `${name}.attempt.json`));
  for (const entry of t.json(0, 'check', ...files) ?? []) t.equal(entry.problems, [], `check of ${entry.file}`);
  const replayed = t.json(0, 'replay', ...files) ?? [];
  for (const entry of replayed) {
    t.equal(Object.keys(entry), ['file', 'equal', 'engine', 'first_difference_step', 'reasons'], 'replay: fields');
    t.equal([entry.equal, entry.first_difference_step, entry.reasons], [true, null, []], `replay of ${entry.file}`);
  }

  // One digit of one command: the digest says so, and the state hashes say from which step on it matters.
  const name = 'freehand-00001.attempt.json';
  const text = a[name] ?? '';
  const hands = [...text.matchAll(/\[(\d+), 1, (-?\d+), /g)];
  const hand = hands[Math.floor(hands.length / 3)];
  const edited = text.replace(hand[0], `[${hand[1]}, 1, ${Number(hand[2]) + 400}, `);
  const [changed] = t.json(1, 'replay', t.write('edited.attempt.json', edited)) ?? [];
  t.equal(changed?.equal, false, 'replay of an edited trace');
  t.expect(changed?.reasons?.some((reason) => reason.includes('trace does not match')), 'an edited trace: expected the digest as a reason');
  t.expect(changed?.first_difference_step >= Number(hand[1]), 'an edited trace: expected the first step that differs');
  const [checked] = t.json(1, 'check', t.path('edited.attempt.json')) ?? [];
  t.equal(checked?.problems?.map((problem) => problem.path), ['digests.trace'], 'check of an edited trace');

  const better = text.replace(/("deviation": \{[^}]*"angle_deg": )([\d.]+)/, (_, before, value) => `${before}${Number(value) / 2}`);
  const [flattered] = t.json(1, 'replay', t.write('better.attempt.json', better)) ?? [];
  t.expect(flattered?.reasons?.some((reason) => reason.startsWith('angle_deg: recorded')), 'an edited result: expected its name as a reason');
  const other = text.replace(/"engine": \d+/, '"engine": 999');
  const [foreign] = t.json(1, 'replay', t.write('other.attempt.json', other)) ?? [];
  t.expect(foreign?.reasons?.some((reason) => reason.includes('recorded by engine 999')), 'another engine: expected that as a reason');

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

  const traced = t.run('replay', files[0], '--trace', '--json');
  t.expect(/^\s+1000 {2}[0-9a-f]{16} {2}[0-9a-f]{16}$/m.test(traced.err), 'replay --trace: expected the hash of step 1000 on stderr');
}
