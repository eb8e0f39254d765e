// Laws of curves, cumulative sums, plans and allocation.
#include "base/random.h"
#include "math/random_normal.h"
#include "stats/allocation.h"
#include "stats/cusum.h"
#include "stats/learning_curve.h"
#include "stats/sample_size.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::stats {
namespace {

std::vector<double> attempts(int n) {
  std::vector<double> x;
  for (int i = 1; i <= n; ++i) {
    x.push_back(i);
  }
  return x;
}

TEST(LearningCurve, FindsTheCurveThatMadeTheValues) {
  const std::vector<double> x = attempts(12);
  for (const double rate : {0.1, 0.4, 1.5}) {
    for (const double gain : {1.2, -0.8}) {
      std::vector<double> y;
      for (const double at : x) {
        y.push_back(0.6 + gain * std::exp(-rate * (at - 1.0)));
      }
      const CurveFit<3> fit = fit_levelling(x, y).value();
      EXPECT_NEAR(fit.parameters[0], 0.6, 1e-8);
      EXPECT_NEAR(fit.parameters[1], gain, 1e-8);
      EXPECT_NEAR(fit.parameters[2], rate, 1e-8);
      EXPECT_NEAR(fit.residual_squares, 0.0, 1e-15);
    }
  }
}

// At the least sum of squares no small change of a parameter makes it less.
TEST(LearningCurve, NoNeighbourFitsBetter) {
  const std::vector<double> x = attempts(20);
  base::Rng rng(8);
  std::vector<double> y;
  for (const double at : x) {
    y.push_back(math::normal(rng, 0.5 + 1.5 * std::exp(-0.3 * (at - 1.0)), 0.15));
  }
  const CurveFit<3> fit = fit_levelling(x, y).value();
  const auto squares = [&](const std::array<double, 3>& p) {
    double sum = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
      const double left = y[i] - p[0] - p[1] * std::exp(-p[2] * (x[i] - 1.0));
      sum += left * left;
    }
    return sum;
  };
  EXPECT_NEAR(squares(fit.parameters), fit.residual_squares, 1e-13);
  for (std::size_t j = 0; j < 3; ++j) {
    EXPECT_GT(fit.standard_errors[j], 0.0);
    for (const double change : {-1e-4, 1e-4}) {
      std::array<double, 3> other = fit.parameters;
      other[j] += change;
      EXPECT_GT(squares(other), fit.residual_squares);
    }
  }
}

TEST(LearningCurve, ScaleAndOffsetOfTheValuesPassThrough) {
  const std::vector<double> x = attempts(10);
  const std::vector<double> y{2.1, 1.4, 1.3, 0.9, 1.0, 0.7, 0.8, 0.6, 0.7, 0.65};
  std::vector<double> other;
  for (const double value : y) {
    other.push_back(5.0 + 10.0 * value);
  }
  const CurveFit<3> a = fit_levelling(x, y).value();
  const CurveFit<3> b = fit_levelling(x, other).value();
  EXPECT_NEAR(b.parameters[0], 5.0 + 10.0 * a.parameters[0], 1e-7);
  EXPECT_NEAR(b.parameters[1], 10.0 * a.parameters[1], 1e-7);
  EXPECT_NEAR(b.parameters[2], a.parameters[2], 1e-8);
  EXPECT_NEAR(b.standard_errors[2], a.standard_errors[2], 1e-8);
}

TEST(LearningCurve, ValuesThatDoNotBendSayWhy) {
  const std::vector<double> x = attempts(8);
  const std::vector<double> flat(8, 0.7);
  EXPECT_FALSE(fit_levelling(x, flat).has_value());
  EXPECT_FALSE(fit_levelling(x, x).has_value());
  EXPECT_FALSE(fit_levelling(std::vector<double>(8, 2.0), x).has_value());
  EXPECT_EQ(fit_levelling(attempts(3), attempts(3)).error().message,
            "found 3 values, expected at least 4");
  EXPECT_FALSE(fit_power(std::vector<double>{0.0, 1.0, 2.0}, attempts(3)).has_value());
  EXPECT_FALSE(fit_saturating({}, {}).has_value());
}

