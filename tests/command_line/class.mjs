// A class of practised attempts and invented real blocks: collected, repeated, compiled, the same bytes again.
import fs from 'node:fs';
import path from 'node:path';
import { root } from './program.mjs';

const kFiles = ['class-summary.json', 'codebook.md', 'holes.csv', 'learners.csv', 'methods.md', 'report.html'];
const kHeader = 'operator,approach,entry_md_mm,entry_bl_mm,depth_mm,tilt_md_deg,period,source\n';

const read = (folder, name) => fs.readFileSync(path.join(folder, name), 'utf8');
const lines_of = (text) => text.trim().split('\r\n');

/** Invented holes: `count` learners, each three free-hand and three by sleeve. */
function invented(count) {
  let rows = kHeader;
  for (let i = 0; i < count; ++i) {
    for (let k = 0; k < 3; ++k) {
      rows += `real-${i},freehand,${0.8 + 0.1 * i},${0.2 * k - 0.1},0.${k},,${k + 1},bench\n`;
      rows += `real-${i},sleeve,${0.1 * k},${0.05 * i},0.1,,${k + 4},bench\n`;
    }
  }
  return rows;
}

/** Validator of class-summary.json, when ajv is installed. */
async function validator() {
  try {
    const { default: Ajv } = await import('ajv');
    const ajv = new Ajv({ allErrors: true, strict: true, strictTuple: false, strictRequired: false, strictTypes: false });
    const validate = ajv.compile(JSON.parse(read(root, 'lessons/schema/class-summary.schema.json')));
    return (value) => (validate(value) ? '' : ajv.errorsText(validate.errors));
  } catch (failure) {
    if (failure.code !== 'ERR_MODULE_NOT_FOUND') throw failure;
    return () => '';
  }
}

function check_practised(t, folder, schema_errors) {
  const names = t.write('names.csv', 'code,name\nnovice-0001,Ada Lamb\n');
  const table = t.write('block.csv', invented(6));
  const run = (out) => t.json(0, 'class', folder, table, '--names', names, '--out', t.path(out)) ?? {};
  const outcome = run('report');
  t.equal([outcome.attempts, outcome.equal, outcome.table_rows, outcome.refused], [42, 6, 36, 0], 'class: counts');
  t.equal(fs.readdirSync(t.path('report')).sort(), kFiles, 'class: files');
  run('again');
  for (const name of kFiles) {
    t.expect(read(t.path('report'), name) === read(t.path('again'), name), `${name}: found other bytes in a second run`);
  }
  t.equal(lines_of(read(t.path('report'), 'holes.csv')).length, 43, 'holes.csv: lines');
  // The practised holes come back as they were, whatever their order.
  const before = new Set(lines_of(read(folder, 'holes.csv')));
  t.equal(lines_of(read(t.path('report'), 'holes.csv')).filter((line) => before.has(line)).length, 7, 'holes.csv: practised rows');
  t.expect(read(t.path('report'), 'report.html').includes('Ada Lamb (novice-0001)'), 'report: expected the name');
  t.expect(!/<script/i.test(read(t.path('report'), 'report.html')), 'report: found a script');
  const summary = JSON.parse(read(t.path('report'), 'class-summary.json'));
  t.equal(schema_errors(summary), '', 'class-summary.json: schema');
  t.equal(summary.sources.map((part) => [part.source, part.learners]), [['simulated', 1], ['bench', 6]], 'summary: sources apart');
  t.expect(!JSON.stringify(summary).includes('novice-0001'), 'summary: found a learner');
  // The same rows in the same order: the same numbers to the last digit.
  const rows = lines_of(read(t.path('report'), 'holes.csv'));
  const real = [rows[0], ...rows.filter((line) => line.endsWith(',bench'))].join('\n');
  const stats = t.json(0, 'stats', t.write('real.csv', `${real}\n`)) ?? {};
  t.equal(summary.sources[1]?.paired, stats.paired, 'summary: pairs as `stats` computes them');
  t.equal(summary.sources[1]?.groups, stats.groups, 'summary: groups as `stats` computes them');
  t.expect(/practice and technique cannot be separated/.test(read(t.path('report'), 'methods.md')), 'methods: expected the order');
  // The same folder may be written again; a folder with anything else may not.
  t.expect_code(t.run('class', table, '--out', t.path('report')), 0);
  t.expect_code(t.run('class', table, '--out', folder), 2);
}

