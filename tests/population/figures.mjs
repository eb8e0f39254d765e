// The figures of the evidence page.
import { measures, sample_of } from './arms.mjs';
import { bootstrap, mean, quantile } from './numbers.mjs';
import { published_interval } from './compare.mjs';
import { Svg, scale, ticks } from './svg.mjs';

const kApproaches = { freehand: 'free-hand', pilot: 'pilot only', sleeve: 'full guidance' };
const approach_of = (arm) => Object.keys(kApproaches).find((word) => arm.includes(`/${word}`)) ?? 'other';

const mark_of = (result) => (result.row.model.kind === 'ratio' || result.row.model.kind === 'difference' || result.row.model.kind === 'pooled_mean'
  ? 'other' : approach_of(result.row.model.arms[0]));

/// Rows of published interval, stated band and model with its 95 % interval, on one axis.
export function forest(results, studies, title, unit) {
  const rows = results.filter((result) => result.interval);
  const kRow = 34;
  const kLeft = 430;
  const kTop = 92;
  const svg = new Svg(980, kTop + rows.length * kRow + 56, title,
    'Each row: grey bar the published range or interval, thin line the stated band, mark the model with its 95 percent interval.');
  const ends = rows.flatMap((result) => [...(published_interval(result.row.published) ?? []), ...(result.band ?? []), ...result.interval]);
  const low = Math.min(0, ...ends);
  const high = Math.max(...ends) * 1.04;
  const x = scale(low, high, kLeft, 950);
  const bottom = kTop + rows.length * kRow;
  svg.text(16, 28, title, { size: 18, weight: 700 });
  svg.rect(16, 44, 34, 12, { fill: '#BBBBBB' });
  svg.text(56, 55, 'published', { size: 13 });
  svg.line(136, 50, 170, 50, { width: 2 });
  svg.line(136, 45, 136, 55, { width: 2 });
  svg.line(170, 45, 170, 55, { width: 2 });
  svg.text(178, 55, 'stated band', { size: 13 });
  let at = 270;
  for (const [kind, words] of [...Object.entries(kApproaches), ['other', 'difference, ratio']]) {
    if (!rows.some((result) => mark_of(result) === kind)) continue;
    svg.mark(kind, at, 50);
    svg.text(at + 14, 55, `model, ${words}`, { size: 13 });
    at += 160;
  }
  for (const tick of ticks(low, high, 8)) {
    svg.line(x(tick), kTop - 8, x(tick), bottom, { colour: '#CCCCCC', width: 1 });
    svg.text(x(tick), bottom + 20, String(tick), { anchor: 'middle' });
  }
  svg.text((kLeft + 950) / 2, bottom + 44, unit, { anchor: 'middle' });
  rows.forEach((result, i) => {
    const y = kTop + (i + 0.5) * kRow;
    const label = result.row.what.length > 54 ? `${result.row.what.slice(0, 53)}…` : result.row.what;
    svg.text(16, y - 1, label, { size: 13 });
    svg.text(16, y + 13, `${studies[result.row.study].short}${result.state === 'outside' ? ', outside' : result.state === 'inside' ? ', inside' : ''}`, { size: 11, colour: '#444444' });
    const published = published_interval(result.row.published);
    svg.rect(x(published[0]) - 2, y - 8, x(published[1]) - x(published[0]) + 4, 16, { fill: '#BBBBBB' });
    if (result.band) {
      svg.line(x(result.band[0]), y, x(result.band[1]), y, { width: 2 });
      for (const end of result.band) svg.line(x(end), y - 6, x(end), y + 6, { width: 2 });
    }
    svg.line(x(result.interval[0]), y, x(result.interval[1]), y, { colour: '#000000', width: 5 });
    svg.mark(mark_of(result), x(result.found), y, 7);
  });
  return svg.toString();
}

const kShown = 250;  // holes drawn in one target

