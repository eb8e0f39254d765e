// Means, standard deviations and analyses of variance against certified and published values.
#include "reference/nist_univariate.h"
#include "support/read_file.h"

#include "stats/one_way.h"
#include "stats/series.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

namespace driftbench::stats {
namespace {

TEST(VarianceReference, NistUnivariateData) {
  for (const NistUnivariate& set : nist_univariate()) {
    SCOPED_TRACE(set.name);
    // Certified to 15 digits; Michelso's values lose two of them in binary.
    EXPECT_NEAR(mean(set.values), set.mean, 1e-13 * std::abs(set.mean));
    EXPECT_NEAR(standard_deviation(set.values).value(), set.sd, 1e-12 * set.sd);
  }
}

// Source: NIST StRD, NumAcc1 to NumAcc4: mean and standard deviation are exact by construction.
// The first value, then 500 times low, high.
TEST(VarianceReference, NistNumericalAccuracyData) {
  struct Set {
    const char* name;
    std::vector<double> values;
    double mean, sd, tolerance;
  };

  const auto alternating = [](double middle, double low, double high) {
    std::vector<double> values{middle};
    for (int i = 0; i < 500; ++i) {
      values.push_back(low);
      values.push_back(high);
    }
    return values;
  };
  // Tolerances: rounding of the data themselves (1e7 + 0.1 holds 0.1 to 2e-9).
  const std::array<Set, 4> sets{
      {{"NumAcc1", {10000001, 10000003, 10000002}, 10000002, 1.0, 0.0},
       {"NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1, 1e-14},
       {"NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 1e-9},
       {"NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 1e-8}}};
  for (const Set& set : sets) {
    SCOPED_TRACE(set.name);
    EXPECT_NEAR(mean(set.values), set.mean, 1e-15 * set.mean);
    EXPECT_NEAR(standard_deviation(set.values).value(), set.sd, set.tolerance);
  }
}

// Groups of a NIST file: from line 61 rows "treatment value".
Groups nist_groups(const std::string& name) {
  std::istringstream text(support::read_file("tests/reference/nist/" + name + ".dat"));
  constexpr int kHeaderLines = 60;
  std::string line;
  for (int i = 0; i < kHeaderLines; ++i) {
    std::getline(text, line);
  }
  Groups groups;
  std::size_t treatment = 0;
  double value = 0.0;
  while (text >> treatment >> value) {
    groups.resize(std::max(groups.size(), treatment));
    groups[treatment - 1].push_back(value);
  }
  return groups;
}

// Source: NIST StRD, one-way analysis of variance; certified values in the files. Tolerances: the
// data of SmLs04 have 7 constant leading digits, those of SmLs07 13, of which a double keeps 3 of
// the varying ones.
TEST(VarianceReference, NistOneWayAnalysisOfVariance) {
  struct Set {
    const char* name;
    std::size_t n;
    double f, ms_within, tolerance;
  };

  const std::array<Set, 5> sets{{{"SiRstv", 25, 1.18046237440255, 1.0831828e-2, 1e-12},
                                 {"AtmWtAg", 48, 15.9467335677930, 2.28155932971014e-10, 1e-9},
                                 {"SmLs01", 189, 21.0, 0.01, 1e-13},
                                 {"SmLs04", 189, 21.0, 0.01, 1e-8},
                                 {"SmLs07", 189, 21.0, 0.01, 5e-3}}};
  for (const Set& set : sets) {
    SCOPED_TRACE(set.name);
    const OneWay analysis = one_way(nist_groups(set.name)).value();
    EXPECT_EQ(analysis.n, set.n);
    EXPECT_NEAR(f_test(analysis).value().f, set.f, set.tolerance * set.f);
    EXPECT_NEAR(analysis.ms_within, set.ms_within, set.tolerance * set.ms_within);
  }
}

// Source: Davies (1947), Statistical Methods in Research and Production, yields of dyestuff, as
// distributed with R's lme4 ("Dyestuff"); REML there gives the same components of variance
// (1764.050006, 2451.249999), and R's aov F = 4.598, p = 0.0044.
TEST(VarianceReference, DyestuffComponentsOfVariance) {
  const Groups batches{{1545, 1440, 1440, 1520, 1580}, {1540, 1555, 1490, 1560, 1495},
                       {1595, 1550, 1605, 1510, 1560}, {1445, 1440, 1595, 1465, 1545},
                       {1595, 1630, 1515, 1635, 1625}, {1520, 1455, 1450, 1480, 1445}};
  const OneWay analysis = one_way(batches).value();
  EXPECT_NEAR(analysis.ms_between, 11271.50, 1e-8);
  EXPECT_NEAR(analysis.ms_within, 2451.25, 1e-8);
  EXPECT_NEAR(analysis.between_sd * analysis.between_sd, 1764.05, 1e-8);
  EXPECT_NEAR(analysis.repeatability_sd, 49.5100999797, 1e-9);
  EXPECT_NEAR(analysis.between_sd, 42.0005952339, 1e-9);
  EXPECT_NEAR(analysis.reproducibility_sd, 64.9253417396, 1e-9);
  const FTest test = f_test(analysis).value();
  EXPECT_NEAR(test.f, 4.59827, 5e-6);
  EXPECT_NEAR(test.p, 0.0043975, 5e-8);
}

// Source: ISO 5725-2:1994, annex B.1, sulfur in coal, level 1: the data as remembered give the
// published m = 0.690, s_r = 0.015, s_R = 0.026.
TEST(VarianceReference, SulfurInCoal) {
  const Groups laboratories{
      {.71, .71, .70, .71},      {.69, .67, .68}, {.66, .65, .69}, {.67, .65, .66},
      {.70, .69, .66, .71, .69}, {.73, .74, .73}, {.71, .71, .69}, {.70, .65, .68}};
  const OneWay analysis = one_way(laboratories).value();
  EXPECT_EQ(analysis.groups, 8U);
  EXPECT_EQ(analysis.n, 27U);
  EXPECT_NEAR(analysis.mean, 0.690, 5e-4);
  EXPECT_NEAR(analysis.repeatability_sd, 0.015, 5e-4);
  EXPECT_NEAR(analysis.reproducibility_sd, 0.026, 5e-4);
  // By the same formulas in R 4.2.2:
  EXPECT_NEAR(analysis.repeatability_sd, 0.01511651, 5e-9);
  EXPECT_NEAR(analysis.between_sd, 0.02159955, 5e-9);
  EXPECT_NEAR(analysis.reproducibility_sd, 0.02636379, 5e-9);
}

}  // namespace
}  // namespace driftbench::stats
