// Two-pass sums, so that large offsets cost no digits.
#include "stats/series.h"

#include "base/contract.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::stats {
namespace {

// Values closer together than a few units in the last place are the same value, rounded.
constexpr double kRounding = 4e-15;

bool is_constant(std::span<const double> values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low <= kRounding * std::max(std::abs(*low), std::abs(*high));
}

}  // namespace

tl::unexpected<base::Error> too_few(std::size_t found, std::size_t expected,
                                    const std::string& noun) {
  return base::fail(base::ErrorCode::kInvalidArgument,
                    fmt::format("found {} {}{}, expected at least {}", found, noun,
                                found == 1 ? "" : "s", expected));
}

base::Result<double> finite(double value) {
  if (!std::isfinite(value)) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      "found a value that no number can hold, expected a finite one");
  }
  return value;
}

double mean(std::span<const double> values) {
  DRIFTBENCH_EXPECTS(!values.empty());
  double sum = 0.0;
  for (const double value : values) {
    sum += value;
  }
  const double first = sum / real(values.size());
  double left = 0.0;
  for (const double value : values) {
    left += value - first;
  }
  return first + left / real(values.size());
}

double squared_deviations(std::span<const double> values, double centre) {
  DRIFTBENCH_EXPECTS(!values.empty());
  if (is_constant(values)) {
    return 0.0;
  }
  double squares = 0.0;
  double left = 0.0;
  for (const double value : values) {
    const double deviation = value - centre;
    squares += deviation * deviation;
    left += deviation;
  }
  return std::max(squares - left * left / real(values.size()), 0.0);
}

base::Result<double> standard_deviation(std::span<const double> values) {
  if (values.size() < 2) {
    return too_few(values.size(), 2, "value");
  }
  return std::sqrt(squared_deviations(values, mean(values)) / real(values.size() - 1));
}

double sorted_quantile(std::span<const double> rising, double probability) {
  DRIFTBENCH_EXPECTS(!rising.empty() && probability >= 0.0 && probability <= 1.0);
  const double place = probability * real(rising.size() - 1);
  const auto below = static_cast<std::size_t>(std::floor(place));
  const std::size_t above = std::min(below + 1, rising.size() - 1);
  return rising[below] + (place - real(below)) * (rising[above] - rising[below]);
}

}  // namespace driftbench::stats