/// Entries or floors of the arms of a population, seen from above, plan in the middle.
export function targets(arms, population, title, where, labels) {
  const shown = Object.keys(kApproaches).filter((approach) => sample_of(arms, `${population}/${approach}`, 'entry_mm'));
  const kSize = 300;
  const svg = new Svg(shown.length * kSize + 40, kSize + 120, title, `Positions of ${where} across the site; the dashed ring and cross-hair are the plan.`);
  svg.text(16, 28, title, { size: 18, weight: 700 });
  const names = [`${where}_md_mm`, `${where}_bl_mm`];
  const far = Math.max(1.5, ...shown.map((approach) => quantile(arms.get(`${population}/${approach}`).rows.map(measures[`${where}_mm`].of), 0.98)));
  const reach = Math.ceil(far * 2) / 2;
  shown.forEach((approach, i) => {
    const left = 20 + i * kSize;
    const x = scale(-reach, reach, left + 10, left + kSize - 20);
    const y = scale(-reach, reach, 60 + kSize - 30, 60);
    svg.rect(x(-reach), y(reach), x(reach) - x(-reach), y(-reach) - y(reach), { fill: '#FFFFFF', stroke: '#888888' });
    for (let ring = 1; ring <= reach; ++ring) {
      svg.circle(x(0), y(0), x(ring) - x(0), { stroke: '#BBBBBB', width: 1 });
      svg.text(x(ring) - 3, y(0) - 3, `${ring} mm`, { anchor: 'end', size: 11, colour: '#666666' });
    }
    const { rows } = arms.get(`${population}/${approach}`);
    for (const row of rows.slice(0, kShown)) {
      if (Math.abs(row[names[0]]) <= reach && Math.abs(row[names[1]]) <= reach) svg.mark(approach, x(row[names[0]]), y(row[names[1]]), 3.2);
    }
    svg.line(x(0) - 12, y(0), x(0) + 12, y(0), { colour: '#000000', width: 3.5 });
    svg.line(x(0), y(0) - 12, x(0), y(0) + 12, { colour: '#000000', width: 3.5 });
    svg.line(x(0) - 12, y(0), x(0) + 12, y(0), { colour: '#FFFFFF', width: 1.5 });
    svg.line(x(0), y(0) - 12, x(0), y(0) + 12, { colour: '#FFFFFF', width: 1.5 });
    svg.circle(x(0), y(0), 8, { stroke: '#000000', width: 3.5 });
    svg.circle(x(0), y(0), 8, { stroke: '#FFFFFF', width: 1.5, dash: '4 3' });
    svg.text(left + kSize / 2, 60 + kSize - 8, kApproaches[approach], { anchor: 'middle', weight: 700 });
    svg.text(left + kSize / 2, 60 + kSize + 12, `mean ${mean(rows.map(measures[`${where}_mm`].of)).toFixed(2)} mm, n = ${rows.length}`, { anchor: 'middle', size: 13 });
  });
  svg.text(20, kSize + 104, labels, { size: 12, colour: '#444444' });
  return svg.toString();
}

/// Frame with axes; gives the two scales.
function plot(svg, { x_low, x_high, y_low, y_high, x_label, y_label, x_ticks }) {
  const x = scale(x_low, x_high, 80, svg.width - 30);
  const y = scale(y_low, y_high, svg.height - 70, 80);
  for (const tick of ticks(y_low, y_high)) {
    svg.line(x(x_low), y(tick), x(x_high), y(tick), { colour: '#CCCCCC', width: 1 });
    svg.text(x(x_low) - 8, y(tick) + 5, String(tick), { anchor: 'end' });
  }
  for (const [value, words] of x_ticks) {
    svg.line(x(value), y(y_low), x(value), y(y_low) + 6);
    svg.text(x(value), y(y_low) + 22, words, { anchor: 'middle' });
  }
  svg.line(x(x_low), y(y_low), x(x_high), y(y_low));
  svg.line(x(x_low), y(y_low), x(x_low), y(y_high));
  svg.text((x(x_low) + x(x_high)) / 2, y(y_low) + 48, x_label, { anchor: 'middle' });
  svg.text(24, (y(y_low) + y(y_high)) / 2, y_label, { anchor: 'middle', turn: -90 });
  return { x, y };
}

/// Series of points with whiskers, joined.
function series(svg, { x, y }, kind, points, dash = '') {
  svg.path(points.map((point) => [x(point.at), y(point.value)]), { width: 2, dash });
  for (const { at, value, low, high } of points) {
    svg.line(x(at), y(low), x(at), y(high), { width: 2 });
    for (const end of [low, high]) svg.line(x(at) - 5, y(end), x(at) + 5, y(end), { width: 2 });
    svg.mark(kind, x(at), y(value), 7);
  }
}

function legend(svg, entries) {
  let at = 90;
  for (const [kind, words] of entries) {
    svg.mark(kind, at, 56, 6);
    svg.text(at + 14, 61, words, { size: 13 });
    at += 44 + 7 * words.length;
  }
}

const point_of = (sample, at) => {
  const [low, high] = bootstrap([sample], ([a]) => mean(a));
  return { at, value: mean(sample), low, high };
};

