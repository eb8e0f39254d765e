// Moments and shape of the normal draws.
#include "math/random_normal.h"

#include "base/hash64.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace driftbench::math {
namespace {

constexpr int kDraws = 200'000;

double normal_cdf(double x) {
  return 0.5 * std::erfc(-x / std::sqrt(2.0));
}

// Largest gap between the drawn and the wanted distribution function.
double kolmogorov_distance(std::vector<double> draws, double (*cdf)(double)) {
  std::sort(draws.begin(), draws.end());
  double worst = 0.0;
  const auto n = static_cast<double>(draws.size());
  for (std::size_t i = 0; i < draws.size(); ++i) {
    const double wanted = cdf(draws[i]);
    worst = std::max({worst, std::fabs(static_cast<double>(i) / n - wanted),
                      std::fabs(static_cast<double>(i + 1) / n - wanted)});
  }
  return worst;
}

TEST(Normal, FollowsTheStandardNormalDistribution) {
  base::Rng rng(1);
  std::vector<double> draws;
  for (int i = 0; i < kDraws; ++i) {
    draws.push_back(normal(rng));
  }
  // Kolmogorov's bound: the distance exceeds 1.95/sqrt(n) once in a thousand.
  EXPECT_LT(kolmogorov_distance(draws, normal_cdf), 1.95 / std::sqrt(1.0 * kDraws));
}

TEST(Normal, MomentsAreThoseOfTheDistribution) {
  base::Rng rng(2);
  double sum = 0.0;
  double squares = 0.0;
  double fourth = 0.0;
  for (int i = 0; i < kDraws; ++i) {
    const double z = normal(rng);
    sum += z;
    squares += z * z;
    fourth += z * z * z * z;
  }
  // Standard errors 1/sqrt(n), sqrt(2/n), sqrt(96/n); five of each.
  const double root_n = std::sqrt(1.0 * kDraws);
  EXPECT_NEAR(sum / kDraws, 0.0, 5.0 / root_n);
  EXPECT_NEAR(squares / kDraws, 1.0, 5.0 * std::sqrt(2.0) / root_n);
  EXPECT_NEAR(fourth / kDraws, 3.0, 5.0 * std::sqrt(96.0) / root_n);
}

TEST(Normal, TakesTwoNumbersEachTime) {
  base::Rng drawn(3);
  base::Rng skipped(3);
  for (int i = 0; i < 10; ++i) {
    static_cast<void>(normal(drawn));
    static_cast<void>(skipped.next());
    static_cast<void>(skipped.next());
  }
  EXPECT_EQ(drawn.next(), skipped.next());
}

TEST(Normal, MeanAndDeviationScaleTheSameStream) {
  base::Rng plain(4);
  base::Rng scaled(4);
  for (int i = 0; i < 100; ++i) {
    const double z = normal(plain);
    EXPECT_EQ(normal(scaled, 5.0, 2.0), 5.0 + 2.0 * z);
  }
  EXPECT_EQ(normal(scaled, 5.0, 0.0), 5.0);
}

TEST(NormalTruncated, StaysInsideAndKeepsItsShape) {
  base::Rng rng(5);
  double squares = 0.0;
  for (int i = 0; i < kDraws; ++i) {
    const double x = normal_truncated(rng, 1.0, 0.5, 2.0);
    ASSERT_GE(x, 0.0);
    ASSERT_LE(x, 2.0);
    squares += (x - 1.0) * (x - 1.0);
  }
  // Variance of the standard normal cut at +-a is 1 - 2 a phi(a) / (2 Phi(a) - 1) (Johnson, Kotz,
  // Balakrishnan, Continuous Univariate Distributions 1, section 13.10.1); a = 2: 0.77374.
  const double phi = std::exp(-2.0) / std::sqrt(2.0 * 3.14159265358979);
  const double variance = 1.0 - 4.0 * phi / (2.0 * normal_cdf(2.0) - 1.0);
  EXPECT_NEAR(squares / kDraws / 0.25, variance, 0.012);  // five standard errors sqrt(1.15/n)
}

// Source: this implementation; recorded attempts rely on the stream.
TEST(Normal, StreamIsTheSameInEveryBuild) {
  base::Rng rng(6);
  base::Hash64 hash;
  for (int i = 0; i < 10'000; ++i) {
    hash.add(normal(rng));
  }
  EXPECT_EQ(base::to_hex16(hash.value()), "4370582de885c7d8");
}

}  // namespace
}  // namespace driftbench::math
