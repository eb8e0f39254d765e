// Curve fits, cumulative sums and sample sizes against certified and published values.
#include "stats/cusum.h"
#include "stats/learning_curve.h"
#include "stats/sample_size.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace driftbench::stats {
namespace {

// Tolerance of certified values: they have eleven digits.
void expect_certified(double found, double certified) {
  EXPECT_NEAR(found, certified, 2e-9 * std::abs(certified));
}

// Source: NIST StRD, non-linear regression, DanWood: y = b1 x^b2.
TEST(LearningReference, NistDanWood) {
  const std::array<double, 6> x{1.309, 1.471, 1.490, 1.565, 1.611, 1.680};
  const std::array<double, 6> y{2.138, 3.421, 3.597, 4.340, 4.882, 5.660};
  const CurveFit<2> fit = fit_power(x, y).value();
  expect_certified(fit.parameters[0], 7.6886226176e-01);
  expect_certified(fit.parameters[1], 3.8604055871e+00);
  expect_certified(fit.standard_errors[0], 1.8281973860e-02);
  expect_certified(fit.standard_errors[1], 5.1726610913e-02);
  expect_certified(fit.residual_squares, 4.3173084083e-03);
}

// Source: NIST StRD, non-linear regression, Misra1a: y = b1 (1 - exp(-b2 x)).
TEST(LearningReference, NistMisra1a) {
  const std::array<double, 14> x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                                 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
  const std::array<double, 14> y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                                 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
  const CurveFit<2> fit = fit_saturating(x, y).value();
  expect_certified(fit.parameters[0], 2.3894212918e+02);
  expect_certified(fit.parameters[1], 5.5015643181e-04);
  expect_certified(fit.standard_errors[0], 2.7070075241e+00);
  expect_certified(fit.standard_errors[1], 7.2668688436e-06);
  expect_certified(fit.residual_squares, 1.2455138894e-01);
}

// Source: NIST StRD, non-linear regression, BoxBOD (higher difficulty), the same model.
TEST(LearningReference, NistBoxBod) {
  const std::array<double, 6> x{1, 2, 3, 5, 7, 10};
  const std::array<double, 6> y{109, 149, 149, 191, 213, 224};
  const CurveFit<2> fit = fit_saturating(x, y).value();
  expect_certified(fit.parameters[0], 2.1380940889e+02);
  expect_certified(fit.parameters[1], 5.4723748542e-01);
  expect_certified(fit.standard_errors[0], 1.2354515176e+01);
  expect_certified(fit.standard_errors[1], 1.0455993237e-01);
  expect_certified(fit.residual_squares, 1.1680088766e+03);
}

// Source: Lucas, Crosier (1982), Technometrics 24, 199: h = 5, k = 0.5, with and without a head
// start of h / 2; sums printed to one digit.
TEST(LearningReference, LucasCrosierHeadStart) {
  const std::array<double, 7> x{.8, 1.9, 1.4, 2.0, 1.1, .7, 2.6};
  const std::array<double, 7> plain_sums{.3, 1.7, 2.6, 4.1, 4.7, 4.9, 7.0};
  const std::array<double, 7> head_start_sums{2.8, 4.2, 5.1, 6.6, 7.2, 7.4, 9.5};
  const Cusum plain = cusum(x, {0.0, 0.5, 5.0, 0.0});
  const Cusum started = cusum(x, {0.0, 0.5, 5.0, 2.5});
  for (std::size_t i = 0; i < x.size(); ++i) {
    EXPECT_NEAR(plain.upper[i], plain_sums[i], 1e-12);
    EXPECT_NEAR(started.upper[i], head_start_sums[i], 1e-12);
  }
  EXPECT_EQ(plain.first_upper_signal, 6U);
  EXPECT_EQ(started.first_upper_signal, 2U);
}

// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, data as remembered: target
// 325, k = 0.3175, h = 4.1959; sums printed to two digits.
TEST(LearningReference, NistHandbookCusum) {
  const std::array<double, 20> x{324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125,
                                 324.525, 325.225, 324.600, 324.625, 325.150, 328.325, 327.250,
                                 327.825, 328.500, 326.675, 327.775, 326.875, 328.350};
  const Cusum sums = cusum(x, {325.0, 0.3175, 4.1959, 0.0});
  EXPECT_NEAR(sums.upper[4], 0.03, 5.1e-3);
  EXPECT_NEAR(sums.upper[12], 3.01, 5.1e-3);
  EXPECT_NEAR(sums.upper[13], 4.94, 5.1e-3);
  EXPECT_NEAR(sums.upper[19], 19.04, 5.1e-3);
  EXPECT_NEAR(sums.lower[7], 0.72, 5.1e-3);
  EXPECT_EQ(sums.first_upper_signal, 13U);
  EXPECT_FALSE(sums.first_lower_signal.has_value());
}

// Source: Biau, Porcher (2010), Stat. Med. 29, for the scores (logarithms of likelihood ratios);
// the shares by simulation of 0.40 and 0.15 failures, printed to two digits.
TEST(LearningReference, LearningCusumWithShippedLimits) {
  const LearningScores scores = learning_scores({0.40, 0.15, 2.5}).value();
  EXPECT_NEAR(scores.pass, 0.348, 5e-4);
  EXPECT_NEAR(scores.fail, -0.981, 5e-4);

  struct Row {
    double limit;
    std::size_t cap;
    double unready, ready;
  };

  // Simulated shares are good to about one in the last digit.
  const std::array<Row, 3> rows{
      {{2.0, 12, 0.17, 0.75}, {2.5, 20, 0.14, 0.86}, {2.5, 30, 0.24, 0.96}}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.cap);
    const LearningCusumPlan plan{0.40, 0.15, row.limit};
    EXPECT_NEAR(learning_signal_probability(plan, 0.40, row.cap).value().back(), row.unready,
                0.011);
    EXPECT_NEAR(learning_signal_probability(plan, 0.15, row.cap).value().back(), row.ready, 0.011);
  }
}

