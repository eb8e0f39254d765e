// Good and bad files: exit codes, places, one JSON document.
import fs from 'node:fs';
import path from 'node:path';
import { root } from './program.mjs';

export function test(t) {
  const lesson = 'lessons/find-the-centre.lesson.json';
  const shipped = [lesson, 'lessons/bench-basics.set.json', 'assets/kits/bench.kit.json', 'assets/operators/novice.json',
    'assets/specimens/lower-36-healed.specimen.json', 'assets/specimens/upper-16-sinus.specimen.json'];
  t.equal(t.json(0, 'check', ...shipped), shipped.map((file) => ({ file, ok: true, problems: [] })), 'check of shipped files');

  // Every file of the corpus, in one call each kind: the places stand in expected.txt.
  for (const kind of ['lesson', 'set', 'kit', 'specimen', 'attempt']) {
    const folder = `tests/corpus/${kind}`;
    const rows = fs.readFileSync(path.join(root, folder, 'expected.txt'), 'utf8').split('\n')
      .filter((line) => line && !line.startsWith('#') && !/^a-(lesson|kit)\.json/.test(line));  // good, as what they are
    const files = rows.map((line) => `${folder}/${line.split(':')[0]}`);
    const found = t.json(1, 'check', ...files) ?? [];
    rows.forEach((line, i) => {
      const [file, row, column] = line.split(':');
      t.expect(found[i]?.ok === false, `${file}: found ok, expected wrong`);
      const problem = found[i]?.problems?.[0];
      t.equal(Object.keys(problem ?? {}), ['line', 'column', 'path', 'found', 'expected', 'severity'], `${file}: a problem`);
      // A file that names another format is judged as that format.
      if (file !== 'other-format.json') {
        const is_format = problem?.path === 'format';
        t.expect(is_format || (problem?.line === Number(row) && problem?.column === Number(column)),
          `${file}: found ${problem?.line}:${problem?.column}, expected ${row}:${column}`);
      }
    });
  }

  const text = fs.readFileSync(path.join(root, lesson), 'utf8');
  const warned = t.write('warned.lesson.json', text.replace('"minutes": 20', '"minutes": 20, "points": 3'));
  const [with_warning] = t.json(0, 'check', warned) ?? [];
  t.equal(with_warning?.ok, true, 'a file with a warning');
  t.equal(with_warning?.problems?.map((problem) => problem.severity), ['warning'], 'severity of an unknown field');

  const unfitting = t.write('unfitting.lesson.json', text.replace('"twist-34"', '"twist-35"'));
  const [without_drill] = t.json(1, 'check', unfitting) ?? [];
  t.expect(without_drill?.problems?.[0]?.found?.includes('twist-35'), 'a drill that the kit lacks: expected its name');
  const no_kit = t.write('no-kit.lesson.json', text.replace('"kit": "bench"', '"kit": "lost"'));
  const [without_kit] = t.json(1, 'check', no_kit) ?? [];
  t.expect(without_kit?.problems?.[0]?.path === 'kit' && without_kit.problems[0].line > 1, 'a kit that is not there: expected its place');

  const lonely = t.write('lonely.set.json', fs.readFileSync(path.join(root, 'tests/support/two-lessons.set.json'), 'utf8'));
  const [without_lessons] = t.json(1, 'check', lonely) ?? [];
  t.equal(without_lessons?.problems?.map((problem) => problem.path), ['lessons', 'lessons'], 'a set without its lessons beside it');
  t.write('find-the-centre.lesson.json', text);
  t.write('seat-the-implant.lesson.json', text);
  const [misfit] = t.json(1, 'check', lonely) ?? [];
  t.expect(misfit?.problems?.length === 1 && misfit.problems[0].found.includes('"seat-the-implant"'),
    'a set beside a lesson of another id: expected one problem with the id');

  const both = t.json(2, 'check', lesson, 'no/such/file.json') ?? [];
  t.equal(both.map((entry) => entry.ok), [true, false], 'a readable and an unreadable file');
  const plain = t.run('check', warned, unfitting);
  t.expect_code(plain, 1);
  t.expect(/^warning: .*warned\.lesson\.json:\d+:\d+: points: found .*, expected /m.test(plain.out), `check: found "${plain.out}"`);
  t.expect(/^error: .*unfitting/m.test(plain.out), 'check: expected an error line');
}
