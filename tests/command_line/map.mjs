// Foreign tables of real holes through the command line; expected values follow from the units by hand.
import { readFileSync } from 'node:fs';

const kForeign = 'Student;Technik;Eintritt mesial [cm];Eintritt bukkal (mm);Tiefe inch;Winkel rad\n'
  + 'k1;Freihand;0,08;0,2;0,1;0,1\n'
  + 'k2;Schablone;-0,01;-0,1;0;\n'
  + 'k3;Laser;0,01;0,1;0;0\n'
  + 'k4;FH;x;0,1;0;0\n';

function table(text) {
  const [header, ...rows] = text.split('\r\n').filter((line) => line !== '').map((line) => line.split(','));
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [header[i], cell])));
}

export function test(t) {
  const file = t.write('foreign.csv', kForeign);
  const done = t.run('map', file, '--out', t.path('holes.csv'), '--save-mapping', t.path('mapping.csv'), '--json');
  t.expect_code(done, 1);
  const answer = JSON.parse(done.out);
  t.equal([answer.good, answer.bad], [2, 2], 'map: rows');
  t.expect(answer.problems[0].includes('foreign.csv:4: found "Laser"'), `map: found "${answer.problems[0]}", expected line 4`);
  t.expect(/foreign\.csv:5: found "x" in the column "Eintritt mesial \[cm\]"/.test(done.err), `map: found stderr "${done.err}", expected line 5`);
  t.equal(answer.mapping.map((one) => `${one.as} ${one.unit}${one.sign}`), ['operator +', 'approach +', 'entry_md_mm cm-',
    'entry_bl_mm mm-', 'depth_mm inch+', 'angle_deg rad+'], 'map: guesses');
  const rows = table(readFileSync(t.path('holes.csv'), 'utf8'));
  t.equal(rows.map((row) => [row.operator, row.approach, row.source]), [['k1', 'freehand', 'bench'], ['k2', 'sleeve', 'bench']], 'map: words');
  t.near(Number(rows[0].entry_md_mm), -0.8, 1e-12, 'map: entry_md_mm');
  t.near(Number(rows[0].entry_bl_mm), -0.2, 1e-12, 'map: entry_bl_mm');
  t.near(Number(rows[0].depth_mm), 2.54, 1e-12, 'map: depth_mm');
  t.near(Number(rows[0].angle_deg), 18 / Math.PI, 1e-12, 'map: angle_deg');
  t.equal([rows[1].angle_deg, rows[1].tilt_md_deg], ['', ''], 'map: what was not measured');

  // The result is a table that the other commands take; the saved mapping gives the same.
  t.expect_code(t.run('stats', t.path('holes.csv')), 0);
  t.expect_code(t.run('class', t.path('holes.csv'), '--out', t.path('report')), 0);
  const again = t.run('map', file, '--mapping', t.path('mapping.csv'), '--out', t.path('again.csv'));
  t.expect_code(again, 1);
  t.equal(readFileSync(t.path('again.csv'), 'utf8'), readFileSync(t.path('holes.csv'), 'utf8'), 'map: with the saved mapping');
  t.expect(again.out.includes('entry_md_mm: "Eintritt mesial [cm]" in cm, sign reversed') && again.out.includes('2 rows taken, 2 left out'),
    `map: found "${again.out}", expected the mapping in words`);

  // A word for the unknown technique: three rows are good.
  const mapping = readFileSync(t.path('mapping.csv'), 'utf8').replace('Technik,approach,,,', 'Technik,approach,,,Laser=pilot');
  const better = t.run('map', file, '--mapping', t.write('better.csv', mapping), '--json');
  t.equal(JSON.parse(better.out).good, 3, 'map: with a word of its own');

  const clean = t.write('clean.csv', 'operator\tapproach\tentry_md_mm\tentry_bl_mm\nk1\tguided\t0.1\t0.2\n');
  t.expect_code(t.run('map', clean), 0);
  const bad = [['nothing.csv', 'a;b\n1;2\n', /found no column for operator/], ['empty.csv', '', /found an empty file/],
    ['words.csv', 'no table', /commas, semicolons or tabs/], ['quote.csv', 'a;b\n"1;2\n', /quote/]];
  for (const [name, text, message] of bad) {
    const refused = t.run('map', t.write(name, text), '--json');
    t.expect_code(refused, 2);
    t.equal(refused.out, '', `${name}: stdout`);
    t.expect(message.test(refused.err), `${name}: found "${refused.err.trim()}", expected ${message}`);
  }
  t.expect_code(t.run('map', file, '--mapping', t.write('odd.csv', 'column,as,unit,sign,words\nx,colour,,,\n')), 2);
}
