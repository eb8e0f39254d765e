// One-way analysis of variance: repeatability, between-operator and reproducibility standard
// deviation.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <span>
#include <vector>

namespace driftbench::stats {

/// Values by operator. Shape: operators x holes of each; operators without values do not count.
using Groups = std::vector<std::vector<double>>;

/// Analysis of variance and the components of ISO 5725-2 ("laboratory" = operator).
struct OneWay {
  std::size_t groups = 0;
  std::size_t n = 0;
  double mean = 0.0;  ///< of all values
  double ms_between = 0.0;
  double ms_within = 0.0;
  double repeatability_sd = 0.0;  ///< s_r: the same operator again
  double between_sd = 0.0;  ///< s_L: operators apart from one another; 0 when chance explains it
  double reproducibility_sd = 0.0;  ///< s_R = sqrt(s_r^2 + s_L^2): another operator
};

/// Pooled standard deviation within operators, s_r.
///
/// Errors: kInvalidArgument when no operator has two values
[[nodiscard]] base::Result<double> repeatability_sd(const Groups& groups);

/// Errors: kInvalidArgument below two operators, or when no operator has two values
/// Source: ISO 5725-2:1994, 7.4: s_L^2 = (s_d^2 - s_r^2) / n_bar, negative values set to 0
[[nodiscard]] base::Result<OneWay> one_way(const Groups& groups);

/// F statistic of the analysis and its upper tail.
struct FTest {
  double f = 0.0;
  double df1 = 0.0;
  double df2 = 0.0;
  double p = 0.0;
};

/// Errors: kInvalidArgument when the values do not scatter within operators
[[nodiscard]] base::Result<FTest> f_test(const OneWay& analysis);

}  // namespace driftbench::stats
