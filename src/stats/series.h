// Mean, standard deviation and quantile of a series of numbers.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <span>
#include <string>

namespace driftbench::stats {

/// A count as a number to compute with.
[[nodiscard]] constexpr double real(std::size_t count) {
  return static_cast<double>(count);
}

/// Reason why a statistic of too few values does not exist: "found 1 hole, expected at least 2".
[[nodiscard]] tl::unexpected<base::Error> too_few(std::size_t found, std::size_t expected,
                                                  const std::string& noun);

/// The number, unless it went beyond what a double can hold.
///
/// Errors: kOutOfRange when it is infinite or not a number
[[nodiscard]] base::Result<double> finite(double value);

/// Arithmetic mean. Contract: not empty.
///
/// Source: the mean, corrected by the mean of what is left (two passes): NIST StRD NumAcc1-4
[[nodiscard]] double mean(std::span<const double> values);

/// Sum of squared deviations from `centre`, corrected for a centre that is not quite the mean.
/// Exactly 0 when the values differ by rounding only. Contract: not empty.
///
/// Source: corrected two-pass algorithm, Chan, Golub, LeVeque (1983), Am. Stat. 37, 242
[[nodiscard]] double squared_deviations(std::span<const double> values, double centre);

/// Sample standard deviation, n - 1.
///
/// Errors: kInvalidArgument below two values
[[nodiscard]] base::Result<double> standard_deviation(std::span<const double> values);

/// Quantile of values in rising order, linear between neighbours.
/// Contract: not empty, 0 <= probability <= 1.
///
/// Source: Hyndman, Fan (1996), Am. Stat. 50, 361, definition 7
[[nodiscard]] double sorted_quantile(std::span<const double> rising, double probability);

}  // namespace driftbench::stats
