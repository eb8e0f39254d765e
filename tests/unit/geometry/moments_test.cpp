// Region moments against the closed formulas for rectangle, disc and ellipse.
#include "geometry/moments.h"

#include "support/contract_guard.h"

#include "math/elementary.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::geometry {
namespace {

using math::Vec2;

// Border pixels count with their centre, a little too far out: the diameters of moments come out
// too large by about 1.7 h^2/D (h pixel, D diameter; the tests below measure it). Bound: twice
// h^2/D.
double moment_tolerance_mm(double pixel_mm, double diameter_mm) {
  return 2.0 * pixel_mm * pixel_mm / diameter_mm;
}

// Fills an ellipse with pixels; border pixels by 8 x 8 sub-samples.
RegionMoments drawn_ellipse(const Vec2& centre, double semi_major_mm, double semi_minor_mm,
                            double turn_rad, double pixel_mm) {
  constexpr int kSub = 8;
  RegionMoments region;
  const double c = std::cos(turn_rad);
  const double s = std::sin(turn_rad);
  const int reach = static_cast<int>(semi_major_mm / pixel_mm) + 2;
  for (int j = -reach; j <= reach; ++j) {
    for (int i = -reach; i <= reach; ++i) {
      int inside_count = 0;
      for (int k = 0; k < kSub * kSub; ++k) {
        const double x = (i + (k % kSub + 0.5) / kSub - 0.5) * pixel_mm;
        const double y = (j + (k / kSub + 0.5) / kSub - 0.5) * pixel_mm;
        const double along = (x * c + y * s) / semi_major_mm;
        const double across = (-x * s + y * c) / semi_minor_mm;
        inside_count += along * along + across * across <= 1.0 ? 1 : 0;
      }
      if (inside_count > 0) {
        region.add_square(centre + Vec2(i, j) * pixel_mm, pixel_mm,
                          static_cast<double>(inside_count) / (kSub * kSub));
      }
    }
  }
  return region;
}

// A rectangle a x b has second moments a^2/12, b^2/12 per area: diameters 4 a/sqrt(12), 4
// b/sqrt(12).
TEST(RegionMoments, RectangleOfSquaresIsExact) {
  RegionMoments region;
  for (int i = 0; i < 8; ++i) {
    for (int j = 0; j < 3; ++j) {
      region.add_square({10.0 + 0.5 * i, -4.0 + 0.5 * j}, 0.5);
    }
  }
  EXPECT_NEAR(region.area_mm2(), 6.0, 1e-13);
  EXPECT_NEAR(region.centroid().x, 11.75, 1e-13);
  EXPECT_NEAR(region.centroid().y, -3.5, 1e-13);
  const EquivalentEllipse ellipse = region.ellipse();
  EXPECT_NEAR(ellipse.major_diameter_mm, 4.0 * 4.0 / std::sqrt(12.0), 1e-12);
  EXPECT_NEAR(ellipse.minor_diameter_mm, 4.0 * 1.5 / std::sqrt(12.0), 1e-12);
  EXPECT_NEAR(ellipse.orientation.value, 0.0, 1e-12);
}

TEST(RegionMoments, DiscHasItsDiameter) {
  const RegionMoments disc = drawn_ellipse({3.3, -7.7}, 1.05, 1.05, 0.0, 0.05);
  // Sub-samples of 1/160 mm along the rim: the area is good to a few 1e-4.
  EXPECT_NEAR(disc.equivalent_diameter_mm(), 2.1, 1e-3);
  EXPECT_NEAR(disc.ellipse().major_diameter_mm, 2.1, moment_tolerance_mm(0.05, 2.1));
  EXPECT_NEAR(disc.ellipse().minor_diameter_mm, 2.1, moment_tolerance_mm(0.05, 2.1));
  EXPECT_NEAR(disc.centroid().x, 3.3, 1e-6);
}

TEST(RegionMoments, HalfThePixelQuartersTheError) {
  const double coarse = drawn_ellipse({0.0, 0.0}, 1.05, 1.05, 0.0, 0.2).ellipse().major_diameter_mm;
  const double fine = drawn_ellipse({0.0, 0.0}, 1.05, 1.05, 0.0, 0.1).ellipse().major_diameter_mm;
  EXPECT_LT(coarse - 2.1, moment_tolerance_mm(0.2, 2.1));
  // Second order is a factor of 4; where the rim meets the grid moves it a little (here 5.0).
  EXPECT_GT((coarse - 2.1) / (fine - 2.1), 3.0);
  EXPECT_LT((coarse - 2.1) / (fine - 2.1), 6.0);
}

TEST(RegionMoments, EllipseHasItsAxesAndDirection) {
  for (const double turn_rad : {0.0, 0.4, 1.2, 1.9, 3.0}) {
    const RegionMoments region = drawn_ellipse({-2.0, 5.0}, 1.4, 1.0, turn_rad, 0.05);
    const EquivalentEllipse ellipse = region.ellipse();
    EXPECT_NEAR(ellipse.major_diameter_mm, 2.8, moment_tolerance_mm(0.05, 2.0));
    EXPECT_NEAR(ellipse.minor_diameter_mm, 2.0, moment_tolerance_mm(0.05, 2.0));
    EXPECT_NEAR(region.equivalent_diameter_mm(), 2.0 * std::sqrt(1.4), 1e-3);
    const double gap = std::fabs(ellipse.orientation.value - turn_rad);
    EXPECT_LT(std::min(gap, math::kPi - gap), 2e-3);
    EXPECT_GE(ellipse.orientation.value, 0.0);
    EXPECT_LT(ellipse.orientation.value, math::kPi);
  }
}

TEST(RegionMoments, FarFromTheOriginNothingIsLost) {
  const EquivalentEllipse near = drawn_ellipse({0.0, 0.0}, 1.4, 1.0, 0.4, 0.05).ellipse();
  const EquivalentEllipse far = drawn_ellipse({1e5, -1e5}, 1.4, 1.0, 0.4, 0.05).ellipse();
  EXPECT_NEAR(near.major_diameter_mm, far.major_diameter_mm, 1e-8);
  EXPECT_NEAR(near.minor_diameter_mm, far.minor_diameter_mm, 1e-8);
}

TEST(RegionMoments, CoverageScalesTheArea) {
  RegionMoments region;
  region.add_square({0.0, 0.0}, 0.2, 0.25);
  EXPECT_NEAR(region.area_mm2(), 0.01, 1e-17);
  region.add_square({1.0, 0.0}, 0.2, 0.0);
  EXPECT_NEAR(region.centroid().x, 0.0, 1e-17) << "an uncovered square changes nothing";
}

TEST(RegionMoments, PointsHaveNoExtent) {
  // Two equal points at distance 2 a: variance a^2 along, 0 across.
  RegionMoments region;
  region.add_point({-1.0, 1.0}, 2.0);
  region.add_point({1.0, -1.0}, 2.0);
  const EquivalentEllipse ellipse = region.ellipse();
  EXPECT_NEAR(ellipse.major_diameter_mm, 4.0 * std::sqrt(2.0), 1e-14);
  EXPECT_NEAR(ellipse.minor_diameter_mm, 0.0, 1e-7);  // root of a rounding of 1e-16
  EXPECT_NEAR(ellipse.orientation.value, 0.75 * math::kPi, 1e-14);
}

TEST(RegionMoments, EmptyRegionHasNoShape) {
  const support::ContractGuard guard;
  const RegionMoments region;
  EXPECT_TRUE(region.is_empty());
  EXPECT_THROW(static_cast<void>(region.centroid()), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(region.ellipse()), support::BrokenContract);
}

}  // namespace
}  // namespace driftbench::geometry
