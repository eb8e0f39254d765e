// Replay: equal records, each kind of edit named, the steps in which a course parts, and records of another engine.
import fs from 'node:fs';
import path from 'node:path';

const kLesson = 'lessons/find-the-centre.lesson.json';
const kFirstEngine = 'tests/corpus/engine/1.attempt.json';

export function test(t) {
  t.json(0, 'practise', kLesson, '--out', t.path('a'), '--count', '1', '--seed', '7');
  const files = ['freehand-00001', 'sleeve-00001'].map((name) => path.join(t.path('a'), `${name}.attempt.json`));
  for (const entry of t.json(0, 'check', ...files) ?? []) t.equal(entry.problems, [], `check of ${entry.file}`);
  const replayed = t.json(0, 'replay', ...files) ?? [];
  for (const entry of replayed) {
    t.equal(Object.keys(entry), ['file', 'equal', 'engine', 'first_difference_step', 'reasons'], 'replay: fields');
    t.equal([entry.equal, entry.first_difference_step, entry.reasons], [true, null, []], `replay of ${entry.file}`);
  }
  const traced = t.run('replay', files[0], '--trace', '--json');
  t.expect(/^\s+1000 {2}[0-9a-f]{16} {2}[0-9a-f]{16}$/m.test(traced.err), 'replay --trace: expected the hash of step 1000 on stderr');
  t.expect(!traced.err.includes('first difference'), 'replay --trace of an equal record: expected no difference');

  const text = fs.readFileSync(files[0], 'utf8');
  let edits = 0;
  const replay_edited = (edited) => {
    t.expect(edited !== text, `edit ${edits}: expected it to change the file`);
    return (t.json(1, 'replay', t.write(`edited-${++edits}.attempt.json`, edited)) ?? [])[0];
  };
  const has_reason = (entry, words) => t.expect(entry?.reasons?.some((reason) => reason.includes(words)),
    `edit ${edits}: found ${JSON.stringify(entry?.reasons)}, expected a reason with "${words}"`);

  // One digit of one command: the digest says so, and the state hashes say from which step on it matters.
  const hands = [...text.matchAll(/\[(\d+), 1, (-?\d+), /g)];
  const hand = hands[Math.floor(hands.length / 3)];
  const changed = replay_edited(text.replace(hand[0], `[${hand[1]}, 1, ${Number(hand[2]) + 400}, `));
  t.equal(changed?.equal, false, 'replay of an edited trace');
  has_reason(changed, 'the trace does not match its digest');
  const after = changed?.first_difference_step;
  t.expect(after > Number(hand[1]) && after <= Number(hand[1]) + 2000, `an edited trace: found a difference at step ${after}, edited at ${hand[1]}`);
  const [, from, to] = changed?.reasons?.join(' ').match(/the first step that differs is one of (\d+) to (\d+)/) ?? [];
  t.expect(Number(to) === after && Number(from) <= Number(to) && Number(to) - Number(from) < 2000 && Number(from) % 1000 === 1,
    `an edited trace: found steps ${from} to ${to}, expected those between two hashes that end at ${after}`);
  const [checked] = t.json(1, 'check', t.path('edited-1.attempt.json')) ?? [];
  t.equal(checked?.problems?.map((problem) => problem.path), ['digests.trace'], 'check of an edited trace');
  const shown = t.run('replay', t.path('edited-1.attempt.json'), '--trace');
  t.expect(shown.out.includes(`first difference: after step ${Number(from) - 1}, not after step ${after}`),
    'replay --trace of an edited trace: expected the steps between which it parts');

  const better = replay_edited(text.replace(/("deviation": \{[^}]*"angle_deg": )([\d.]+)/, (_, before, value) => `${before}${Number(value) / 2}`));
  has_reason(better, 'the results do not match their digest');
  has_reason(better, 'angle_deg: recorded');
  has_reason(replay_edited(text.replace('"estimate": null', '"estimate": {"entry_md_mm": 0, "entry_bl_mm": 0, "depth_error_mm": 0, "tilt_md_deg": 0, "tilt_bl_deg": 0, "confidence": 1}')),
    'the estimate does not match its digest');
  const softer = replay_edited(text.replace('"second": "D4"', '"second": "D3"'));
  has_reason(softer, 'the setup does not match its digest');
  has_reason(softer, 'the first step that differs is one of');
  has_reason(replay_edited(text.replace(/"operator": "[^"]*"/, '"operator": "someone else"')), 'the setup does not match its digest');
  const [hash] = text.match(/(?<=\[2000, ")[0-9a-f]{16}/) ?? [''];
  has_reason(replay_edited(text.replace(hash, hash.replace(/./, (digit) => (digit === '0' ? '1' : '0')))), 'this hash was changed and not the course');

  // Another engine: not repeated, not called different, and still held against its digests.
  const engine = replayed[0]?.engine;
  t.expect(Number.isInteger(engine) && engine > 1, `replay: found engine ${engine}, expected one after the first`);
  const [first] = t.json(1, 'replay', kFirstEngine) ?? [];
  t.equal([first?.equal, first?.engine, first?.first_difference_step, first?.reasons],
    [null, 1, null, [`recorded by engine 1; this is engine ${engine}`]], 'replay of a record of the first engine');
  t.expect(t.run('replay', kFirstEngine).out.startsWith(`${kFirstEngine}: not compared\n`), 'replay of a record of the first engine: expected "not compared"');
  t.equal((t.json(0, 'check', kFirstEngine) ?? [])[0]?.problems, [], 'check of a record of the first engine');
  const foreign = replay_edited(text.replace(/"engine": \d+/, `"engine": ${engine + 1}`));
  t.equal(foreign?.equal, false, 'replay of a record whose engine was edited');
  has_reason(foreign, 'the setup does not match its digest');
  has_reason(foreign, `recorded by engine ${engine + 1}; this is engine ${engine}`);
}
