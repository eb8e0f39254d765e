// Paired t, exact Wilcoxon and limits of agreement on published data.
#include "stats/bland_altman.h"
#include "stats/paired.h"
#include "stats/wilcoxon.h"

#include <gtest/gtest.h>

#include <array>
#include <vector>

namespace driftbench::stats {
namespace {

// Source: Student (1908), Biometrika 6, 1: additional hours of sleep by two drugs; t = 4.06 there.
// Digits: R 4.2.2, t.test(paired = TRUE).
const std::array<double, 10> kSleep1{.7, -1.6, -.2, -1.2, -.1, 3.4, 3.7, .8, 0.0, 2.0};
const std::array<double, 10> kSleep2{1.9, .8, 1.1, .1, -.1, 4.4, 5.5, 1.6, 4.6, 3.4};

TEST(PairedReference, StudentsSleep) {
  const PairedT test = paired_t(paired_differences(kSleep1, kSleep2), 0.95).value();
  EXPECT_NEAR(test.mean, -1.58, 1e-14);
  EXPECT_NEAR(test.sd, 1.22999548328, 5e-12);
  EXPECT_NEAR(test.t, -4.06212768338, 5e-12);
  EXPECT_EQ(test.df, 9.0);
  EXPECT_NEAR(test.p, 0.00283289019738, 5e-15);
  EXPECT_NEAR(test.interval.low, -2.45988576328, 5e-12);
  EXPECT_NEAR(test.interval.high, -0.70011423672, 5e-12);
}

// One difference is 0 and two are equal, all others have one sign: 2 of the 2^9 changes of sign
// are as extreme. Programs that fall back to the normal distribution print 0.0091 or 0.0076.
TEST(PairedReference, WilcoxonOfStudentsSleep) {
  const std::vector<double> differences = paired_differences(kSleep1, kSleep2);
  EXPECT_EQ(signed_rank_sum(differences), 0.0);
  EXPECT_EQ(signed_rank_p(differences).value(), 2.0 / 512.0);
}

// Source: Hollander, Wolfe (1973), Nonparametric Statistical Methods, p. 29: depression scale
// before and after; V = 40, one-sided p = 0.01953125 (help page of R's wilcox.test).
TEST(PairedReference, WilcoxonOfDepressionScale) {
  const std::array<double, 9> before{1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30};
  const std::array<double, 9> after{0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29};
  const std::vector<double> differences = paired_differences(before, after);
  EXPECT_EQ(signed_rank_sum(differences), 40.0);
  EXPECT_EQ(signed_rank_p(differences).value(), 2.0 * 0.01953125);
}

// Source: Darwin (1876), The Effects of Cross and Self Fertilisation; Fisher (1935), The Design of
// Experiments: t = 2.148; exact p of ranks from the documentation of scipy.stats.wilcoxon, where
// the smaller sum is W = 24.
TEST(PairedReference, DarwinsMaize) {
  const std::array<double, 15> d{6, 8, 14, 16, 23, 24, 28, 29, 41, -48, 49, 56, 60, -67, 75};
  EXPECT_EQ(signed_rank_sum(d), 15.0 * 16.0 / 2.0 - 24.0);
  EXPECT_EQ(signed_rank_p(d).value(), 0.041259765625);
  const PairedT test = paired_t(d, 0.95).value();
  EXPECT_NEAR(test.t, 2.1479874613, 5e-11);
  EXPECT_NEAR(test.p, 0.0497029440, 5e-11);
}

// Source: Bland, Altman (1986), Lancet i, 307: peak flow by two meters, first readings, l/min;
// printed mean -2.1, sd 38.8, limits -79.7 and 75.5 (2 sd, from rounded values).
TEST(PairedReference, PeakFlowAgreement) {
  const std::array<double, 17> large{494, 395, 516, 434, 476, 557, 413, 442, 650,
                                     433, 417, 656, 267, 478, 178, 423, 427};
  const std::array<double, 17> mini{512, 430, 520, 428, 500, 600, 364, 380, 658,
                                    445, 432, 626, 260, 477, 259, 350, 451};
  const Agreement rounded = agreement(large, mini, 2.0).value();
  EXPECT_NEAR(rounded.bias, -2.1, 0.05);
  EXPECT_NEAR(rounded.sd, 38.8, 0.05);
  EXPECT_NEAR(rounded.limits.low, -79.7, 0.1);
  EXPECT_NEAR(rounded.limits.high, 75.5, 0.1);
  const Agreement exact = agreement(large, mini).value();
  EXPECT_NEAR(exact.bias, -2.117647, 5e-7);
  EXPECT_NEAR(exact.sd, 38.765130, 5e-7);
  EXPECT_NEAR(exact.limits.low, -78.0973, 2e-3);  // 1.96 there, 1.95996 here
  EXPECT_NEAR(exact.limits.high, 73.8620, 2e-3);
}

}  // namespace
}  // namespace driftbench::stats
