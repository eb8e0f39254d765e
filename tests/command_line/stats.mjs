// Statistics of invented holes. Expected numbers: tests/statistics/reference.py on the same table (NumPy 1.24.2, SciPy
// 1.10.1), written from the definitions without this program; the simple ones are also plain by hand.
const kHeader = 'operator,approach,entry_md_mm,entry_bl_mm,depth_mm\n';
const kHoles = kHeader
  + 'amber-heron,freehand,1.2,0.3,0.4\namber-heron,freehand,0.7,-0.4,0.1\n'
  + 'birch-otter,freehand,0.4,0.5,-0.2\nbirch-otter,freehand,1.9,0.2,0.6\n'
  + 'cedar-finch,freehand,0.9,-0.6,0.3\ncedar-finch,freehand,1.1,0.1,0.0\n'
  + 'delta-mole,freehand,0.2,0.8,0.5\ndelta-mole,freehand,0.6,1.1,0.9\n'
  + 'amber-heron,sleeve,0.1,0.2,0.1\namber-heron,sleeve,-0.2,0.1,0.2\n'
  + 'birch-otter,sleeve,0.3,-0.1,0.0\nbirch-otter,sleeve,0.2,0.3,-0.1\n'
  + 'cedar-finch,sleeve,0.0,-0.3,0.2\ncedar-finch,sleeve,0.4,0.1,0.1\n'
  + 'elm-stoat,sleeve,0.1,0.0,0.3\n';

const kFreehand = {
  n: 8, operators: 4, bias_md_mm: 0.875, bias_bl_mm: 0.25, sd_md_mm: 0.5338539126015656, sd_bl_mm: 0.568205194324324,
  spread_mm: 0.5512971716130706, r50_mm: 1.0927640143013104, r95_mm: 1.8816217277572804,
  prediction_ellipse: { semi_major_mm: 2.3403907642946056, semi_minor_mm: 1.6520514213674622, angle_deg: 129.64076885020418, k: 3.6743759647979526 },
  mean_ellipse: { semi_major_mm: 0.7801302547648685, semi_minor_mm: 0.5506838071224873, angle_deg: 129.64076885020418, k: 1.2247919882659841 },
  hotelling: { t2: 30.116704406897753, f: 12.907159031527607, df1: 2, df2: 6, p: 0.006707889430817536 },
  iso5725: { repeatability_sd_mm: 0.4978586271318832, between_operator_sd_mm: 0, reproducibility_sd_mm: 0.4978586271318832 },
};
const kSleeve = {
  n: 7, operators: 4, bias_md_mm: 0.9 / 7, bias_bl_mm: 0.3 / 7, sd_md_mm: 0.19760470401187077, sd_bl_mm: 0.198805959477601,
  spread_mm: 0.198206241793023, r50_mm: 0.2592753490699096, r95_mm: 0.5387960471481926,
  iso5725: { repeatability_sd_mm: 0.04929262528193708, between_operator_sd_mm: 0.0984130975539195, reproducibility_sd_mm: 0.11006770951256657 },
};
// elm-stoat and delta-mole have one approach only: three pairs.
const kPaired = {
  operators: 3, mean_difference_mm: 0.8239769394076134, t: 13.918481264256327, df: 2, p: 0.005122351545810432,
  wilcoxon: { w: 6, p_exact: 0.25 }, spread_ratio: 2.178020257479917,
};
const kPairedDepth = { operators: 3, mean_difference_mm: 0.35 / 3, t: 1.6059101370939317, p: 0.24952122561354365,
  wilcoxon: { w: 5, p_exact: 0.5 }, spread_ratio: 2.4791816116240124 };

// Radii are solved for to 1e-10; everything else is good to rounding.
function compare(t, found, expected, what) {
  for (const [name, value] of Object.entries(expected)) {
    if (typeof value === 'object') compare(t, found?.[name], value, `${what}.${name}`);
    else t.near(found?.[name], value, 1e-8 * Math.max(1, Math.abs(value)), `${what}.${name}`);
  }
}

