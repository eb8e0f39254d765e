// How many operators or holes a comparison needs.
#pragma once

#include "base/result.h"

#include <cstddef>

namespace driftbench::stats {

/// What a plan must reach; two-sided.
struct Demand {
  double alpha = 0.05;
  double power = 0.80;

  friend bool operator==(const Demand&, const Demand&) = default;
};

/// Standard deviation of one operator's difference of two techniques, each the mean of
/// `holes_each`: sqrt(sd_effect^2 + (sd_first^2 + sd_second^2) / holes_each). Contract: holes > 0.
[[nodiscard]] double paired_difference_sd(double sd_effect, double sd_first, double sd_second,
                                          std::size_t holes_each);

/// Smallest numbers by the normal formula (a real number) and by Student's t (whole).
struct PlannedSize {
  double normal = 0.0;
  std::size_t exact = 0;
};

/// Pairs (operators who do both, or matched sites of one operator) to find a mean difference.
///
/// Errors of all planners: kOutOfRange unless difference and sd are positive, alpha and power lie
///         between 0 and 1 with power > alpha; or above 100,000
/// Source: n = (z_(1 - alpha/2) + z_power)^2 sd^2 / difference^2; exact: noncentral t with
///         noncentrality sqrt(n) difference / sd
[[nodiscard]] base::Result<PlannedSize> paired_size(double difference, double sd,
                                                    const Demand& demand = {});

/// Operators in each of two separate groups.
///
/// Source: twice the above; exact: noncentral t, 2 n - 2 degrees of freedom, sqrt(n / 2) d
[[nodiscard]] base::Result<PlannedSize> two_group_size(double difference, double sd,
                                                       const Demand& demand = {});

/// Power of the t tests. Contract: n >= 2, sd > 0, 0 < alpha < 1.
[[nodiscard]] double paired_power(std::size_t n, double difference, double sd, double alpha);
[[nodiscard]] double two_group_power(std::size_t n_each, double difference, double sd,
                                     double alpha);

/// Holes per technique to find that one spread is `ratio` times the other, with `axes` directions
/// measured at each hole (1, or 2 in the plane). Normal formula only.
///
/// Errors: kOutOfRange unless ratio is positive and not 1, and axes is 1 or 2
/// Source: variance 1 / (2 axes (n - 1)) of ln s: n = 1 + (z + z)^2 / (axes ln(ratio)^2)
[[nodiscard]] base::Result<std::size_t> spread_size(double ratio, std::size_t axes,
                                                    const Demand& demand = {});

/// The number or the next even one, so that both orders of two techniques are as frequent.
[[nodiscard]] constexpr std::size_t even(std::size_t n) {
  return n + n % 2;
}

}  // namespace driftbench::stats