// Source: Cohen (1988), Statistical Power Analysis for the Behavioral Sciences, 2nd ed., table
// 2.4.1, alpha = .05 two-sided: n in each group.
TEST(LearningReference, CohensGroupSizes) {
  EXPECT_EQ(two_group_size(0.20, 1.0, {0.05, 0.80}).value().exact, 394U);  // 393 there, rounded
  EXPECT_EQ(two_group_size(0.50, 1.0, {0.05, 0.80}).value().exact, 64U);
  EXPECT_EQ(two_group_size(0.80, 1.0, {0.05, 0.80}).value().exact, 26U);
  EXPECT_EQ(two_group_size(0.50, 1.0, {0.05, 0.90}).value().exact, 86U);  // 85 there, rounded
}

// Source: R 4.2.2, power.t.test(delta = .5, sd = 1, power = .8, type = "paired"): n = 33.367.
TEST(LearningReference, PairedSizeOfHalfASpread) {
  EXPECT_EQ(paired_size(0.5, 1.0).value().exact, 34U);
}

// Worked values for a difference of 0.5 mm, 0.4 mm between operators in the effect, 0.8 mm
// free-hand and 0.4 mm guided: z formula, then exact t (SciPy 1.10.1, nct: at 3 holes 20 pairs have
// a power of 0.9007).
TEST(LearningReference, OperatorsByHolesPerTechnique) {
  struct Row {
    std::size_t holes;
    double sd, normal;
    std::size_t exact_80, exact_90;
  };

  const std::array<Row, 4> rows{{{1, 0.98, 30.1, 33, 43},
                                 {3, 0.65, 13.4, 16, 20},
                                 {5, 0.57, 10.0, 13, 16},
                                 {8, 0.51, 8.2, 11, 14}}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.holes);
    const double sd = paired_difference_sd(0.4, 0.8, 0.4, row.holes);
    EXPECT_NEAR(sd, row.sd, 5.1e-3);
    const PlannedSize size = paired_size(0.5, sd, {0.05, 0.80}).value();
    EXPECT_NEAR(size.normal, row.normal, 0.051);
    EXPECT_EQ(size.exact, row.exact_80);
    EXPECT_EQ(paired_size(0.5, sd, {0.05, 0.90}).value().exact, row.exact_90);
  }
  // One operator, matched sites.
  const double sd = std::sqrt(0.8 * 0.8 + 0.4 * 0.4);
  EXPECT_EQ(paired_size(0.5, sd, {0.05, 0.80}).value().exact, 28U);
  EXPECT_EQ(paired_size(0.5, sd, {0.05, 0.90}).value().exact, 36U);
}

// Worked values: n = 1 + (2.80 / ln R)^2 for one direction, half of it in the plane, even numbers.
TEST(LearningReference, HolesForARatioOfSpreads) {
  EXPECT_EQ(spread_size(2.0, 1).value(), 18U);
  EXPECT_EQ(spread_size(1.5, 1).value(), 49U);
  EXPECT_EQ(even(spread_size(2.0, 2).value()), 10U);
  EXPECT_EQ(even(spread_size(1.5, 2).value()), 26U);
}

}  // namespace
}  // namespace driftbench::stats
