// Help, bad usage and exit codes.
export function test(t) {
  const commands = ['check', 'measure', 'sleeve', 'budget', 'practise', 'replay', 'stats', 'class', 'map'];
  const help = t.run('--help');
  t.expect_code(help, 0);
  for (const name of commands) {
    t.expect(help.out.includes(`\n  ${name} `), `--help: found no line for ${name}, expected one`);
    const own = t.run(name, '--help');
    t.expect_code(own, 0);
    t.expect(own.out.includes(`usage: driftbench ${name}`), `${name} --help: found no usage line, expected one`);
    t.expect((own.out.match(/^example: driftbench/gm) ?? []).length === 1, `${name} --help: expected exactly one example`);
    t.equal(own.err, '', `${name} --help on stderr`);
  }
  for (const words of [['measure'], ['sleeve'], ['stats'], ['map']]) {
    t.expect(/\bmm\b/.test(t.run(...words, '--help').out), `${words} --help: found no unit, expected mm`);
  }
  const bad = [[], ['nonsense'], ['check'], ['check', '--colour', 'x.json'], ['measure'], ['measure', 'a.csv', 'b.csv'],
    ['sleeve'], ['sleeve', '--bore'], ['sleeve', 'word'], ['practise'], ['practise', 'lessons/find-the-centre.lesson.json'],
    ['replay'], ['check', 'no/such/file.json'], ['measure', 'no/such/file.csv'], ['replay', 'no/such/file.json'], ['stats'],
    ['stats', 'a.csv', 'b.csv'], ['stats', 'no/such/file.csv'], ['stats', 'a.csv', '--measure'], ['map'], ['map', 'no/such/file.csv'],
    ['budget'], ['budget', 'no/such.lesson.json'], ['budget', 'lessons/first-holes.lesson.json', '--gap-left', '-1'],
    ['budget', 'lessons/find-the-centre.lesson.json', '--block', 'no-such-block'], ['practise', 'no/such.lesson.json', '--out', t.path('never')], ['sleeve', '--json=1']];
  for (const words of bad) {
    const done = t.run(...words);
    t.expect_code(done, 2);
    t.expect(done.err.trim() !== '' || done.out.includes('no such file'), `${words.join(' ')}: found no message, expected one`);
  }
  const refused = t.run('sleeve', '--bore', 'wide', '--drill', '5.1', '--height', '4.5', '--gap', '3.5', '--implant', '10', '--json');
  t.expect_code(refused, 2);
  t.equal(refused.out, '', 'stdout of a refused command with --json');
  t.expect(/"wide".*--bore.*number/.test(refused.err), `found "${refused.err.trim()}", expected what was found and expected`);
}