function check_forged(t, folder) {
  fs.mkdirSync(t.path('forged'));
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.attempt.json')).slice(0, 2);
  const good = read(folder, names[0]);
  t.write('forged/a.attempt.json', good);
  t.write('forged/copy.attempt.json', good);
  t.write('forged/edited.attempt.json', read(folder, names[1]).replace(/"time_s": [0-9.]+/, '"time_s": 1.5'));
  t.write('forged/broken.attempt.json', '{"format": ');
  t.write('forged/rows.csv', `${kHeader}=1+1,freehand,1,0,0,,1,bench\n<b>x</b>,guided,1,0,0,,1,bench\n`);
  const outcome = t.json(1, 'class', t.path('forged'), '--out', t.path('forged-report')) ?? {};
  t.equal([outcome.equal, outcome.differs, outcome.given_twice, outcome.refused, outcome.table_rows], [1, 1, 1, 2, 1], 'forged: counts');
  const problems = (outcome.problems ?? []).join('\n');
  for (const words of [/edited\.attempt\.json: .*results does not match its digest/, /broken\.attempt\.json:1:/, /rows\.csv:3: found "guided"/]) {
    t.expect(words.test(problems), `forged: found ${problems}, expected ${words}`);
  }
  t.expect(/\n,'=1\+1,/.test(read(t.path('forged-report'), 'holes.csv')), 'forged: expected the formula as text');
}

function check_tables(t, schema_errors) {
  const classes = { one: `${kHeader}a,freehand,1,0,0,,1,bench\n`, small: invented(4), gaps: `${kHeader}a,sleeve,,,0.2,1,,\n`,
    unpaired: `${kHeader}a,freehand,1,0,0,,1,bench\nb,sleeve,1,0,0,,1,bench\n` };
  const names = t.write('nobody.csv', 'code,name\n');
  for (const [name, rows] of Object.entries(classes)) {
    const file = t.write(`${name}.csv`, rows);
    for (const more of [[], ['--names', names]]) {
      const out = t.path(`${name}-${more.length}`);
      t.expect_code(t.run('class', file, '--out', out, ...more), 0);
      const summary = JSON.parse(read(out, 'class-summary.json'));
      t.equal(schema_errors(summary), '', `${name}: schema`);
      t.equal(summary.sources[0]?.groups, [], `${name}: small groups in the summary`);
      t.expect(!/\bnan\b|\binf\b/.test(kFiles.map((one) => read(out, one)).join('')), `${name}: found a number that is none`);
    }
  }
  t.expect(!read(t.path('small-0'), 'report.html').includes('real-0'), 'small: found a learner of a hidden group');
}

export async function test(t) {
  const schema_errors = await validator();
  // A coarse small block, because repeating takes as long as drilling.
  const lesson = t.write('coarse.lesson.json', read(root, 'lessons/find-the-centre.lesson.json').replaceAll('"voxel_mm": 0.15', '"voxel_mm": 0.3'));
  t.expect_code(t.run('practise', lesson, '--count', '3', '--seed', '7', '--out', t.path('turned-in')), 0);
  check_practised(t, t.path('turned-in'), schema_errors);
  check_forged(t, t.path('turned-in'));
  check_tables(t, schema_errors);
  const table = t.write('some.csv', invented(5));
  for (const words of [[], [table], ['--out', t.path('x')], ['no/such/folder', '--out', t.path('x')],
    [t.write('other.csv', 'a,b\n1,2\n'), '--out', t.path('x')], [table, '--out', t.path('x'), '--names', table]]) {
    t.expect_code(t.run('class', ...words), 2);
  }
  t.expect(!fs.existsSync(t.path('x')), 'bad input: found a folder, expected none');
}
