// Circle fits: published values, exact circles, arcs, laws of motion and scale, refusals.
#include "geometry/fit_circle.h"

#include "base/random.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "math/random_normal.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftbench::geometry {
namespace {

using math::Vec2;

// The six points of Gander, Golub, Strebel (1994), BIT 34, 558.
const std::vector<Vec2> kSix{{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}};

std::vector<Vec2> arc(const Vec2& centre, double radius, double from_rad, double to_rad, int n) {
  std::vector<Vec2> points;
  for (int i = 0; i < n; ++i) {
    const math::SinCos t = math::sincos(from_rad + (to_rad - from_rad) * i / n);
    points.push_back(centre + Vec2(t.cos, t.sin) * radius);
  }
  return points;
}

// Source: the values that N. Chernov's published test programs print for these points, to six
// decimals.
TEST(FitCircle, TaubinsFitOfThePublishedSixPoints) {
  const CircleFit fit = fit_circle_taubin(kSix).value();
  EXPECT_NEAR(fit.centre_mm.x, 4.613933, 5e-7);
  EXPECT_NEAR(fit.centre_mm.y, 2.795209, 5e-7);
  EXPECT_NEAR(fit.radius_mm, 4.879213, 5e-7);
}

// Source: Gander, Golub, Strebel (1994): centre (4.7398, 2.9835), radius 4.7142. The longer digits
// are SciPy's, whose least squares stopped within 1e-6.
TEST(FitCircle, LeastDistancesOfThePublishedSixPoints) {
  const CircleFit fit = fit_circle(kSix).value();
  EXPECT_NEAR(fit.centre_mm.x, 4.7397824, 1e-6);
  EXPECT_NEAR(fit.centre_mm.y, 2.9835328, 1e-6);
  EXPECT_NEAR(fit.radius_mm, 4.7142260, 1e-6);
  EXPECT_NEAR(std::sqrt(fit.squares_mm2), 1.1079707, 1e-6);
}

// At a minimum the distances add up to nothing, and so do their components.
TEST(FitCircle, DistancesBalanceAtTheMinimum) {
  const CircleFit fit = fit_circle(kSix).value();
  double sum = 0.0;
  Vec2 moment(0.0);
  for (const Vec2& point : kSix) {
    const Vec2 d = point - fit.centre_mm;
    const double off = length(d) - fit.radius_mm;
    sum += off;
    moment += d * (off / length(d));
  }
  EXPECT_NEAR(sum, 0.0, 1e-9);
  EXPECT_NEAR(moment.x, 0.0, 1e-9);
  EXPECT_NEAR(moment.y, 0.0, 1e-9);
}

TEST(FitCircle, PointsOnACircleGiveThatCircle) {
  // A whole circle, a third of one, and far from the origin.
  for (const auto& points :
       {arc({2.0, -3.0}, 1.7, 0.0, 6.28, 5), arc({2.0, -3.0}, 1.7, 0.5, 2.6, 9),
        arc({2.0 + 4000.0, -3.0}, 1.7, 0.0, 6.0, 20)}) {
    const double shift = points.front().x > 1000.0 ? 4000.0 : 0.0;
    for (const auto& found : {fit_circle_taubin(points), fit_circle(points)}) {
      ASSERT_TRUE(found.has_value());
      // Coordinates of some thousands leave about 1e-12 of their digits.
      EXPECT_NEAR(found->centre_mm.x, 2.0 + shift, 1e-9);
      EXPECT_NEAR(found->centre_mm.y, -3.0, 1e-9);
      EXPECT_NEAR(found->radius_mm, 1.7, 1e-9);
      EXPECT_LT(found->squares_mm2, 1e-18);
    }
  }
}

TEST(FitCircle, NoOtherCircleIsNearer) {
  base::Rng rng = base::Rng(11);
  for (int round = 0; round < 50; ++round) {
    std::vector<Vec2> points = arc({0.3, 0.1}, 2.0, 0.0, rng.uniform(2.0, 6.28), 12);
    for (Vec2& point : points) {
      const double dx = math::normal(rng, 0.0, 0.05);
      const double dy = math::normal(rng, 0.0, 0.05);
      point += Vec2(dx, dy);
    }
    const CircleFit fit = fit_circle(points).value();
    for (int k = 0; k < 6; ++k) {
      const double sign = k % 2 == 0 ? 1e-3 : -1e-3;
      const Vec2 centre = fit.centre_mm + Vec2(k / 2 == 0 ? sign : 0.0, k / 2 == 1 ? sign : 0.0);
      const double radius = fit.radius_mm + (k / 2 == 2 ? sign : 0.0);
      double squares = 0.0;
      for (const Vec2& point : points) {
        const double off = length(point - centre) - radius;
        squares += off * off;
      }
      EXPECT_GE(squares, fit.squares_mm2);
    }
  }
}

TEST(FitCircle, MovesAndGrowsWithItsPoints) {
  std::vector<Vec2> moved;
  for (const Vec2& p : kSix) {
    moved.push_back(Vec2(-p.y, p.x) * 3.0 + Vec2(10.0, -20.0));
  }
  const CircleFit fit = fit_circle(kSix).value();
  const CircleFit other = fit_circle(moved).value();
  EXPECT_NEAR(other.centre_mm.x, -3.0 * fit.centre_mm.y + 10.0, 1e-8);
  EXPECT_NEAR(other.centre_mm.y, 3.0 * fit.centre_mm.x - 20.0, 1e-8);
  EXPECT_NEAR(other.radius_mm, 3.0 * fit.radius_mm, 1e-8);
}

TEST(FitCircle, RefusesWhatDeterminesNoCircle) {
  const std::vector<Vec2> two{{0, 0}, {1, 1}};
  const std::vector<Vec2> line{{0, 0}, {1, 1}, {2, 2}, {3, 3}};
  const std::vector<Vec2> same{{1, 1}, {1, 1}, {1, 1}, {1, 1}};
  const std::vector<Vec2> odd{{0, 0}, {1, 0}, {std::nan(""), 1}, {1, 1}};
  EXPECT_EQ(fit_circle(two).error().message,
            "found 2 points, expected three at least for a circle");
  for (const auto& points : {line, same, odd}) {
    EXPECT_FALSE(fit_circle(points).has_value());
    EXPECT_FALSE(fit_circle_taubin(points).has_value());
  }
}

}  // namespace
}  // namespace driftbench::geometry