TEST(LearningCurve, PowerLawFindsItsExponent) {
  const std::vector<double> x = attempts(9);
  std::vector<double> y;
  for (const double at : x) {
    y.push_back(1.8 * std::pow(at, -0.37));
  }
  const CurveFit<2> fit = fit_power(x, y).value();
  EXPECT_NEAR(fit.parameters[0], 1.8, 1e-9);
  EXPECT_NEAR(fit.parameters[1], -0.37, 1e-9);
}

TEST(Cusum, MirroredValuesExchangeTheSums) {
  const std::array<double, 6> x{0.4, -1.2, 2.0, 0.1, -0.7, 1.9};
  std::array<double, 6> mirrored{};
  std::transform(x.begin(), x.end(), mirrored.begin(), [](double value) { return 4.0 - value; });
  const Cusum a = cusum(x, {2.0, 0.25, 1.5, 0.0});
  const Cusum b = cusum(mirrored, {2.0, 0.25, 1.5, 0.0});
  for (std::size_t i = 0; i < x.size(); ++i) {
    EXPECT_NEAR(a.upper[i], b.lower[i], 1e-14);
    EXPECT_NEAR(a.lower[i], b.upper[i], 1e-14);
  }
}

TEST(LearningCusum, PassesRaiseFailuresLowerNeverBelowZero) {
  const LearningCusum sum =
      learning_cusum({false, false, true, true, true, true, true, true, true, true}, {}).value();
  EXPECT_EQ(sum.evidence[1], 0.0);
  // Eight passes of 0.348 make 2.79: the signal comes with the eighth.
  ASSERT_TRUE(sum.signal.has_value());
  EXPECT_EQ(*sum.signal, 9U);
  EXPECT_FALSE(learning_cusum({true, true, false, true}, {}).value().signal.has_value());
  EXPECT_FALSE(learning_cusum({}, {}).value().signal.has_value());
  EXPECT_FALSE(learning_cusum({true}, {0.15, 0.40, 2.5}).has_value());
}

TEST(LearningCusum, ExactProbabilitiesAgreeWithDrawing) {
  const LearningCusumPlan plan;
  const std::vector<double> exact = learning_signal_probability(plan, 0.25, 20).value();
  base::Rng rng(4);
  constexpr int kRounds = 20000;
  int signals = 0;
  for (int round = 0; round < kRounds; ++round) {
    std::vector<bool> passed;
    for (int i = 0; i < 20; ++i) {
      passed.push_back(rng.uniform01() >= 0.25);
    }
    signals += learning_cusum(passed, plan).value().signal.has_value() ? 1 : 0;
  }
  // Standard error 0.0035.
  EXPECT_NEAR(static_cast<double>(signals) / kRounds, exact.back(), 0.012);
  EXPECT_TRUE(std::is_sorted(exact.begin(), exact.end()));
  EXPECT_EQ(learning_signal_probability(plan, 0.0, 8).value().back(), 1.0);
  EXPECT_EQ(learning_signal_probability(plan, 1.0, 50).value().back(), 0.0);
  EXPECT_FALSE(learning_signal_probability(plan, 1.5, 8).has_value());
}

TEST(SampleSize, IsTheSmallestWithEnoughPower) {
  for (const double d : {0.3, 0.5, 0.8, 1.5, 4.0}) {
    const PlannedSize pairs = paired_size(d, 1.0).value();
    EXPECT_GE(paired_power(pairs.exact, d, 1.0, 0.05), 0.80);
    EXPECT_GE(static_cast<double>(pairs.exact), pairs.normal);
    if (pairs.exact > 2) {
      EXPECT_LT(paired_power(pairs.exact - 1, d, 1.0, 0.05), 0.80);
    }
    const PlannedSize groups = two_group_size(d, 1.0).value();
    EXPECT_GE(two_group_power(groups.exact, d, 1.0, 0.05), 0.80);
    EXPECT_GE(groups.exact, pairs.exact);
  }
}

