// Total least squares: exact lines, a worked example, optimality, weights, refusals.
#include "geometry/fit_line.h"

#include "base/random.h"
#include "math/random_normal.h"
#include "math/rotation.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftbench::geometry {
namespace {

using math::Vec3;

LineFit fitted(const std::vector<WeightedPoint>& points) {
  const base::Result<LineFit> fit = fit_line(points);
  EXPECT_TRUE(fit.has_value());
  return fit.value_or(LineFit{});
}

std::vector<WeightedPoint> noisy_hole(base::Rng& rng, const Line& line, double noise_mm) {
  std::vector<WeightedPoint> points;
  for (int slice = 0; slice < 50; ++slice) {
    const double dx = math::normal(rng, 0.0, noise_mm);
    const double dy = math::normal(rng, 0.0, noise_mm);
    points.push_back(
        {line.point + line.axis_unit * (0.2 * slice) + Vec3(dx, dy, 0.0), rng.uniform(0.5, 2.0)});
  }
  return points;
}

TEST(FitLine, PointsOnALineGiveThatLine) {
  const Line truth = line_through({1.0, -2.0, 0.5}, {1.4, -2.3, 10.5});
  std::vector<Vec3> points;
  for (int i = 0; i < 20; ++i) {
    points.push_back(truth.point + truth.axis_unit * (0.5 * i));
  }
  const base::Result<LineFit> fit = fit_line(points);
  ASSERT_TRUE(fit.has_value());
  EXPECT_LT(angle_between(fit->line.axis_unit, truth.axis_unit).value, 1e-14);
  EXPECT_LT(distance_mm(truth, fit->line.point), 1e-14);
  EXPECT_LT(fit->rms_mm, 1e-14);
}

TEST(FitLine, TwoPointsAreEnough) {
  const LineFit fit = fitted({{{0, 0, 0}, 1.0}, {{0, 3, 4}, 1.0}});
  EXPECT_NEAR(fit.line.axis_unit.y, 0.6, 1e-15);
  EXPECT_NEAR(fit.line.axis_unit.z, 0.8, 1e-15);
}

// Worked by hand: points (+-3, 0, 0) and (0, +-1, 0): axis x, squares 0 + 0 + 1 + 1, rms sqrt(2/4).
TEST(FitLine, MeetsAWorkedExample) {
  const LineFit fit = fitted({{{-3, 0, 0}, 1}, {{0, 1, 0}, 1}, {{0, -1, 0}, 1}, {{3, 0, 0}, 1}});
  EXPECT_NEAR(fit.line.axis_unit.x, 1.0, 1e-15);
  EXPECT_NEAR(fit.rms_mm, std::sqrt(0.5), 1e-15);
}

TEST(FitLine, NoNeighbouringLineFitsBetter) {
  base::Rng rng(1);
  const auto squares = [](const Line& line, const std::vector<WeightedPoint>& points) {
    double sum = 0.0;
    for (const WeightedPoint& p : points) {
      sum += p.weight * distance_mm(line, p.position) * distance_mm(line, p.position);
    }
    return sum;
  };
  for (int round = 0; round < 50; ++round) {
    const auto points = noisy_hole(rng, line_through({0, 0, 0}, {0.3, -0.2, 1.0}), 0.1);
    const LineFit fit = fitted(points);
    const double best = squares(fit.line, points);
    for (int k = 0; k < 20; ++k) {
      Line other = fit.line;
      const Vec3 turn(rng.uniform(-1e-3, 1e-3), rng.uniform(-1e-3, 1e-3), 0.0);
      other.axis_unit = math::unit(math::rotated_small(other.axis_unit, turn));
      other.point += Vec3(rng.uniform(-1e-3, 1e-3), rng.uniform(-1e-3, 1e-3), 0.0);
      EXPECT_GE(squares(other, points), best - 1e-12);
    }
  }
}

TEST(FitLine, WeightCountsLikeRepetition) {
  const std::vector<WeightedPoint> weighted = {
      {{0, 0, 0}, 3.0}, {{0.2, 0, 1}, 1.0}, {{0, 0.1, 2}, 2.0}};
  std::vector<WeightedPoint> repeated;
  for (const WeightedPoint& point : weighted) {
    for (int k = 0; k < static_cast<int>(point.weight); ++k) {
      repeated.push_back({point.position, 1.0});
    }
  }
  const LineFit a = fitted(weighted);
  const LineFit b = fitted(repeated);
  EXPECT_LT(length(a.line.axis_unit - b.line.axis_unit), 1e-14);
  EXPECT_NEAR(a.rms_mm, b.rms_mm, 1e-14);
}

TEST(FitLine, TurnsAndMovesWithItsPoints) {
  base::Rng rng(2);
  auto points = noisy_hole(rng, line_through({0, 0, 0}, {0.1, 0.2, 1.0}), 0.05);
  const LineFit before = fitted(points);
  const Vec3 axis = math::unit(Vec3(1.0, 2.0, -0.5));
  const math::Radians turn(0.7);
  for (WeightedPoint& point : points) {
    point.position = math::rotated(point.position, axis, turn) + Vec3(100.0, -50.0, 20.0);
  }
  const LineFit after = fitted(points);
  EXPECT_LT(length(after.line.axis_unit - math::rotated(before.line.axis_unit, axis, turn)), 1e-11);
  EXPECT_NEAR(after.rms_mm, before.rms_mm, 1e-12);
}

TEST(FitLine, AxisPointsFromFirstToLast) {
  EXPECT_LT(fitted({{{0, 0, 9}, 1}, {{0, 0.1, 5}, 1}, {{0, 0, 1}, 1}}).line.axis_unit.z, 0.0);
  EXPECT_GT(fitted({{{0, 0, 1}, 1}, {{0, 0.1, 5}, 1}, {{0, 0, 9}, 1}}).line.axis_unit.z, 0.0);
}

TEST(FitLine, DegenerateInputIsRefused) {
  using Points = std::vector<WeightedPoint>;
  const Vec3 p(0.1, 0.2, 0.3);
  for (const Points& points :
       {Points{}, Points{{p, 1.0}}, Points{{p, 1.0}, {p, 2.0}, {p, 0.7}},
        Points{{p, 1.0}, {{5, 5, 5}, 0.0}}, Points{{p, 1.0}, {{5, 5, 5}, -1.0}},
        Points{{p, 1.0}, {{std::nan(""), 0, 0}, 1.0}}}) {
    const base::Result<LineFit> fit = fit_line(points);
    ASSERT_FALSE(fit.has_value());
    EXPECT_EQ(fit.error().code, base::ErrorCode::kInvalidArgument);
  }
}

}  // namespace
}  // namespace driftbench::geometry
