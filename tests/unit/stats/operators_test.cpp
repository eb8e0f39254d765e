// Laws of the analyses that know operators: ISO 5725, pairs, ranks, spread ratio, agreement.
#include "base/random.h"
#include "math/random_normal.h"
#include "stats/bland_altman.h"
#include "stats/one_way.h"
#include "stats/paired.h"
#include "stats/series.h"
#include "stats/spread_ratio.h"
#include "stats/wilcoxon.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::stats {
namespace {

using math::Vec2;

TEST(Series, EqualValuesHaveNoSpread) {
  const std::vector<double> values(7, 0.1);
  EXPECT_EQ(standard_deviation(values).value(), 0.0);
  EXPECT_NEAR(mean(values), 0.1, 1e-17);
  EXPECT_FALSE(standard_deviation(std::vector<double>{1.0}).has_value());
}

TEST(Series, QuantilesAreLinearBetweenValues) {
  const std::vector<double> values{1.0, 2.0, 4.0, 8.0};
  EXPECT_EQ(sorted_quantile(values, 0.0), 1.0);
  EXPECT_EQ(sorted_quantile(values, 1.0), 8.0);
  EXPECT_EQ(sorted_quantile(values, 0.5), 3.0);
  EXPECT_NEAR(sorted_quantile(values, 0.9), 4.0 + 0.7 * 4.0, 1e-14);
}

TEST(OneWay, BalancedGroupsFollowFromTheDefinition) {
  // Means 1 and 5, variance 2 within either: MS between = 2 (2^2 + 2^2) = 16, s_L^2 = (16 - 2) / 2.
  const OneWay analysis = one_way({{0.0, 2.0}, {4.0, 6.0}}).value();
  EXPECT_NEAR(analysis.ms_within, 2.0, 1e-15);
  EXPECT_NEAR(analysis.ms_between, 16.0, 1e-14);
  EXPECT_NEAR(analysis.between_sd, std::sqrt(7.0), 1e-15);
  EXPECT_NEAR(analysis.reproducibility_sd, 3.0, 1e-15);
}

TEST(OneWay, OrderShiftAndEmptyGroupsDoNotMatter) {
  const Groups groups{{0.3, 0.9, 0.4}, {1.2, 1.0}, {0.1}};
  const Groups other{{101.2, 101.0}, {}, {100.1}, {100.9, 100.3, 100.4}};
  const OneWay a = one_way(groups).value();
  const OneWay b = one_way(other).value();
  EXPECT_EQ(a.groups, b.groups);
  EXPECT_NEAR(a.repeatability_sd, b.repeatability_sd, 1e-12);
  EXPECT_NEAR(a.between_sd, b.between_sd, 1e-12);
  EXPECT_NEAR(repeatability_sd(groups).value(), a.repeatability_sd, 0.0);
}

TEST(OneWay, OperatorsNoFurtherApartThanChanceHaveNoVarianceOfTheirOwn) {
  const OneWay analysis = one_way({{0.0, 2.0}, {0.1, 1.9}}).value();
  EXPECT_EQ(analysis.between_sd, 0.0);
  EXPECT_EQ(analysis.reproducibility_sd, analysis.repeatability_sd);
}

TEST(OneWay, DegenerateGroupsSayWhy) {
  EXPECT_EQ(one_way({{1.0, 2.0}}).error().message, "found 1 operator, expected at least 2");
  EXPECT_NE(one_way({{1.0}, {2.0}}).error().message.find("no operator with two"),
            std::string::npos);
  EXPECT_NEAR(repeatability_sd({{1.0, 2.0}}).value(), std::sqrt(0.5), 1e-15);
  EXPECT_FALSE(repeatability_sd({{1.0}, {2.0}}).has_value());
  const OneWay exact = one_way({{1.0, 1.0}, {2.0, 2.0}}).value();
  EXPECT_EQ(exact.repeatability_sd, 0.0);
  EXPECT_FALSE(f_test(exact).has_value());
}

TEST(PairedT, ExchangingTechniquesChangesSignsOnly) {
  const std::vector<double> a{1.2, 0.9, 1.4, 0.7};
  const std::vector<double> b{0.4, 0.5, 0.3, 0.6};
  const PairedT forth = paired_t(paired_differences(a, b), 0.95).value();
  const PairedT back = paired_t(paired_differences(b, a), 0.95).value();
  EXPECT_NEAR(forth.mean, -back.mean, 1e-15);
  EXPECT_NEAR(forth.t, -back.t, 1e-13);
  EXPECT_NEAR(forth.p, back.p, 1e-15);
  EXPECT_NEAR(forth.interval.low, -back.interval.high, 1e-14);
}

TEST(PairedT, TheIntervalAndTheTestAgree) {
  base::Rng rng(11);
  for (int round = 0; round < 200; ++round) {
    std::vector<double> d;
    for (int i = 0; i < 6; ++i) {
      d.push_back(math::normal(rng, 0.6, 0.7));
    }
    const PairedT test = paired_t(d, 0.95).value();
    const bool holds_zero = test.interval.low <= 0.0 && test.interval.high >= 0.0;
    EXPECT_EQ(holds_zero, test.p >= 0.05);
  }
}

TEST(PairedT, EqualDifferencesHaveNoTest) {
  // 0.3 - 0.1, 0.5 - 0.3 and 0.9 - 0.7 differ in the last bit.
  const std::vector<double> d =
      paired_differences(std::vector<double>{0.3, 0.5, 0.9}, std::vector<double>{0.1, 0.3, 0.7});
  EXPECT_NE(paired_t(d, 0.95).error().message.find("same difference"), std::string::npos);
  EXPECT_FALSE(paired_t(std::vector<double>{0.4}, 0.95).has_value());
  EXPECT_EQ(paired_differences(std::vector<double>{0.1 + 0.2}, std::vector<double>{0.3})[0], 0.0);
}

TEST(Wilcoxon, EqualSizesShareRanks) {
  EXPECT_EQ(mid_ranks(std::vector<double>{3.0, 1.0, 3.0, 2.0}),
            (std::vector<double>{3.5, 1.0, 3.5, 2.0}));
  EXPECT_TRUE(mid_ranks({}).empty());
}

TEST(Wilcoxon, ZerosAreRankedAndCountForNeitherSide) {
  const std::vector<double> d{0.0, -1.0, 2.0, 3.0};
  EXPECT_EQ(signed_rank_sum(d), 7.0);
  // Ranks 2, 3, 4 with any signs: sums 0 2 3 4 5 6 7 9; from the middle 4.5 as far as 7: 0 2 7 9.
  EXPECT_EQ(signed_rank_p(d).value(), 0.5);
  EXPECT_EQ(signed_rank_p(std::vector<double>{0.0, 0.0}).value(), 1.0);
}

TEST(Wilcoxon, AgreesWithCountingAllSigns) {
  base::Rng rng(3);
  for (int round = 0; round < 30; ++round) {
    std::vector<double> d;
    const std::size_t n = 3 + static_cast<std::size_t>(rng.below(8));
    for (std::size_t i = 0; i < n; ++i) {
      d.push_back(static_cast<double>(rng.below(9)) - 3.0);  // with ties and zeros
    }
    std::vector<double> sizes;
    for (const double one : d) {
      sizes.push_back(std::abs(one));
    }
    const std::vector<double> ranks = mid_ranks(sizes);
    double middle = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
      middle += d[i] != 0.0 ? 0.5 * ranks[i] : 0.0;
    }
    const double found = std::abs(signed_rank_sum(d) - middle);
    int extreme = 0;
    for (unsigned signs = 0; signs < 1U << n; ++signs) {
      double sum = 0.0;
      for (std::size_t i = 0; i < n; ++i) {
        sum += d[i] != 0.0 && (signs >> i & 1U) != 0 ? ranks[i] : 0.0;
      }
      extreme += std::abs(sum - middle) >= found ? 1 : 0;
    }
    EXPECT_EQ(signed_rank_p(d).value(),
              static_cast<double>(extreme) / static_cast<double>(1U << n));
  }
}