function every_number_is_finite(t, text, what) {
  t.expect(!/nan|inf(inity)?\b/i.test(text.replace(/"(?:[^"\\]|\\.)*"/g, '""')), `${what}: found a number that is none`);
}

export function test(t) {
  const file = t.write('holes.csv', kHoles);
  const all = t.json(0, 'stats', file) ?? {};
  t.equal(all.groups?.map((group) => group.approach), ['freehand', 'sleeve'], 'groups: approaches');
  t.equal(Object.keys(all.groups?.[0] ?? {}), ['approach', 'n', 'operators', 'bias_md_mm', 'bias_bl_mm', 'sd_md_mm', 'sd_bl_mm',
    'spread_mm', 'r50_mm', 'r95_mm', 'prediction_ellipse', 'mean_ellipse', 'hotelling', 'iso5725'], 'groups: fields');
  t.equal(Object.keys(all.paired ?? {}), ['operators', 'mean_difference_mm', 'ci95_mm', 't', 'df', 'p', 'wilcoxon', 'spread_ratio',
    'spread_ratio_ci95'], 'paired: fields');
  compare(t, all.groups?.[0], kFreehand, 'freehand');
  compare(t, all.groups?.[1], kSleeve, 'sleeve');
  compare(t, all.paired, kPaired, 'paired');
  t.near(all.paired?.ci95_mm?.[0], 0.5692590172137129, 1e-9, 'paired.ci95_mm[0]');
  t.near(all.paired?.ci95_mm?.[1], 1.078694861601514, 1e-9, 'paired.ci95_mm[1]');
  const [low, high] = all.paired?.spread_ratio_ci95 ?? [];
  t.expect(low < all.paired?.spread_ratio && all.paired?.spread_ratio < high, `spread ratio: found ${low} to ${high} around it`);
  // Ends of SciPy's resampling of three operators; the 27 resamples of three are few, so the ends are the same values.
  t.near(low, 1.2869537676233742, 1e-8, 'spread_ratio_ci95[0]');
  t.near(high, 3.7100816544050543, 1e-8, 'spread_ratio_ci95[1]');
  t.equal(t.run('stats', file, '--json').out, t.run('stats', file, '--json').out, 'stats: two runs');

  const depth = t.json(0, 'stats', file, '--measure', 'depth_mm') ?? {};
  t.equal(depth.measure, 'depth_mm', 'measure');
  t.near(depth.groups?.[0].iso5725.repeatability_sd_mm, 0.35, 1e-12, 'depth: repeatability');
  t.near(depth.groups?.[0].iso5725.between_operator_sd_mm, 0.05400617248673234, 1e-9, 'depth: between operators');
  t.near(depth.groups?.[0].spread_mm, kFreehand.spread_mm, 1e-12, 'depth: the plane stays the entry');
  compare(t, depth.paired, kPairedDepth, 'depth: paired');

  const plain = t.run('stats', file);
  t.expect_code(plain, 0);
  t.expect(/R95 about the target +1\.882 +0\.539/.test(plain.out), 'table: expected R95 of both approaches');
  t.expect(plain.out.indexOf('0.569 to 1.079') < plain.out.indexOf('p, paired t') && plain.out.includes('0.569 to 1.079'),
    'table: expected the interval before the probability');

  // Fewer than six holes: no ellipse, and a sentence.
  const few = t.json(0, 'stats', t.write('few.csv', kHoles.split('\n').slice(0, 6).join('\n') + '\n')) ?? {};
  t.equal(few.groups?.[0].prediction_ellipse, null, 'five holes: prediction_ellipse');
  t.equal(few.groups?.[0].mean_ellipse, null, 'five holes: mean_ellipse');
  t.equal(few.groups?.[0].reasons?.prediction_ellipse, 'found 5 holes, expected at least 6', 'five holes: reason');
  t.equal(few.paired?.t, null, 'one approach: paired.t');
  t.expect(few.paired?.reasons?.t?.length > 0, 'one approach: expected a reason');

  // More than twenty pairs: no exact test, but the rank sum.
  const many = Array.from({ length: 21 }, (_, i) => `op-${i},freehand,${1 + i / 10},0,0\nop-${i},sleeve,0,0.${i + 10},0\n`).join('');
  const ranks = (t.json(0, 'stats', t.write('many.csv', kHeader + many)) ?? {}).paired?.wilcoxon;
  t.equal([ranks?.w, ranks?.p_exact], [231, null], '21 pairs: w and p_exact');
  t.expect(/21 pairs.*20/.test(ranks?.reasons?.p_exact), '21 pairs: expected a reason');

  const degenerate = { empty: '', one: 'a,freehand,1,2,0\n', gaps: 'a,freehand,,2,\na,sleeve,1,,\n',
    same: Array.from({ length: 8 }, (_, i) => `op-${i >> 1},${i % 2 ? 'sleeve' : 'freehand'},0.1,0.7,0\n`).join('') };
  for (const [name, rows] of Object.entries(degenerate)) {
    const path = t.write(`${name}.csv`, kHeader + rows);
    const done = t.run('stats', path, '--json');
    t.expect_code(done, 0);
    every_number_is_finite(t, done.out, name);
    t.expect(JSON.parse(done.out).paired.reasons.p.length > 0, `${name}: found no reason, expected one`);
    t.expect_code(t.run('stats', path), 0);
  }
  t.expect(/gaps\.csv:2: found no entry_md_mm/.test(t.run('stats', t.path('gaps.csv')).err), 'gaps: expected the line on stderr');

  const bad = [['kind.csv', kHeader + 'a,guided,1,2,0\n', /kind\.csv:2: found "guided" in the column approach, expected /],
    ['number.csv', kHeader + 'a,sleeve,1,2,0\na,sleeve,1,2 mm,0\n', /number\.csv:3: found "2 mm" in the column entry_bl_mm, expected /],
    ['nobody.csv', kHeader + ',sleeve,1,2,0\n', /nobody\.csv:2: .*operator/],
    ['columns.csv', 'operator,approach,depth_mm\na,sleeve,1\n', /columns\.csv:1: found 1 of the measured components, expected two/],
    ['blank.csv', '', /blank\.csv:1: found an empty file, expected /], ['short.csv', kHeader + 'a,sleeve\n', /short\.csv:2: found 2 cells/]];
  for (const [name, text, message] of bad) {
    const done = t.run('stats', t.write(name, text), '--json');
    t.expect_code(done, 2);
    t.equal(done.out, '', `${name}: stdout`);
    t.expect(message.test(done.err), `${name}: found "${done.err.trim()}", expected ${message}`);
  }
  const no_column = t.run('stats', file, '--measure', 'colour');
  t.expect_code(no_column, 2);
  t.expect(/found no column "colour"/.test(no_column.err), `found "${no_column.err.trim()}", expected the missing column`);
}
