// Ellipse factors, radii and Hotelling's test against tables and published examples.
#include "stats/containing_radius.h"
#include "stats/distributions.h"
#include "stats/ellipse.h"
#include "stats/hotelling.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

namespace driftbench::stats {
namespace {

using math::Vec2;

// Source: Fisher, Yates, Statistical Tables for Biological, Agricultural and Medical Research, and
// any textbook: printed to three or four digits.
TEST(PlaneReference, QuantilesOfPrintedTables) {
  EXPECT_NEAR(normal_quantile(0.975), 1.959964, 5e-7);
  EXPECT_NEAR(t_quantile(0.975, 9.0), 2.262, 5e-4);
  EXPECT_NEAR(t_quantile(0.95, 1.0), 6.314, 5e-4);
  EXPECT_NEAR(f_quantile(0.95, 2.0, 8.0), 4.459, 5e-4);
  EXPECT_NEAR(f_quantile(0.99, 5.0, 10.0), 5.636, 5e-4);
  EXPECT_NEAR(chi_squared_quantile(0.95, 2.0), 5.991, 5e-4);
}

// Source: T^2 distribution, computed with R 4.2.2 and SciPy 1.10.1, which agree; k printed to six
// digits. n = 6 as printed to two.
TEST(PlaneReference, FactorsOfSmallSampleEllipses) {
  struct Row {
    std::size_t n;
    double of_mean, of_prediction;
  };

  const std::array<Row, 6> rows{{{5, 2.257089, 5.528716},
                                 {8, 1.224792, 3.674376},
                                 {10, 1.001633, 3.322040},
                                 {20, 0.612538, 2.807003},
                                 {30, 0.480256, 2.673951},
                                 {100, 0.249829, 2.510750}}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.n);
    EXPECT_NEAR(mean_factor(row.n, 0.95), row.of_mean, 5e-7);
    EXPECT_NEAR(prediction_factor(row.n, 0.95), row.of_prediction, 5e-7);
  }
  EXPECT_NEAR(prediction_factor(6, 0.95), 4.50, 5e-3);
  EXPECT_NEAR(mean_factor(6, 0.95), 1.70, 5e-3);
}

PlaneScatter normal_scatter(const Vec2& mean, double sd_x, double sd_y) {
  return {100, mean, sd_x * sd_x, 0.0, sd_y * sd_y};
}

// Source: circular normal distribution, R(p) = sigma sqrt(-2 ln(1 - p)) (Rayleigh).
TEST(PlaneReference, RadiiOfTheCircularNormalDistribution) {
  const PlaneScatter scatter = normal_scatter({0.0, 0.0}, 1.0, 1.0);
  EXPECT_NEAR(containing_radius(scatter, 0.50).value(), 1.17741002252, 1e-10);
  EXPECT_NEAR(containing_radius(scatter, 0.90).value(), 2.14596602629, 1e-10);
  EXPECT_NEAR(containing_radius(scatter, 0.95).value(), 2.44774683068, 1e-10);
  EXPECT_NEAR(containing_radius(scatter, 0.99).value(), 3.03485425877, 1e-10);
}

// Source: circular error probable of an elliptic normal distribution about its mean, sigma 1 and
// c: numerical integration in R 4.2.2 and SciPy 1.10.1; CEP50 as tabulated by Harter (1960), JASA
// 55, 723.
TEST(PlaneReference, RadiiOfEllipticNormalDistributions) {
  struct Row {
    double c, r50, r90, r95;
  };

  const std::array<Row, 5> rows{{{0.8, 1.057693, 1.947158, 2.230287},
                                 {0.6, 0.933651, 1.791522, 2.081304},
                                 {0.5, 0.870417, 1.737080, 2.035859},
                                 {0.4, 0.807853, 1.699183, 2.005137},
                                 {0.2, 0.705854, 1.657313, 1.970408}}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.c);
    const PlaneScatter scatter = normal_scatter({0.0, 0.0}, 1.0, row.c);
    EXPECT_NEAR(containing_radius(scatter, 0.50).value(), row.r50, 5e-7);
    EXPECT_NEAR(containing_radius(scatter, 0.90).value(), row.r90, 5e-7);
    EXPECT_NEAR(containing_radius(scatter, 0.95).value(), row.r95, 5e-7);
  }
}

// Source: Rice distribution, sigma = 1, bias = 1: scipy.stats.rice.ppf and the root of ncx2.ppf.
TEST(PlaneReference, RadiiWithBias) {
  const PlaneScatter scatter = normal_scatter({0.6, -0.8}, 1.0, 1.0);
  EXPECT_NEAR(containing_radius(scatter, 0.50).value(), 1.475479, 5e-7);
  EXPECT_NEAR(containing_radius(scatter, 0.95).value(), 2.939763, 5e-7);
}

// Miles per gallon of cars with and without a fuel additive, two columns, 24 rows; the first
// twelve with it.
// Source: Stata's "mvtest means" and "hotelling" on these data, as kept in the tests of statsmodels
// (stats/tests/test_multivariate.py, test_mv_mean).
const std::array<Vec2, 24> kMileage{
    {{24.0, 23.5}, {25.0, 24.5}, {21.0, 20.5}, {22.0, 20.5}, {23.0, 22.5}, {18.0, 16.5},
     {17.0, 16.5}, {28.0, 27.5}, {24.0, 23.5}, {27.0, 25.5}, {21.0, 20.5}, {23.0, 22.5},
     {20.0, 19.0}, {23.0, 22.0}, {21.0, 20.0}, {25.0, 24.0}, {18.0, 17.0}, {17.0, 16.0},
     {18.0, 17.0}, {24.0, 23.0}, {20.0, 19.0}, {24.0, 22.0}, {23.0, 22.0}, {19.0, 18.0}}};

TEST(PlaneReference, HotellingOfMileageAgainst21) {
  const Hotelling test = hotelling(plane_scatter(kMileage).value(), {21.0, 21.0}).value();
  EXPECT_NEAR(test.t2, 125.2791095890415, 1e-9);
  EXPECT_NEAR(test.f, 59.91609589041116, 1e-9);
  EXPECT_EQ(test.df1, 2.0);
  EXPECT_EQ(test.df2, 22.0);
  EXPECT_NEAR(test.p, 1.25062334808e-09, 1e-19);
}

TEST(PlaneReference, HotellingOfPairedMileage) {
  std::vector<Vec2> differences;
  for (std::size_t i = 0; i < 12; ++i) {
    differences.push_back(kMileage[i] - kMileage[i + 12]);
  }
  const Hotelling test = hotelling(plane_scatter(differences).value()).value();
  EXPECT_NEAR(test.t2, 9.698067632850247, 1e-11);
  EXPECT_NEAR(test.f, 4.408212560386478, 1e-11);
  EXPECT_EQ(test.df2, 10.0);
  EXPECT_NEAR(test.p, 0.0423949782937231, 1e-13);
}

}  // namespace
}  // namespace driftbench::stats