// Without a difference a test finds one as often as alpha says.
TEST(SampleSize, PowerOfNothingIsAlpha) {
  EXPECT_NEAR(paired_power(9, 0.0, 1.0, 0.05), 0.05, 1e-10);
  EXPECT_NEAR(two_group_power(9, 0.0, 1.0, 0.01), 0.01, 1e-10);
}

TEST(SampleSize, NonsenseIsRefused) {
  EXPECT_FALSE(paired_size(0.0, 1.0).has_value());
  EXPECT_FALSE(paired_size(0.5, -1.0).has_value());
  EXPECT_FALSE(paired_size(0.5, 1.0, {0.05, 0.01}).has_value());
  EXPECT_FALSE(paired_size(1e-9, 1.0).has_value());
  EXPECT_FALSE(two_group_size(std::nan(""), 1.0).has_value());
  EXPECT_FALSE(spread_size(1.0, 1).has_value());
  EXPECT_FALSE(spread_size(2.0, 3).has_value());
  EXPECT_EQ(spread_size(2.0, 1).value(), spread_size(0.5, 1).value());
}

TEST(Allocation, EveryWholeBlockIsBalanced) {
  const std::array<std::size_t, 1> four{4};
  const std::vector<int> arms = permuted_blocks(40, four, 7).value();
  ASSERT_EQ(arms.size(), 40U);
  for (std::size_t block = 0; block < 40; block += 4) {
    EXPECT_EQ(std::count(arms.begin() + static_cast<std::ptrdiff_t>(block),
                         arms.begin() + static_cast<std::ptrdiff_t>(block + 4), 1),
              2);
  }
}

TEST(Allocation, SeedDecidesAndALongerListKeepsItsBeginning) {
  const std::array<std::size_t, 2> sizes{2, 4};
  const std::vector<int> a = permuted_blocks(30, sizes, 5).value();
  EXPECT_EQ(a, permuted_blocks(30, sizes, 5).value());
  EXPECT_NE(a, permuted_blocks(30, sizes, 6).value());
  const std::vector<int> longer = permuted_blocks(50, sizes, 5).value();
  EXPECT_TRUE(std::equal(a.begin(), a.end(), longer.begin()));
  // Never more than half the largest block apart.
  int difference = 0;
  for (const int arm : longer) {
    difference += arm == 0 ? 1 : -1;
    EXPECT_LE(std::abs(difference), 2);
  }
}

// All six orders of a block of four are as frequent: 6,000 blocks, standard deviation 29.
TEST(Allocation, AllOrdersOfABlockAreAsFrequent) {
  const std::array<std::size_t, 1> four{4};
  const std::vector<int> arms = permuted_blocks(24000, four, 99).value();
  std::array<int, 16> counts{};
  for (std::size_t i = 0; i < arms.size(); i += 4) {
    ++counts[static_cast<std::size_t>(8 * arms[i] + 4 * arms[i + 1] + 2 * arms[i + 2] +
                                      arms[i + 3])];
  }
  for (const std::size_t order : {3U, 5U, 6U, 9U, 10U, 12U}) {
    EXPECT_NEAR(counts[order], 1000, 5 * 29) << order;
  }
}

TEST(Allocation, OddBlocksAreRefused) {
  const std::array<std::size_t, 2> odd{4, 3};
  EXPECT_NE(permuted_blocks(8, odd, 1).error().message.find("found a block of 3"),
            std::string::npos);
  EXPECT_FALSE(permuted_blocks(8, {}, 1).has_value());
}

}  // namespace
}  // namespace driftbench::stats
