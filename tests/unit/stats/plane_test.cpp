// Laws of bias, spread, ellipses, radii and Hotelling's test.
#include "base/random.h"
#include "math/angle.h"
#include "math/random_normal.h"
#include "stats/containing_radius.h"
#include "stats/ellipse.h"
#include "stats/hotelling.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::stats {
namespace {

using math::Vec2;

std::vector<Vec2> sample(std::size_t n, std::uint64_t seed) {
  base::Rng rng(seed);
  std::vector<Vec2> points;
  for (std::size_t i = 0; i < n; ++i) {
    const double a = math::normal(rng);
    const double b = math::normal(rng);
    points.emplace_back(0.7 + 0.8 * a, -0.2 + 0.3 * a + 0.4 * b);
  }
  return points;
}

std::vector<Vec2> turned(std::vector<Vec2> points, double angle_deg) {
  const double angle = angle_deg * math::kPi / 180.0;
  for (Vec2& point : points) {
    point = {std::cos(angle) * point.x - std::sin(angle) * point.y,
             std::sin(angle) * point.x + std::cos(angle) * point.y};
  }
  return points;
}

std::vector<Vec2> shifted(std::vector<Vec2> points, const Vec2& by) {
  for (Vec2& point : points) {
    point += by;
  }
  return points;
}

PlaneScatter scatter_of(const std::vector<Vec2>& points) {
  return plane_scatter(points).value();
}

TEST(PlaneScatter, FollowsFromTheDefinition) {
  const PlaneScatter s = scatter_of({{1.0, 0.0}, {3.0, 2.0}, {2.0, 4.0}});
  EXPECT_NEAR(s.mean.x, 2.0, 1e-15);
  EXPECT_NEAR(s.mean.y, 2.0, 1e-15);
  EXPECT_NEAR(s.xx, 1.0, 1e-15);
  EXPECT_NEAR(s.yy, 4.0, 1e-15);
  EXPECT_NEAR(s.xy, 1.0, 1e-15);
  EXPECT_NEAR(spread(s), std::sqrt(2.5), 1e-15);
}

TEST(PlaneScatter, AShiftMovesTheBiasOnly) {
  const std::vector<Vec2> points = sample(12, 1);
  const PlaneScatter before = scatter_of(points);
  const PlaneScatter after = scatter_of(shifted(points, {1000.0, -500.0}));
  EXPECT_NEAR(after.mean.x - before.mean.x, 1000.0, 1e-11);
  // 1000 mm keeps 1e-13 of each coordinate.
  EXPECT_NEAR(after.xx, before.xx, 1e-11);
  EXPECT_NEAR(after.xy, before.xy, 1e-11);
}

TEST(PlaneScatter, ATurnKeepsSpreadRadiusAndAxes) {
  const std::vector<Vec2> points = sample(12, 2);
  const PlaneScatter before = scatter_of(points);
  const Ellipse ellipse = prediction_ellipse(before, 0.95).value();
  for (const double angle_deg : {10.0, 90.0, 133.0, 180.0, 271.0}) {
    SCOPED_TRACE(angle_deg);
    const PlaneScatter after = scatter_of(turned(points, angle_deg));
    EXPECT_NEAR(spread(after), spread(before), 1e-13);
    EXPECT_NEAR(hotelling(after).value().t2, hotelling(before).value().t2, 1e-10);
    EXPECT_NEAR(containing_radius(after, 0.95).value(), containing_radius(before, 0.95).value(),
                1e-8);
    const Ellipse there = prediction_ellipse(after, 0.95).value();
    EXPECT_NEAR(there.semi_major_mm, ellipse.semi_major_mm, 1e-12);
    EXPECT_NEAR(there.semi_minor_mm, ellipse.semi_minor_mm, 1e-12);
    EXPECT_NEAR(std::remainder(there.angle_deg - ellipse.angle_deg - angle_deg, 180.0), 0.0, 1e-10);
    EXPECT_GE(there.angle_deg, 0.0);
    EXPECT_LT(there.angle_deg, 180.0);
  }
}

TEST(PlaneScatter, AMirroredSiteMirrorsBiasAndAngle) {
  std::vector<Vec2> points = sample(9, 3);
  const PlaneScatter before = scatter_of(points);
  const Ellipse ellipse = mean_ellipse(before, 0.95).value();
  for (Vec2& point : points) {
    point.x = -point.x;
  }
  const PlaneScatter after = scatter_of(points);
  EXPECT_NEAR(after.mean.x, -before.mean.x, 1e-15);
  EXPECT_NEAR(mean_ellipse(after, 0.95).value().angle_deg, 180.0 - ellipse.angle_deg, 1e-10);
  EXPECT_NEAR(hotelling(after).value().p, hotelling(before).value().p, 1e-14);
}

TEST(PlaneScatter, NeedsTwoHoles) {
  EXPECT_EQ(plane_scatter({}).error().message, "found 0 holes, expected at least 2");
  EXPECT_EQ(plane_scatter(std::vector<Vec2>{{1.0, 1.0}}).error().message,
            "found 1 hole, expected at least 2");
}

TEST(PlaneScatter, HugeCoordinatesAreRefusedNotInfinite) {
  EXPECT_FALSE(plane_scatter(std::vector<Vec2>{{1e200, 0.0}, {-1e200, 0.0}}).has_value());
}

TEST(Ellipse, NoneBelowSixHoles) {
  for (std::size_t n = 2; n < 10; ++n) {
    const PlaneScatter s = scatter_of(sample(n, n));
    EXPECT_EQ(prediction_ellipse(s, 0.95).has_value(), n >= 6) << n;
    EXPECT_EQ(mean_ellipse(s, 0.95).has_value(), n >= 6) << n;
  }
  EXPECT_EQ(prediction_ellipse(scatter_of(sample(5, 1)), 0.95).error().message,
            "found 5 holes, expected at least 6");
}

TEST(Ellipse, FactorsFallWithNTowardTheirLimits) {
  for (std::size_t n = 6; n < 200; ++n) {
    EXPECT_LT(prediction_factor(n + 1, 0.95), prediction_factor(n, 0.95)) << n;
    EXPECT_LT(mean_factor(n + 1, 0.95), mean_factor(n, 0.95)) << n;
  }
  EXPECT_NEAR(prediction_factor(1'000'000, 0.95), std::sqrt(-2.0 * std::log(0.05)), 1e-4);
  EXPECT_NEAR(mean_factor(1'000'000, 0.95), 0.0, 3e-3);
}

// The next hole is inside the prediction ellipse with 95 %: 4,000 samples of seven, standard error
// 0.0035.
TEST(Ellipse, HoldsTheNextHoleAsOftenAsItSays) {
  constexpr int kRounds = 4000;
  int inside = 0;
  for (int round = 0; round < kRounds; ++round) {
    std::vector<Vec2> points = sample(8, 100 + static_cast<std::uint64_t>(round));
    const Vec2 next = points.back();
    points.pop_back();
    const PlaneScatter s = scatter_of(points);
    const double determinant = s.xx * s.yy - s.xy * s.xy;
    const Vec2 d = next - s.mean;
    const double squared =
        (s.yy * d.x * d.x - 2.0 * s.xy * d.x * d.y + s.xx * d.y * d.y) / determinant;
    const double k = prediction_ellipse(s, 0.95).value().k;
    inside += squared <= k * k ? 1 : 0;
  }
  EXPECT_NEAR(inside, 0.95 * kRounds, 3.5 * 0.0035 * kRounds);
}

TEST(Degenerate, SamePointAndLineSayWhy) {
  const std::vector<Vec2> same(8, Vec2(0.1, 0.7));
  const PlaneScatter point = scatter_of(same);
  EXPECT_EQ(spread(point), 0.0);
  EXPECT_NE(prediction_ellipse(point, 0.95).error().message.find("same point"), std::string::npos);
  EXPECT_NE(hotelling(point).error().message.find("same point"), std::string::npos);
  // With no scatter every hole is as far from the target as the mean.
  EXPECT_NEAR(containing_radius(point, 0.95).value(), std::hypot(0.1, 0.7), 1e-15);

  std::vector<Vec2> row;
  for (int i = 0; i < 8; ++i) {
    row.emplace_back(0.1 * i, 0.3 * i);
  }
  const PlaneScatter line = scatter_of(row);
  EXPECT_NE(mean_ellipse(line, 0.95).error().message.find("one line"), std::string::npos);
  EXPECT_NE(hotelling(line).error().message.find("one line"), std::string::npos);
  EXPECT_GT(containing_radius(line, 0.95).value(), containing_radius(line, 0.50).value());
}

TEST(Hotelling, NeedsThreeHolesAndDoubtsBiasLessWhenItGrows) {
  EXPECT_FALSE(hotelling(scatter_of(sample(2, 1))).has_value());
  double last = 1.0;
  PlaneScatter s = scatter_of(sample(10, 5));
  for (int i = 0; i < 6; ++i) {
    s.mean = {0.2 * i, 0.1 * i};
    const double p = hotelling(s).value().p;
    EXPECT_TRUE(i == 0 ? p == 1.0 : p < last) << i;
    last = p;
  }
}

TEST(ContainingRadius, IsTheInverseOfTheShare) {
  for (std::uint64_t seed = 1; seed < 12; ++seed) {
    const PlaneScatter s = scatter_of(sample(6, seed));
    for (const double share : {0.01, 0.5, 0.95, 0.999}) {
      EXPECT_NEAR(share_within(s, containing_radius(s, share).value()), share, 1e-9);
    }
  }
}

TEST(ContainingRadius, GrowsWithBiasScatterAndShare) {
  PlaneScatter s{10, {0.0, 0.0}, 1.0, 0.2, 0.5};
  double last = 0.0;
  for (int i = 0; i < 8; ++i) {
    s.mean = {0.5 * i, 0.0};
    const double radius = containing_radius(s, 0.5).value();
    EXPECT_GT(radius, last);
    EXPECT_GT(containing_radius(s, 0.95).value(), radius);
    last = radius;
  }
}

// Thin scatter and far bias: where the integrand has steps.
TEST(ContainingRadius, HoldsForThinAndFarScatter) {
  // Far out only the scatter toward the target counts: R50 is nearly the bias.
  EXPECT_NEAR(containing_radius({10, {1000.0, 0.0}, 1.0, 0.0, 1.0}, 0.5).value(), 1000.0, 1e-3);
  const double along = containing_radius({10, {1000.0, 0.0}, 1.0, 0.0, 1e-6}, 0.95).value();
  EXPECT_NEAR(along, 1000.0 + 1.6448536, 1e-3);
  const double across = containing_radius({10, {0.0, 1000.0}, 1e-6, 0.0, 1.0}, 0.95).value();
  EXPECT_NEAR(across, along, 1e-6);
  // So far out that rounding is coarser than the wanted precision: still an answer, and soon.
  EXPECT_NEAR(containing_radius({10, {1e6, -1e6}, 1e-4, 2e-5, 3e-5}, 0.95).value(),
              1e6 * std::sqrt(2.0), 0.1);
  EXPECT_NEAR(containing_radius({10, {3.0, 1e6}, 1.0, 0.5, 1e-10}, 0.5).value(), 1e6, 0.1);
  // A line through the target is the normal distribution of one direction.
  for (const double thin : {0.0, 1e-14, 1e-10, 1e-6}) {
    EXPECT_NEAR(containing_radius({10, {0.0, 0.0}, thin, 0.0, 1.0}, 0.95).value(), 1.959964, 1e-5);
  }
}

}  // namespace
}  // namespace driftbench::stats
