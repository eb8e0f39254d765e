// Limits of agreement.
#include "stats/bland_altman.h"

#include "base/contract.h"
#include "stats/distributions.h"
#include "stats/series.h"

#include <cmath>
#include <vector>

namespace driftbench::stats {
namespace {

constexpr double kUpperTail = 0.975;

}  // namespace

base::Result<Agreement> agreement(std::span<const double> first, std::span<const double> second) {
  return agreement(first, second, normal_quantile(kUpperTail));
}

base::Result<Agreement> agreement(std::span<const double> first, std::span<const double> second,
                                  double factor) {
  DRIFTBENCH_EXPECTS(first.size() == second.size() && factor > 0.0);
  if (first.size() < 2) {
    return too_few(first.size(), 2, "pair");
  }
  const std::vector<double> differences = paired_differences(first, second);
  Agreement result;
  result.n = differences.size();
  const double n = real(result.n);
  result.bias = mean(differences);
  result.sd = std::sqrt(squared_deviations(differences, result.bias) / (n - 1.0));
  const base::Result<double> check = finite(result.sd);
  if (!check) {
    return tl::unexpected<base::Error>(check.error());
  }
  result.limits = {result.bias - factor * result.sd, result.bias + factor * result.sd};
  const double t = t_quantile(kUpperTail, n - 1.0);
  const double reach = t * result.sd / std::sqrt(n);
  result.bias_interval = {result.bias - reach, result.bias + reach};
  result.limit_reach = t * result.sd * std::sqrt(1.0 / n + factor * factor / (2.0 * (n - 1.0)));
  return result;
}

}  // namespace driftbench::stats
