// Calls functions of the layer stats for tests/statistics/compare.py: a line of words in, a line of
// numbers out.
#include "stats/bland_altman.h"
#include "stats/containing_radius.h"
#include "stats/distributions.h"
#include "stats/learning_curve.h"
#include "stats/one_way.h"
#include "stats/sample_size.h"

#include <fmt/format.h>

#include <iostream>
#include <sstream>
#include <string>
#include <vector>

namespace driftbench::stats {
namespace {

// A list is written as its length and its values.
std::vector<double> list(std::istringstream& words) {
  std::size_t n = 0;
  words >> n;
  std::vector<double> values(n);
  for (double& value : values) {
    words >> value;
  }
  return values;
}

double number(std::istringstream& words) {
  double value = 0.0;
  words >> value;
  return value;
}

template <std::size_t N>
std::vector<double> numbers(const base::Result<CurveFit<N>>& fit) {
  std::vector<double> all;
  if (fit) {
    all.assign(fit->parameters.begin(), fit->parameters.end());
    all.insert(all.end(), fit->standard_errors.begin(), fit->standard_errors.end());
    all.push_back(fit->residual_squares);
  }
  return all;
}

// Nothing when there is no value.
std::vector<double> answer(const std::string& name, std::istringstream& words) {
  if (name == "one_way") {
    Groups groups(static_cast<std::size_t>(number(words)));
    for (std::vector<double>& values : groups) {
      values = list(words);
    }
    const base::Result<OneWay> analysis = one_way(groups);
    const base::Result<FTest> test =
        analysis ? f_test(*analysis) : tl::unexpected(analysis.error());
    return test ? std::vector<double>{analysis->ms_between, analysis->ms_within, test->f, test->p}
                : std::vector<double>{};
  }
  if (name == "levelling" || name == "power" || name == "saturating") {
    const std::vector<double> x = list(words);
    const std::vector<double> y = list(words);
    return name == "levelling" ? numbers(fit_levelling(x, y))
           : name == "power"   ? numbers(fit_power(x, y))
                               : numbers(fit_saturating(x, y));
  }
  if (name == "agreement") {
    const std::vector<double> first = list(words);
    const std::vector<double> second = list(words);
    const Agreement a = agreement(first, second).value();
    return {a.bias, a.sd, a.limits.low, a.limits.high, a.bias_interval.low, a.limit_reach};
  }
  const double a = number(words);
  const double b = number(words);
  const double c = number(words);
  const double d = number(words);
  if (name == "t_quantile") {
    return {t_quantile(a, b)};
  }
  if (name == "t_p") {
    return {t_two_sided_p(a, b)};
  }
  if (name == "f_quantile") {
    return {f_quantile(a, b, c)};
  }
  if (name == "f_p") {
    return {f_upper_p(a, b, c)};
  }
  if (name == "nct_cdf") {
    return {noncentral_t_cdf(a, b, c)};
  }
  if (name == "paired_size" || name == "two_group_size") {
    const auto plan = name == "paired_size" ? paired_size : two_group_size;
    const PlannedSize size = plan(a, b, {c, d}).value();
    return {size.normal, real(size.exact)};
  }
  return {};
}

int run() {
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream words(line);
    std::string name;
    words >> name;
    for (const double value : answer(name, words)) {
      std::cout << fmt::format("{} ", value);
    }
    std::cout << "\n";
  }
  return 0;
}

}  // namespace
}  // namespace driftbench::stats

int main() {
  return driftbench::stats::run();
}
