// Distances and angles of lines.
#include "geometry/line.h"

#include "support/contract_guard.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::geometry {
namespace {

using math::Vec3;

TEST(Line, DistanceIsAcrossTheAxis) {
  const Line line{{1.0, 2.0, 3.0}, {0.0, 0.0, 1.0}};
  EXPECT_EQ(distance_mm(line, {4.0, 6.0, -10.0}), 5.0);  // 3-4-5 triangle
  EXPECT_EQ(closest_point(line, {4.0, 6.0, -10.0}), Vec3(1.0, 2.0, -10.0));
}

TEST(Line, NoPointOfTheLineIsNearerThanTheClosest) {
  base::Rng rng(1);
  for (int i = 0; i < 200; ++i) {
    const Line line = line_through({rng.uniform01(), rng.uniform01(), 0.0},
                                   {rng.uniform01(), rng.uniform01(), 1.0 + rng.uniform01()});
    const Vec3 p(rng.uniform(-3, 3), rng.uniform(-3, 3), rng.uniform(-3, 3));
    const double nearest = distance_mm(line, p);
    for (double t = -5.0; t <= 5.0; t += 0.25) {
      EXPECT_GE(length(p - (line.point + line.axis_unit * t)), nearest - 1e-12);
    }
  }
}

TEST(Line, PlaneIsPiercedWhereBothAgree) {
  const Line line = line_through({0.0, 0.0, 5.0}, {1.0, 2.0, 4.0});
  const auto hit = plane_intersection(line, {9.0, 9.0, 2.0}, {0.0, 0.0, 1.0});
  ASSERT_TRUE(hit.has_value());
  EXPECT_NEAR(hit->x, 3.0, 1e-14);
  EXPECT_NEAR(hit->y, 6.0, 1e-14);
  EXPECT_NEAR(hit->z, 2.0, 1e-14);
}

TEST(Line, ParallelPlaneIsNeverPierced) {
  const Line line{{0.0, 0.0, 1.0}, {1.0, 0.0, 0.0}};
  EXPECT_FALSE(plane_intersection(line, Vec3(0.0), {0.0, 0.0, 1.0}).has_value());
}

TEST(AngleBetween, IsAccurateFromTinyToStraight) {
  const Vec3 z(0.0, 0.0, 1.0);
  EXPECT_EQ(angle_between(z, z).value, 0.0);
  EXPECT_EQ(angle_between(z, -z).value, math::kPi);
  EXPECT_NEAR(angle_between(z, {1.0, 0.0, 0.0}).value, math::kPi / 2, 1e-16);
  // acos of the dot product would give 0 here.
  EXPECT_NEAR(angle_between(z, {1e-9, 0.0, 1.0}).value, 1e-9, 1e-24);
  EXPECT_NEAR(angle_between({0.0, 0.0, 2.0}, {0.0, 3.0, 3.0}).value, math::kPi / 4, 1e-15);
}

TEST(AngleBetween, ZeroVectorBreaksTheContract) {
  const support::ContractGuard guard;
  EXPECT_THROW(static_cast<void>(angle_between(Vec3(0.0), {0, 0, 1})), support::BrokenContract);
}

}  // namespace
}  // namespace driftbench::geometry
