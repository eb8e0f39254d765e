// Tests of the report's own parts: statistics, tables, bands, attempt times. usage: node tests/population/self_test.mjs
import assert from 'node:assert/strict';
import fs from 'node:fs';
import { arms_of } from './arms.mjs';
import { pressed_times_s } from './attempt_extras.mjs';
import { band_of, compare, published_interval } from './compare.mjs';
import { judge_convergence, judge_cutting } from './core_tables.mjs';
import { read_csv } from './csv.mjs';
import { bootstrap, chi_square_quantile, mean, quantile, sd } from './numbers.mjs';
import { Svg, ticks } from './svg.mjs';

const near = (found, expected, tolerance) => assert.ok(Math.abs(found - expected) <= tolerance, `found ${found}, expected ${expected} within ${tolerance}`);
const published = JSON.parse(fs.readFileSync(new URL('published.json', import.meta.url), 'utf8'));
const { populations } = JSON.parse(fs.readFileSync(new URL('populations.json', import.meta.url), 'utf8'));

const cases = {
  'mean, SD and quantiles of a known sample'() {
    assert.equal(mean([1, 2, 3, 6]), 3);
    near(sd([1, 2, 3, 6]), Math.sqrt(14 / 3), 1e-12);
    assert.equal(quantile([4, 1, 3, 2], 0.5), 2.5);
  },
  'chi square quantiles agree with tables'() {
    // Tables of chi square: 60 degrees of freedom, 2.5 % 40.48, 97.5 % 83.30.
    near(chi_square_quantile(-1.959964, 60), 40.48, 0.05);
    near(chi_square_quantile(1.959964, 60), 83.30, 0.05);
  },
  'the bootstrap interval of a mean is about 1.96 standard errors wide, and the same each time'() {
    const sample = Array.from({ length: 200 }, (_, i) => (i * 7919) % 200);
    const [low, high] = bootstrap([sample], ([a]) => mean(a));
    near((high - low) / 2, 1.96 * sd(sample) / Math.sqrt(200), 0.5);
    assert.deepEqual(bootstrap([sample], ([a]) => mean(a)), [low, high]);
  },
  'a table with empty and quoted cells is read'() {
    assert.deepEqual(read_csv('a,b,c\r\n1.5,,"x, ""y"""\r\n'), [{ a: 1.5, b: null, c: 'x, "y"' }]);
  },
  'time under press counts only a turning drill'() {
    const trace = [[0, 5, 1, 0], [10, 1, 0, 0, 0, 0, 5000], [20, 2, 1200], [30, 1, 0, 0, 0, 0, 5000], [1030, 1, 0, 0, 0, 0, 0], [1100, 1, 0, 0, 0, 0, 9000],
      [1200, 2, 0], [1300, 5, 2, 0], [1310, 2, 800], [1320, 1, 0, 0, 0, 0, 4000]];
    assert.deepEqual(pressed_times_s(trace, 1820), [1.1, 0.5]);
  },
  'bands: a range, the interval of a mean, the interval of an SD, each widened'() {
    assert.deepEqual(band_of({ range: [1, 2] }, 0.5), [0.5, 3]);
    near(published_interval({ mean: 3.388, sd: 1.647, n: 52 })[0], 3.388 - 1.96 * 1.647 / Math.sqrt(52), 1e-3);
    near(published_interval({ sd: 0.79, n: 61 })[1], 0.79 * Math.sqrt(60 / 40.48), 1e-3);
    assert.equal(band_of({ value: 1.2, only_shown: true }, 0.15), null);
  },
  'a figure is inside, outside or missing'() {
    const rows = [0.9, 1.0, 1.1, 1.0].map((entry) => ({ entry_md_mm: entry, entry_bl_mm: 0, angle_deg: 1, approach: 'sleeve' }));
    const arms = arms_of({ id: 'p/q', rows });
    const row = (range) => ({ model: { kind: 'mean', arms: ['p/q/sleeve'], measure: 'entry_mm' }, published: { range } });
    const options = { widening: 0, is_quick: false };
    assert.equal(compare(row([0.8, 1.2]), arms, options).state, 'inside');
    assert.equal(compare(row([1.02, 1.2]), arms, options).state, 'outside');
    assert.equal(compare(row([1.02, 1.2]), arms, { ...options, is_quick: true }).state, 'inside');
    assert.equal(compare(row([2, 3]), arms, { ...options, is_quick: true }).state, 'outside');
    assert.equal(compare({ ...row([0, 1]), model: { kind: 'mean', arms: ['p/q/pilot'], measure: 'entry_mm' } }, arms, options).state, 'missing');
  },
  'a rise holds only when every neighbour is higher'() {
    const arms = new Map([[1, 2, 4], [2, 3, 5], [1.5, 2.5, 3.5]].map((angles, i) => [`a${i}`, { rows: angles.map((angle_deg) => ({ angle_deg })) }]));
    const row = (names) => ({ model: { kind: 'rising', arms: names, measure: 'angle_deg' }, published: { words: 'rises' } });
    const options = { widening: 0, is_quick: false };
    assert.equal(compare(row(['a0', 'a1']), arms, options).state, 'inside');
    assert.equal(compare(row(['a0', 'a1', 'a2']), arms, options).state, 'outside');
  },
  'attempts of a learner are told apart, holes that are missing are counted'() {
    const row = (period, approach, angle_deg) => ({ period, approach, angle_deg });
    const arms = arms_of({ id: 'x/y', by_attempt: true, rows: [row(1, 'freehand', 1), row(2, 'sleeve', 1), row(3, 'freehand', 1), row(4, 'sleeve', null)] });
    assert.equal(arms.get('x/y/freehand/2').rows.length, 1);
    assert.equal(arms.get('x/y/sleeve').without_hole, 1);
  },
  'convergence and cutting find what is beyond the limits'() {
    const result = (id, entry) => ({ id, entry_x_mm: entry, entry_y_mm: 0, apex_x_mm: 0, apex_y_mm: 0, apex_z_mm: -10, axis_x: 0, axis_y: 0, axis_z: 1, time_s: 10 });
    const judged = judge_convergence({ convergence: [{ id: 'upright', results: [result('normal', 0), result('both', 0.06)] }] }, published);
    assert.deepEqual(judged[0].beyond, ['entry_mm']);
    const tables = { cutting: published.cutting.rows.map(({ id, thrust_n }) => ({ id, thrust_n: thrust_n[0] * 1.2, torque_nmm: 1 })) };
    assert.deepEqual(judge_cutting(tables, published).map(({ judged: each }) => [each.thrust_n.inside, each.torque_nmm.inside]), Array(3).fill([true, false]));
  },
  'every published row names a study, an arm that is simulated, and its provenance'() {
    const known = new Set(populations.map(({ id }) => id));
    for (const row of published.rows) {
      const study = published.studies[row.study];
      assert.ok(study, row.what);
      assert.match(study.provenance, /^(seen|hearsay|from memory, (high|middling) confidence)$/);
      if (row.required) assert.equal(study.provenance, 'seen', row.what);
      for (const arm of row.model.arms) assert.ok(known.has(arm.split('/').slice(0, 2).join('/')), `${row.what}: ${arm}`);
    }
  },
  'pictures are escaped and ticks are round'() {
    const svg = new Svg(10, 10, 'a < b', 'c & d');
    svg.text(1, 1, '"x" > y');
    assert.match(svg.toString(), /a &lt; b[\s\S]*c &amp; d[\s\S]*&quot;x&quot; &gt; y/);
    assert.deepEqual(ticks(0, 1, 5), [0, 0.2, 0.4, 0.6, 0.8, 1]);
  },
};

let failed = 0;
for (const [name, test] of Object.entries(cases)) {
  try {
    test();
  } catch (problem) {
    ++failed;
    console.log(`${name}: ${problem.message}`);
  }
}
console.log(`population: ${Object.keys(cases).length - failed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
