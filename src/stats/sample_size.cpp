// Normal formulas, then a search for the smallest number whose exact power is enough.
#include "stats/sample_size.h"

#include "base/contract.h"
#include "stats/distributions.h"
#include "stats/series.h"

#include <algorithm>
#include <cmath>

namespace driftbench::stats {
namespace {

constexpr std::size_t kMaxSize = 100'000;

bool makes_sense(const Demand& demand) {
  return demand.alpha > 0.0 && demand.alpha < 1.0 && demand.power > demand.alpha &&
         demand.power < 1.0;
}

double z_sum(const Demand& demand) {
  return normal_quantile(1.0 - 0.5 * demand.alpha) + normal_quantile(demand.power);
}

// Power of a two-sided t test.
double t_power(double df, double noncentrality, double alpha) {
  const double critical = t_quantile(1.0 - 0.5 * alpha, df);
  return 1.0 - noncentral_t_cdf(critical, df, noncentrality) +
         noncentral_t_cdf(-critical, df, noncentrality);
}

using Power = double (*)(std::size_t, double, double, double);

base::Result<PlannedSize> planned(double per_pair, double difference, double sd,
                                  const Demand& demand, Power power) {
  if (!(difference > 0.0) || !(sd > 0.0) || !makes_sense(demand)) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      "found a difference, spread, alpha or power out of range, expected positive "
                      "ones with alpha < power < 1");
  }
  const double ratio = z_sum(demand) * sd / difference;
  PlannedSize size;
  size.normal = per_pair * ratio * ratio;
  if (!(size.normal < static_cast<double>(kMaxSize))) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      "found a difference too small for its spread, expected one that 100,000 "
                      "operators can show");
  }
  // Power grows with n; the normal formula is a little too small.
  const auto enough = [&](std::size_t n) {
    return power(n, difference, sd, demand.alpha) >= demand.power;
  };
  size.exact = std::max<std::size_t>(2, static_cast<std::size_t>(size.normal));
  while (size.exact > 2 && enough(size.exact - 1)) {
    --size.exact;
  }
  while (!enough(size.exact)) {
    ++size.exact;
  }
  return size;
}

}  // namespace

double paired_difference_sd(double sd_effect, double sd_first, double sd_second,
                            std::size_t holes_each) {
  DRIFTBENCH_EXPECTS(holes_each > 0);
  return std::sqrt(sd_effect * sd_effect +
                   (sd_first * sd_first + sd_second * sd_second) / real(holes_each));
}

double paired_power(std::size_t n, double difference, double sd, double alpha) {
  DRIFTBENCH_EXPECTS(n >= 2 && sd > 0.0 && alpha > 0.0 && alpha < 1.0);
  return t_power(real(n - 1), std::sqrt(real(n)) * difference / sd, alpha);
}

double two_group_power(std::size_t n_each, double difference, double sd, double alpha) {
  DRIFTBENCH_EXPECTS(n_each >= 2 && sd > 0.0 && alpha > 0.0 && alpha < 1.0);
  return t_power(2.0 * real(n_each - 1), std::sqrt(0.5 * real(n_each)) * difference / sd, alpha);
}

base::Result<PlannedSize> paired_size(double difference, double sd, const Demand& demand) {
  return planned(1.0, difference, sd, demand, paired_power);
}

base::Result<PlannedSize> two_group_size(double difference, double sd, const Demand& demand) {
  return planned(2.0, difference, sd, demand, two_group_power);
}

base::Result<std::size_t> spread_size(double ratio, std::size_t axes, const Demand& demand) {
  if (!(ratio > 0.0) || ratio == 1.0 || axes < 1 || axes > 2 || !makes_sense(demand)) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      "found a ratio, number of axes, alpha or power out of range, expected a "
                      "positive ratio other than 1 and 1 or 2 axes");
  }
  const double part = z_sum(demand) / std::log(ratio);
  const double size = std::ceil(1.0 + part * part / real(axes));
  if (!(size < static_cast<double>(kMaxSize))) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      "found a ratio too close to 1, expected one that 100,000 holes can show");
  }
  return std::max<std::size_t>(2, static_cast<std::size_t>(size));
}

}  // namespace driftbench::stats
