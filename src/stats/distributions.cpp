// The only file that knows Boost.Math; double arithmetic throughout, failures as NaN, no
// exceptions.
#include "stats/distributions.h"

#include "base/contract.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <cmath>

namespace driftbench::stats {
namespace {

namespace policies = boost::math::policies;

// promote_double<false>: `long double` differs between machines.
using Policy = policies::policy<
    policies::promote_double<false>, policies::domain_error<policies::ignore_error>,
    policies::pole_error<policies::ignore_error>, policies::overflow_error<policies::ignore_error>,
    policies::evaluation_error<policies::ignore_error>,
    policies::rounding_error<policies::ignore_error>,
    policies::indeterminate_result_error<policies::ignore_error>>;

bool is_probability(double value) {
  return value > 0.0 && value < 1.0;
}

}  // namespace

double normal_cdf(double z) {
  return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

double normal_quantile(double probability) {
  DRIFTBENCH_EXPECTS(is_probability(probability));
  return boost::math::quantile(boost::math::normal_distribution<double, Policy>(), probability);
}

double t_two_sided_p(double t, double df) {
  DRIFTBENCH_EXPECTS(df > 0.0);
  const boost::math::students_t_distribution<double, Policy> distribution(df);
  return 2.0 * boost::math::cdf(distribution, -std::abs(t));
}

double t_quantile(double probability, double df) {
  DRIFTBENCH_EXPECTS(is_probability(probability) && df > 0.0);
  return boost::math::quantile(boost::math::students_t_distribution<double, Policy>(df),
                               probability);
}

double noncentral_t_cdf(double t, double df, double noncentrality) {
  DRIFTBENCH_EXPECTS(df > 0.0);
  return boost::math::cdf(
      boost::math::non_central_t_distribution<double, Policy>(df, noncentrality), t);
}

double f_upper_p(double f, double df1, double df2) {
  DRIFTBENCH_EXPECTS(f >= 0.0 && df1 > 0.0 && df2 > 0.0);
  const boost::math::fisher_f_distribution<double, Policy> distribution(df1, df2);
  return boost::math::cdf(boost::math::complement(distribution, f));
}

double f_quantile(double probability, double df1, double df2) {
  DRIFTBENCH_EXPECTS(is_probability(probability) && df1 > 0.0 && df2 > 0.0);
  return boost::math::quantile(boost::math::fisher_f_distribution<double, Policy>(df1, df2),
                               probability);
}

double chi_squared_quantile(double probability, double df) {
  DRIFTBENCH_EXPECTS(is_probability(probability) && df > 0.0);
  return boost::math::quantile(boost::math::chi_squared_distribution<double, Policy>(df),
                               probability);
}

}  // namespace driftbench::stats
