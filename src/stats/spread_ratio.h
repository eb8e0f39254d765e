// Ratio of the spreads of two techniques, with an interval from resampling whole operators.
#pragma once

#include "base/result.h"
#include "math/vec.h"
#include "stats/paired.h"

#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::stats {

/// Holes of one operator by either technique. For a measure of one direction y is 0.
struct OperatorHoles {
  std::vector<math::Vec2> first;
  std::vector<math::Vec2> second;
};

/// Spread of all first holes over spread of all second holes.
///
/// Errors: kInvalidArgument when a technique has fewer than two holes or the second no spread
[[nodiscard]] base::Result<double> spread_ratio(std::span<const OperatorHoles> operators);

/// How the interval is resampled.
struct Bootstrap {
  int rounds = 10'000;
  std::uint64_t seed = 5725;  ///< fixed, so that the same holes give the same interval
  double level = 0.95;
};

/// Percentile interval over operators drawn with replacement, each with all their holes.
///
/// Errors: kInvalidArgument below two operators, or when more than one resample in twenty has no
///         ratio (own assumption)
/// Source: Efron, Tibshirani (1993), An Introduction to the Bootstrap, chapters 8 and 13
[[nodiscard]] base::Result<Interval> spread_ratio_interval(std::span<const OperatorHoles> operators,
                                                           const Bootstrap& bootstrap = {});

}  // namespace driftbench::stats
