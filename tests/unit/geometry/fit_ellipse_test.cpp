// Ellipse fits: published values, exact ellipses, nearest points, laws of motion, refusals.
#include "geometry/fit_ellipse.h"

#include "base/random.h"
#include "math/elementary.h"
#include "math/random_normal.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftbench::geometry {
namespace {

using math::Vec2;

// The eight points of Gander, Golub, Strebel (1994), BIT 34, 558.
const std::vector<Vec2> kEight{{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}, {6, 2}, {8, 4}};

std::vector<Vec2> on_ellipse(const EllipseFit& e, int n, double from_rad = 0.0,
                             double to_rad = 2.0 * math::kPi) {
  const math::SinCos turn = math::sincos(e.orientation.value);
  std::vector<Vec2> points;
  for (int i = 0; i < n; ++i) {
    const math::SinCos t = math::sincos(from_rad + (to_rad - from_rad) * i / n);
    const Vec2 q(e.semi_major_mm * t.cos, e.semi_minor_mm * t.sin);
    points.push_back(e.centre_mm +
                     Vec2(turn.cos * q.x - turn.sin * q.y, turn.sin * q.x + turn.cos * q.y));
  }
  return points;
}

// Source: scikit-image 0.19.3, EllipseModel (Halir, Flusser 1998), axes put in order.
TEST(FitEllipse, DirectFitOfThePublishedEightPoints) {
  const EllipseFit fit = fit_ellipse_direct(kEight).value();
  EXPECT_NEAR(fit.centre_mm.x, 5.0638777, 5e-8);
  EXPECT_NEAR(fit.centre_mm.y, 5.0697527, 5e-8);
  EXPECT_NEAR(fit.semi_major_mm, 3.7756637, 5e-8);
  EXPECT_NEAR(fit.semi_minor_mm, 2.6423340, 5e-8);
  EXPECT_NEAR(fit.orientation.value, math::kPi - 0.3861200, 5e-8);
}

// Source: Gander, Golub, Strebel (1994): centre (2.6996, 3.8160), axes 6.5187 and 3.0319, angle
// 0.3596, norm of the distances 1.1719. The longer digits are SciPy's, whose least squares stopped
// within 1e-6.
TEST(FitEllipse, LeastDistancesOfThePublishedEightPoints) {
  const EllipseFit fit = fit_ellipse(kEight).value();
  EXPECT_NEAR(fit.centre_mm.x, 2.6996117, 1e-6);
  EXPECT_NEAR(fit.centre_mm.y, 3.8159564, 1e-6);
  EXPECT_NEAR(fit.semi_major_mm, 6.5187229, 1e-6);
  EXPECT_NEAR(fit.semi_minor_mm, 3.0318860, 1e-6);
  EXPECT_NEAR(fit.orientation.value, 0.3596243, 1e-6);
  EXPECT_NEAR(std::sqrt(fit.squares_mm2), 1.1718812, 1e-6);
}

TEST(FitEllipse, PointsOnAnEllipseGiveThatEllipse) {
  for (const EllipseFit& truth : {EllipseFit{{0.0, 0.0}, 3.0, 1.5, math::Radians(0.5), 0.0},
                                  EllipseFit{{12.0, -7.0}, 2.1, 2.0, math::Radians(2.9), 0.0},
                                  EllipseFit{{300.0, 40.0}, 80.0, 9.0, math::Radians(1.2), 0.0}}) {
    for (const int n : {6, 25}) {
      const std::vector<Vec2> points = on_ellipse(truth, n);
      for (const auto& found : {fit_ellipse_direct(points), fit_ellipse(points)}) {
        ASSERT_TRUE(found.has_value());
        // The eigenvalue that vanishes for exact points is known to about the root of rounding.
        EXPECT_NEAR(found->centre_mm.x, truth.centre_mm.x, 1e-6 * truth.semi_major_mm);
        EXPECT_NEAR(found->centre_mm.y, truth.centre_mm.y, 1e-6 * truth.semi_major_mm);
        EXPECT_NEAR(found->semi_major_mm, truth.semi_major_mm, 1e-6 * truth.semi_major_mm);
        EXPECT_NEAR(found->semi_minor_mm, truth.semi_minor_mm, 1e-6 * truth.semi_major_mm);
        EXPECT_NEAR(found->orientation.value, truth.orientation.value, 1e-5);
      }
    }
  }
}

TEST(FitEllipse, ACircleIsAnEllipseToo) {
  const std::vector<Vec2> points = on_ellipse({{5.0, 5.0}, 2.0, 2.0, math::Radians(0.0), 0.0}, 12);
  const EllipseFit fit = fit_ellipse(points).value();
  EXPECT_NEAR(fit.centre_mm.x, 5.0, 1e-6);
  EXPECT_NEAR(fit.semi_major_mm, 2.0, 1e-6);
  EXPECT_NEAR(fit.semi_minor_mm, 2.0, 1e-6);
}

TEST(FitEllipse, NearestPointIsAtRightAnglesAndNearest) {
  const EllipseFit e{{1.0, 2.0}, 3.0, 1.0, math::Radians(0.7), 0.0};
  const std::vector<Vec2> dense = on_ellipse(e, 20000);
  base::Rng rng = base::Rng(3);
  for (int round = 0; round < 40; ++round) {
    const double x = rng.uniform(-4.0, 6.0);
    const double y = rng.uniform(-3.0, 7.0);
    const Vec2 point(x, y);
    double nearest = 1e9;
    for (const Vec2& other : dense) {
      nearest = std::min(nearest, length(point - other));
    }
    // Steps of the dense ellipse are 1e-3 long at most.
    EXPECT_NEAR(length(point - nearest_on_ellipse(e, point)), nearest, 1e-3);
  }
  EXPECT_NEAR(length(nearest_on_ellipse(e, e.centre_mm) - e.centre_mm), 1.0, 1e-12);
}

TEST(FitEllipse, MovesAndGrowsWithItsPoints) {
  std::vector<Vec2> moved;
  for (const Vec2& p : kEight) {
    moved.push_back(Vec2(-p.y, p.x) * 2.0 + Vec2(10.0, -20.0));
  }
  const EllipseFit fit = fit_ellipse(kEight).value();
  const EllipseFit other = fit_ellipse(moved).value();
  EXPECT_NEAR(other.centre_mm.x, -2.0 * fit.centre_mm.y + 10.0, 1e-6);
  EXPECT_NEAR(other.centre_mm.y, 2.0 * fit.centre_mm.x - 20.0, 1e-6);
  EXPECT_NEAR(other.semi_minor_mm, 2.0 * fit.semi_minor_mm, 1e-6);
  EXPECT_NEAR(other.orientation.value, fit.orientation.value + 0.5 * math::kPi, 1e-6);
}

TEST(FitEllipse, DistancesNeverExceedThoseOfTheDirectFit) {
  base::Rng rng = base::Rng(5);
  for (int round = 0; round < 50; ++round) {
    const EllipseFit truth{{0.0, 0.0}, 2.2, rng.uniform(1.6, 2.2), math::Radians(1.0), 0.0};
    std::vector<Vec2> points = on_ellipse(truth, 14);
    for (Vec2& point : points) {
      const double dx = math::normal(rng, 0.0, 0.03);
      const double dy = math::normal(rng, 0.0, 0.03);
      point += Vec2(dx, dy);
    }
    const EllipseFit direct = fit_ellipse_direct(points).value();
    const EllipseFit best = fit_ellipse(points).value();
    EXPECT_LE(best.squares_mm2, direct.squares_mm2 * (1.0 + 1e-9));
  }
}

TEST(FitEllipse, RefusesWhatDeterminesNoEllipse) {
  const std::vector<Vec2> four{{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  const std::vector<Vec2> line{{0, 0}, {1, 1}, {2, 2}, {3, 3}, {4, 4}, {5, 5}};
  const std::vector<Vec2> same(7, Vec2(2.0, 2.0));
  EXPECT_EQ(fit_ellipse(four).error().message,
            "found 4 points, expected five at least for an ellipse");
  EXPECT_FALSE(fit_ellipse(line).has_value());
  EXPECT_FALSE(fit_ellipse(same).has_value());
}

}  // namespace
}  // namespace driftbench::geometry