/// Angle against the distance of the sleeve from the platform.
export function gap_figure(arms, gaps, published) {
  const samples = gaps.map((gap) => [gap, sample_of(arms, `gap-${gap}/novice/sleeve`, 'angle_deg')]).filter(([, sample]) => sample);
  const points = samples.map(([gap, sample]) => point_of(sample, gap - 0.06));
  const seen = published.map(([gap, middle, spread]) => ({ at: gap + 0.06, value: middle, low: middle - spread, high: middle + spread }));
  const title = 'Full guidance: angle against the gap under the sleeve';
  const svg = new Svg(640, 420, title, 'Mean angle of the model with 95 percent interval, and published means with one standard deviation.');
  svg.text(16, 28, title, { size: 18, weight: 700 });
  const axes = plot(svg, {
    x_low: 1, x_high: 7, y_low: 0, y_high: Math.ceil(Math.max(...points.map((p) => p.high), ...seen.map((p) => p.high))),
    x_label: 'gap between sleeve and platform, mm', y_label: 'angle, degrees', x_ticks: gaps.map((gap) => [gap, String(gap)]),
  });
  series(svg, axes, 'published', seen, '6 4');
  series(svg, axes, 'sleeve', points);
  legend(svg, [['sleeve', 'model, mean and 95 % interval'], ['published', 'published, mean ± SD']]);
  return svg.toString();
}

/// Hole size against foam density.
export function foam_figure(arms, grades) {
  const points = grades.map(({ arm, density }) => [density, sample_of(arms, arm, 'oversize_mm')]).filter(([, sample]) => sample)
    .map(([density, sample]) => point_of(sample, density));
  const title = 'Hole wider than the drill, by foam density';
  const svg = new Svg(640, 420, title, 'Mean oversize of free-hand holes with 95 percent interval against foam density.');
  svg.text(16, 28, title, { size: 18, weight: 700 });
  const axes = plot(svg, {
    x_low: 0.1, x_high: 0.7, y_low: Math.min(0, ...points.map((p) => p.low)), y_high: Math.max(...points.map((p) => p.high)) * 1.15 + 0.01,
    x_label: 'foam density, g/cm³ (D4, D3, D2, D1)', y_label: 'oversize, mm', x_ticks: grades.map(({ density }) => [density, density.toFixed(2)]),
  });
  series(svg, axes, 'freehand', points);
  legend(svg, [['freehand', 'model, free-hand, mean and 95 % interval']]);
  return svg.toString();
}

/// A measure against the attempt of a learner.
export function practice_figure(arms, measure, title, label) {
  const svg = new Svg(640, 420, title, 'Mean by attempt with 95 percent interval, free-hand and through the sleeve.');
  svg.text(16, 28, title, { size: 18, weight: 700 });
  const all = ['freehand', 'sleeve'].map((approach) => {
    const points = [];
    for (let i = 1; arms.has(`practice/novice/${approach}/${i}`); ++i) {
      const sample = sample_of(arms, `practice/novice/${approach}/${i}`, measure);
      if (sample) points.push(point_of(sample, i));
    }
    return [approach, points];
  });
  const most = Math.max(...all.flatMap(([, points]) => points.map((point) => point.high)));
  const last = Math.max(2, ...all.map(([, points]) => points.length));
  const axes = plot(svg, {
    x_low: 0.5, x_high: last + 0.5, y_low: 0, y_high: most * 1.1, x_label: 'attempt of a learner', y_label: label,
    x_ticks: Array.from({ length: last }, (_, i) => [i + 1, String(i + 1)]),
  });
  for (const [approach, points] of all) if (points.length > 0) series(svg, axes, approach, points);
  legend(svg, all.map(([approach]) => [approach, `model, ${kApproaches[approach]}`]));
  return svg.toString();
}

/// Thrust and torque beside published values, by drill speed.
export function cutting_figure(rows, key, title, label) {
  const svg = new Svg(640, 420, title, 'Model and published values by drill speed.');
  svg.text(16, 28, title, { size: 18, weight: 700 });
  const high = Math.max(...rows.flatMap((row) => [row.model[key], row.published[key][0] + row.published[key][1]]));
  const axes = plot(svg, {
    x_low: 900, x_high: 1600, y_low: 0, y_high: high * 1.1, x_label: 'speed, revolutions a minute', y_label: label,
    x_ticks: rows.map((row) => [row.model.speed_rpm, String(row.model.speed_rpm)]),
  });
  series(svg, axes, 'published', rows.map((row) => ({ at: row.model.speed_rpm, value: row.published[key][0], low: row.published[key][0] - row.published[key][1], high: row.published[key][0] + row.published[key][1] })), '6 4');
  series(svg, axes, 'other', rows.map((row) => ({ at: row.model.speed_rpm, value: row.model[key], low: row.model[key], high: row.model[key] })));
  legend(svg, [['other', 'model'], ['published', 'published, mean ± SD']]);
  return svg.toString();
}
