// Unit vectors and perpendiculars.
#include "math/vec.h"

#include "support/contract_guard.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::math {
namespace {

Vec3 random_vector(base::Rng& rng, double size) {
  const double x = rng.uniform(-size, size);
  const double y = rng.uniform(-size, size);
  const double z = rng.uniform(-size, size);
  return {x, y, z};
}

TEST(Unit, HasLengthOneAndTheSameDirection) {
  base::Rng rng(1);
  for (int i = 0; i < 1000; ++i) {
    const Vec3 v = random_vector(rng, 20.0);
    EXPECT_NEAR(length(unit(v)), 1.0, 4e-16);
    EXPECT_NEAR(dot(unit(v), v), length(v), 1e-13);
  }
  EXPECT_EQ(unit(Vec3(0.0, 3.0, 4.0)), Vec3(0.0, 0.6, 0.8));
}

TEST(Unit, ZeroBreaksTheContract) {
  const support::ContractGuard guard;
  EXPECT_THROW(static_cast<void>(unit(Vec3(0.0))), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(unit(Vec3(std::nan(""), 0.0, 1.0))), support::BrokenContract);
}

TEST(AnyPerpendicular, IsAUnitVectorAcross) {
  base::Rng rng(2);
  for (int i = 0; i < 1000; ++i) {
    const Vec3 axis = random_vector(rng, 5.0);
    const Vec3 across = any_perpendicular(axis);
    EXPECT_NEAR(length(across), 1.0, 4e-16);
    EXPECT_NEAR(dot(across, unit(axis)), 0.0, 1e-15);
  }
  for (const Vec3& axis : {Vec3(1, 0, 0), Vec3(0, 1, 0), Vec3(0, 0, -1), Vec3(1, 1, 1)}) {
    EXPECT_NEAR(dot(any_perpendicular(axis), axis), 0.0, 1e-15);
  }
}

TEST(IsFinite, SeesEveryComponent) {
  const double infinite = HUGE_VAL;
  EXPECT_TRUE(is_finite(Vec3(1.0, -2.0, 0.0)));
  EXPECT_FALSE(is_finite(Vec3(infinite, 0.0, 0.0)));
  EXPECT_FALSE(is_finite(Vec3(0.0, std::nan(""), 0.0)));
  EXPECT_FALSE(is_finite(Vec3(0.0, 0.0, -infinite)));
  EXPECT_FALSE(is_finite(Vec2(0.0, infinite)));
}

}  // namespace
}  // namespace driftbench::math