TEST(Wilcoxon, ExactToTwentyPairs) {
  std::vector<double> d;
  for (int i = 1; i <= 20; ++i) {
    d.push_back(i);
  }
  EXPECT_EQ(signed_rank_p(d).value(), std::ldexp(1.0, -19));
  d.push_back(21.0);
  EXPECT_EQ(signed_rank_p(d).error().message,
            "found 21 pairs, expected at most 20 for the exact test");
  EXPECT_FALSE(signed_rank_p({}).has_value());
}

std::vector<OperatorHoles> class_of(std::size_t operators, std::uint64_t seed, double sd_first) {
  base::Rng rng(seed);
  std::vector<OperatorHoles> all(operators);
  for (OperatorHoles& one : all) {
    for (int i = 0; i < 5; ++i) {
      const double a = math::normal(rng, 0.5, sd_first);
      const double b = math::normal(rng, 0.0, sd_first);
      const double c = math::normal(rng, 0.1, 0.2);
      const double d = math::normal(rng, 0.0, 0.2);
      one.first.emplace_back(a, b);
      one.second.emplace_back(c, d);
    }
  }
  return all;
}

TEST(SpreadRatio, ShiftDoesNotMatterScaleDoes) {
  std::vector<OperatorHoles> holes = class_of(8, 1, 0.5);
  const double ratio = spread_ratio(holes).value();
  const Interval interval = spread_ratio_interval(holes).value();
  EXPECT_GT(ratio, interval.low);
  EXPECT_LT(ratio, interval.high);
  for (OperatorHoles& one : holes) {
    for (Vec2& point : one.first) {
      point = 3.0 * point + Vec2(10.0, -4.0);
    }
  }
  EXPECT_NEAR(spread_ratio(holes).value(), 3.0 * ratio, 1e-12);
  const Interval scaled = spread_ratio_interval(holes).value();
  EXPECT_NEAR(scaled.low, 3.0 * interval.low, 1e-9);
  EXPECT_NEAR(scaled.high, 3.0 * interval.high, 1e-9);
}

