// Probabilities and quantiles of the distributions that group statistics use.
#pragma once

namespace driftbench::stats {

/// Probability that a standard normal number is at most `z`.
[[nodiscard]] double normal_cdf(double z);

/// Contract of all quantiles: 0 < probability < 1; of all degrees of freedom: > 0.
[[nodiscard]] double normal_quantile(double probability);

/// Student's t: probability of a value at least as far from 0 as `t`.
[[nodiscard]] double t_two_sided_p(double t, double df);
[[nodiscard]] double t_quantile(double probability, double df);

/// Noncentral t: probability of a value of at most `t`.
[[nodiscard]] double noncentral_t_cdf(double t, double df, double noncentrality);

/// F: probability of a value of at least `f`. Contract: f >= 0.
[[nodiscard]] double f_upper_p(double f, double df1, double df2);
[[nodiscard]] double f_quantile(double probability, double df1, double df2);

[[nodiscard]] double chi_squared_quantile(double probability, double df);

}  // namespace driftbench::stats
