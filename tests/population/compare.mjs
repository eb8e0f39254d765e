// Holds one published figure against the simulated populations.
import { sample_of } from './arms.mjs';
import { bootstrap, mean, mean_interval, sd, sd_interval } from './numbers.mjs';

const widened = ([low, high], share) => [low - share * Math.abs(low), high + share * Math.abs(high)];

/// What the study itself allows: its range, or the 95 % interval of its mean or SD.
export function published_interval({ range, mean: middle, sd: spread, n, value }) {
  if (range) return range;
  if (middle !== undefined) return mean_interval(middle, spread, n);
  if (spread !== undefined) return sd_interval(spread, n);
  return value === undefined ? null : [value, value];
}

/// The band that the model has to lie in; null for figures that are only shown or are a direction.
export function band_of(published, widening) {
  const interval = published_interval(published);
  return interval && !published.only_shown ? widened(interval, widening) : null;
}

const flat_mean = (samples) => {
  let sum = 0;
  let n = 0;
  for (const sample of samples) {
    for (const value of sample) sum += value;
    n += sample.length;
  }
  return sum / n;
};

const kStatistics = {
  mean: ([a]) => mean(a),
  sd: ([a]) => sd(a),
  difference: ([a, b]) => mean(a) - mean(b),
  ratio: ([a, b]) => mean(a) / mean(b),
  pooled_mean: flat_mean,
};

/// Laws of direction: each gives one number per neighbour that must be above 0.
const kDirections = {
  rising: (samples) => samples.slice(1).map((sample, i) => (s) => mean(s[i + 1]) - mean(s[i])),
  falling: (samples) => samples.slice(1).map((sample, i) => (s) => mean(s[i]) - mean(s[i + 1])),
  positive: () => [(s) => mean(s[0])],
};

function compare_direction(kind, samples, is_quick) {
  const rises = kDirections[kind](samples).map((statistic) => ({
    found: statistic(samples), interval: bootstrap(samples, statistic, 0.99),
  }));
  // Few attempts cannot settle a small rise: then only a proven fall counts against the model.
  const holds = rises.every(({ found, interval }) => (is_quick ? interval[1] > 0 : found > 0));
  const proven = rises.every(({ interval }) => interval[0] > 0);
  return { means: samples.map(mean), holds, proven, settled: rises.every(({ found }) => found > 0) };
}

/// Result of a row of published.json: {state, ...}. `state` is inside, outside, shown or missing.
/// With few attempts (quick) the whole 99 % interval of the model must lie outside before it counts as outside.
export function compare(row, arms, { widening, is_quick }) {
  const samples = row.model.arms.map((name) => sample_of(arms, name, row.model.measure));
  if (samples.some((sample) => sample === null || sample.some((value) => value === null || Number.isNaN(value)))) {
    return { row, state: 'missing' };
  }
  const n = samples.map((sample) => sample.length);
  if (row.model.kind in kDirections) {
    const direction = compare_direction(row.model.kind, samples, is_quick);
    return { row, n, ...direction, state: direction.holds ? 'inside' : 'outside' };
  }
  const statistic = kStatistics[row.model.kind];
  const found = statistic(samples);
  const interval = bootstrap(samples, statistic);
  const band = band_of(row.published, widening);
  if (!band) return { row, n, found, interval, state: 'shown' };
  const [low, high] = is_quick ? bootstrap(samples, statistic, 0.99) : [found, found];
  const state = high >= band[0] && low <= band[1] ? 'inside' : 'outside';
  return { row, n, found, interval, band, state };
}
