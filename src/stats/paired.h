// Two techniques of the same operators: mean difference with its interval, and Student's t.
#pragma once

#include "base/result.h"

#include <span>
#include <vector>

namespace driftbench::stats {

/// first - second of every pair; a difference that is rounding only is exactly 0.
/// Contract: equal lengths.
[[nodiscard]] std::vector<double> paired_differences(std::span<const double> first,
                                                     std::span<const double> second);

struct Interval {
  double low = 0.0;
  double high = 0.0;
};

/// Student's t of differences against 0, with the interval of their mean.
struct PairedT {
  double mean = 0.0;
  double sd = 0.0;
  Interval interval;
  double t = 0.0;
  double df = 0.0;
  double p = 0.0;  ///< two-sided
};

/// Errors: kInvalidArgument below two differences, or when all differences are the same
/// Source: Student (1908), Biometrika 6, 1
[[nodiscard]] base::Result<PairedT> paired_t(std::span<const double> differences, double level);

}  // namespace driftbench::stats
