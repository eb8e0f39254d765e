// The t test of differences.
#include "stats/paired.h"

#include "base/contract.h"
#include "stats/distributions.h"
#include "stats/series.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace driftbench::stats {
namespace {

// Means of a few numbers carry errors of some units in the last place.
constexpr double kRounding = 1e-13;

}  // namespace

std::vector<double> paired_differences(std::span<const double> first,
                                       std::span<const double> second) {
  DRIFTBENCH_EXPECTS(first.size() == second.size());
  std::vector<double> differences;
  differences.reserve(first.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    const double difference = first[i] - second[i];
    const double size = std::max(std::abs(first[i]), std::abs(second[i]));
    differences.push_back(std::abs(difference) <= kRounding * size ? 0.0 : difference);
  }
  return differences;
}

base::Result<PairedT> paired_t(std::span<const double> differences, double level) {
  DRIFTBENCH_EXPECTS(level > 0.0 && level < 1.0);
  if (differences.size() < 2) {
    return too_few(differences.size(), 2, "pair");
  }
  PairedT result;
  const double n = real(differences.size());
  result.mean = mean(differences);
  result.sd = std::sqrt(squared_deviations(differences, result.mean) / (n - 1.0));
  if (!(result.sd > kRounding * std::abs(result.mean))) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found the same difference in all pairs, expected them to scatter");
  }
  const double error = result.sd / std::sqrt(n);
  result.df = n - 1.0;
  const double reach = t_quantile(0.5 * (1.0 + level), result.df) * error;
  result.interval = {result.mean - reach, result.mean + reach};
  result.t = result.mean / error;
  result.p = t_two_sided_p(result.t, result.df);
  const base::Result<double> check = finite(reach);
  if (!check) {
    return tl::unexpected<base::Error>(check.error());
  }
  return result;
}

}  // namespace driftbench::stats