TEST(SpreadRatio, TheIntervalMostlyHoldsTheTruth) {
  int holds = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const Interval interval =
        spread_ratio_interval(class_of(15, seed, 0.5), {1000, 5725, 0.95}).value();
    holds += interval.low <= 2.5 && interval.high >= 2.5 ? 1 : 0;
  }
  // 95 promised; percentile intervals of 15 operators hold a little less.
  EXPECT_GE(holds, 84);
}

TEST(SpreadRatio, DegenerateClassesSayWhy) {
  EXPECT_EQ(spread_ratio_interval(class_of(1, 1, 0.5)).error().message,
            "found 1 operator, expected at least 2");
  std::vector<OperatorHoles> still = class_of(3, 1, 0.5);
  for (OperatorHoles& one : still) {
    one.second.assign(4, Vec2(0.1, 0.3));
  }
  EXPECT_FALSE(spread_ratio(still).has_value());
  EXPECT_FALSE(spread_ratio_interval(still).has_value());
  // Two operators with one hole each: half of the resamples draw the same operator twice.
  const std::vector<OperatorHoles> two{{{{0.0, 0.0}}, {{0.1, 0.0}}}, {{{1.0, 0.0}}, {{0.3, 0.0}}}};
  EXPECT_NEAR(spread_ratio(two).value(), 5.0, 1e-12);
  EXPECT_NE(spread_ratio_interval(two).error().message.find("resamples"), std::string::npos);
}

TEST(Agreement, PerfectEstimatesHaveNoLimitsApart) {
  const std::vector<double> measured{0.3, 0.8, 1.1};
  const Agreement same = agreement(measured, measured).value();
  EXPECT_EQ(same.bias, 0.0);
  EXPECT_EQ(same.limits.high, 0.0);
  EXPECT_FALSE(agreement(std::vector<double>{1.0}, std::vector<double>{1.0}).has_value());
}

TEST(Agreement, AConstantErrorIsBiasNotScatter) {
  const std::vector<double> measured{0.25, 0.75, 1.25, 2.0};
  const std::vector<double> estimated{0.75, 1.25, 1.75, 2.5};
  const Agreement result = agreement(estimated, measured).value();
  EXPECT_EQ(result.bias, 0.5);
  EXPECT_EQ(result.sd, 0.0);
}

}  // namespace
}  // namespace driftbench::stats
