// Means, spreads and intervals of samples; the same numbers on every machine.

export const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;

/// Sample standard deviation, n - 1.
export function sd(values) {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
}

/// Value below which a share of the sorted sample lies, linear between ranks.
export function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low] + (at - low) * (sorted[Math.min(low + 1, sorted.length - 1)] - sorted[low]);
}

/// Uniform integers below `bound` by xorshift32 with a fixed start: no clock, no library.
export function make_random(seed) {
  let state = (seed >>> 0) || 1;
  return (bound) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state % bound;
  };
}

const kResamples = 1000;

/// Bootstrap interval (percentile, `level` in both tails together) of a statistic of several samples,
/// each resampled by itself.
export function bootstrap(samples, statistic, level = 0.95) {
  const random = make_random(20201);
  const found = [];
  for (let round = 0; round < kResamples; ++round) {
    found.push(statistic(samples.map((sample) => sample.map(() => sample[random(sample.length)]))));
  }
  return [quantile(found, (1 - level) / 2), quantile(found, (1 + level) / 2)];
}

/// Quantile of chi square by Wilson and Hilferty 1931; within 0.3 % for 20 and more degrees of freedom.
export function chi_square_quantile(z, freedom) {
  const part = 2 / (9 * freedom);
  return freedom * (1 - part + z * Math.sqrt(part)) ** 3;
}

const kZ95 = 1.959964;

/// 95 % interval of a published mean, from its SD and n (normal).
export const mean_interval = (middle, spread, n) =>
  [middle - kZ95 * spread / Math.sqrt(n), middle + kZ95 * spread / Math.sqrt(n)];

/// 95 % interval of a published SD, from n (normal samples).
export const sd_interval = (spread, n) =>
  [spread * Math.sqrt((n - 1) / chi_square_quantile(kZ95, n - 1)), spread * Math.sqrt((n - 1) / chi_square_quantile(-kZ95, n - 1))];
