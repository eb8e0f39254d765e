// Cumulative sums: when has somebody learnt it, and when do they slip back?
#pragma once

#include "base/result.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace driftbench::stats {

/// Both one-sided sums of a series; an index counts from 0.
struct Cusum {
  std::vector<double> upper;
  std::vector<double> lower;
  std::optional<std::size_t> first_upper_signal;  ///< first place above the limit
  std::optional<std::size_t> first_lower_signal;
};

/// Settings of a tabular CUSUM, in the unit of the values.
struct CusumPlan {
  double target = 0.0;
  double slack = 0.0;       ///< k: drift smaller than this is let go
  double limit = 0.0;       ///< h: a signal above it
  double head_start = 0.0;  ///< both sums begin here (fast initial response)
};

/// S+ = max(0, S+ + x - target - k), S- = max(0, S- + target - k - x). Contract: slack >= 0,
/// limit > 0, head_start >= 0.
///
/// Source: Page (1954), Biometrika 41, 100; head start: Lucas, Crosier (1982), Technometrics 24,
/// 199
[[nodiscard]] Cusum cusum(std::span<const double> values, const CusumPlan& plan);

/// Settings of a learning-curve CUSUM: failure rates of the unready and of the ready, and the
/// evidence at which somebody counts as having learnt.
struct LearningCusumPlan {
  double p_bad = 0.40;
  double p_ok = 0.15;
  double limit = 2.5;
};

/// Evidence of one attempt: logarithm of how much likelier it is for the ready.
struct LearningScores {
  double pass = 0.0;
  double fail = 0.0;
};

/// Errors: kInvalidArgument unless 0 < p_ok < p_bad < 1 and limit > 0
[[nodiscard]] base::Result<LearningScores> learning_scores(const LearningCusumPlan& plan);

/// Evidence after every attempt, never below 0; begins with "has not learnt it".
struct LearningCusum {
  std::vector<double> evidence;
  std::optional<std::size_t> signal;  ///< first attempt at or above the limit, from 0
};

/// Errors: as learning_scores
/// Source: Biau, Porcher (2010), Stat. Med. 29, doi 10.1002/sim.3947
[[nodiscard]] base::Result<LearningCusum> learning_cusum(const std::vector<bool>& passed,
                                                         const LearningCusumPlan& plan);

/// Probability of a signal at or before each of the first `attempts` attempts of somebody whose
/// attempts fail with probability `failure_rate`, exact. Shape: attempts
///
/// Errors: as learning_scores, and kOutOfRange unless 0 <= failure_rate <= 1 and attempts is 1 to
///         1,000
[[nodiscard]] base::Result<std::vector<double>> learning_signal_probability(
    const LearningCusumPlan& plan, double failure_rate, std::size_t attempts);

}  // namespace driftbench::stats
