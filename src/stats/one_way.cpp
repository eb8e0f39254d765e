// Sums of squares about the operators' means, taken about the mean of all values first.
#include "stats/one_way.h"

#include "stats/distributions.h"
#include "stats/series.h"

#include <algorithm>
#include <cmath>

namespace driftbench::stats {
namespace {

struct Sums {
  std::size_t groups = 0;
  std::size_t n = 0;
  double squared_sizes = 0.0;
  double within = 0.0;
};

Sums sums_of(const Groups& groups) {
  Sums sums;
  for (const std::vector<double>& values : groups) {
    if (values.empty()) {
      continue;
    }
    ++sums.groups;
    sums.n += values.size();
    sums.squared_sizes += real(values.size()) * real(values.size());
    sums.within += squared_deviations(values, mean(values));
  }
  return sums;
}

tl::unexpected<base::Error> no_repeats() {
  return base::fail(base::ErrorCode::kInvalidArgument,
                    "found no operator with two holes, expected at least one");
}

}  // namespace

base::Result<double> repeatability_sd(const Groups& groups) {
  const Sums sums = sums_of(groups);
  if (sums.n <= sums.groups) {
    return no_repeats();
  }
  return finite(std::sqrt(sums.within / real(sums.n - sums.groups)));
}

base::Result<OneWay> one_way(const Groups& groups) {
  const Sums sums = sums_of(groups);
  if (sums.groups < 2) {
    return too_few(sums.groups, 2, "operator");
  }
  if (sums.n <= sums.groups) {
    return no_repeats();
  }
  std::vector<double> all;
  all.reserve(sums.n);
  for (const std::vector<double>& values : groups) {
    all.insert(all.end(), values.begin(), values.end());
  }
  OneWay result;
  result.groups = sums.groups;
  result.n = sums.n;
  result.mean = mean(all);
  double between = 0.0;
  for (const std::vector<double>& values : groups) {
    if (!values.empty()) {
      const double deviation = mean(values) - result.mean;
      between += real(values.size()) * deviation * deviation;
    }
  }
  // The ANOVA mean square between operators is what the standard calls s_d^2 times n_bar.
  const double freedom = real(sums.groups - 1);
  const double n_bar = (real(sums.n) - sums.squared_sizes / real(sums.n)) / freedom;
  result.ms_between = between / freedom;
  result.ms_within = sums.within / real(sums.n - sums.groups);
  const double between_variance = std::max((result.ms_between - result.ms_within) / n_bar, 0.0);
  result.repeatability_sd = std::sqrt(result.ms_within);
  result.between_sd = std::sqrt(between_variance);
  result.reproducibility_sd = std::sqrt(result.ms_within + between_variance);
  const base::Result<double> check = finite(result.reproducibility_sd);
  if (!check) {
    return tl::unexpected<base::Error>(check.error());
  }
  return result;
}

base::Result<FTest> f_test(const OneWay& analysis) {
  const base::Result<double> f = finite(analysis.ms_between / analysis.ms_within);
  if (!f) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found no scatter within operators, expected some");
  }
  FTest test{*f, real(analysis.groups - 1), real(analysis.n - analysis.groups), 0.0};
  test.p = f_upper_p(test.f, test.df1, test.df2);
  return test;
}

}  // namespace driftbench::stats
