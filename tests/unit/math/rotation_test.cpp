// Laws of rotations: length, handedness, composition, the tiny-angle limit.
#include "math/rotation.h"

#include "base/random.h"
#include "math/elementary.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::math {
namespace {

constexpr double kTolerance = 1e-14;  // a few roundings of numbers near 1 ... 10

Vec3 random_vector(base::Rng& rng, double size) {
  const double x = rng.uniform(-size, size);
  const double y = rng.uniform(-size, size);
  const double z = rng.uniform(-size, size);
  return {x, y, z};
}

void expect_near(const Vec3& a, const Vec3& b, double tolerance) {
  EXPECT_NEAR(a.x, b.x, tolerance);
  EXPECT_NEAR(a.y, b.y, tolerance);
  EXPECT_NEAR(a.z, b.z, tolerance);
}

TEST(Rotated, QuarterTurnsFollowTheRightHand) {
  const Radians quarter(kPi / 2);
  expect_near(rotated({1, 0, 0}, {0, 0, 1}, quarter), {0, 1, 0}, kTolerance);
  expect_near(rotated({0, 1, 0}, {1, 0, 0}, quarter), {0, 0, 1}, kTolerance);
  expect_near(rotated({0, 0, 1}, {0, 1, 0}, quarter), {1, 0, 0}, kTolerance);
  expect_near(rotated_about_z({1, 0, 5}, quarter), {0, 1, 5}, kTolerance);
}

TEST(Rotated, KeepsLengthAxisPartAndAngles) {
  base::Rng rng(1);
  for (int i = 0; i < 1000; ++i) {
    const Vec3 v = random_vector(rng, 3.0);
    const Vec3 w = random_vector(rng, 3.0);
    const Vec3 axis = unit(random_vector(rng, 1.0));
    const Radians angle(rng.uniform(-7.0, 7.0));
    const Vec3 turned = rotated(v, axis, angle);
    EXPECT_NEAR(length(turned), length(v), kTolerance);
    EXPECT_NEAR(dot(turned, axis), dot(v, axis), kTolerance);
    EXPECT_NEAR(dot(turned, rotated(w, axis, angle)), dot(v, w), 1e-13);
  }
}

TEST(Rotated, TurnsAddUpAndUndo) {
  base::Rng rng(2);
  for (int i = 0; i < 1000; ++i) {
    const Vec3 v = random_vector(rng, 3.0);
    const Vec3 axis = unit(random_vector(rng, 1.0));
    const Radians a(rng.uniform(-3.0, 3.0));
    const Radians b(rng.uniform(-3.0, 3.0));
    expect_near(rotated(rotated(v, axis, a), axis, b), rotated(v, axis, a + b), kTolerance);
    expect_near(rotated(rotated(v, axis, a), axis, -a), v, kTolerance);
  }
}

TEST(RotatedSmall, EqualsTheAxisFormAtEverySize) {
  base::Rng rng(3);
  for (const double size : {1e-12, 1e-6, 1e-3, 0.0099, 0.0101, 0.3, 3.0}) {
    for (int i = 0; i < 100; ++i) {
      const Vec3 v = random_vector(rng, 3.0);
      const Vec3 axis = unit(random_vector(rng, 1.0));
      expect_near(rotated_small(v, axis * size), rotated(v, axis, Radians(size)), kTolerance);
    }
  }
}

TEST(RotatedSmall, ZeroLeavesTheVectorAlone) {
  EXPECT_EQ(rotated_small({1.0, 2.0, 3.0}, Vec3(0.0)), Vec3(1.0, 2.0, 3.0));
}

TEST(RotatedSmall, TinyTurnIsNotLost) {
  // 1e-12 rad moves a point at 10 mm by 1e-11 mm; cos(t) alone would round it away.
  const Vec3 moved = rotated_small({10.0, 0.0, 0.0}, {0.0, 0.0, 1e-12});
  EXPECT_NEAR(moved.y, 1e-11, 1e-26);
}

TEST(RotatedSmall, LengthDoesNotCreepOverManySteps) {
  Vec3 axis(0.0, 0.6, 0.8);
  for (int step = 0; step < 20'000; ++step) {
    axis = rotated_small(axis, {1e-4, -2e-4, 5e-5});
  }
  EXPECT_NEAR(length(axis), 1.0, 1e-12);  // 20,000 roundings of 1e-16, worst case 2e-12
}

TEST(FrameFromAxis, IsRightHandedAndOrthonormal) {
  base::Rng rng(4);
  for (int i = 0; i < 1000; ++i) {
    const Vec3 axis = random_vector(rng, 4.0);
    const Vec3 hint = random_vector(rng, 4.0);
    const Mat3 frame = frame_from_axis(axis, hint);
    expect_near(frame[2], unit(axis), kTolerance);
    expect_near(cross(frame[0], frame[1]), frame[2], kTolerance);
    EXPECT_NEAR(dot(frame[0], frame[1]), 0.0, kTolerance);
    EXPECT_NEAR(dot(frame[0], frame[2]), 0.0, kTolerance);
    EXPECT_GE(dot(frame[0], hint), 0.0) << "x leans to the hint";
    EXPECT_NEAR(dot(frame[1], hint), 0.0, 1e-13) << "y has nothing of the hint";
  }
}

TEST(FrameFromAxis, UselessHintIsReplaced) {
  for (const Vec3& hint : {Vec3(0.0), Vec3(0.0, 0.0, 2.0), Vec3(0.0, 0.0, -1.0)}) {
    const Mat3 frame = frame_from_axis({0.0, 0.0, 3.0}, hint);
    EXPECT_NEAR(length(frame[0]), 1.0, kTolerance);
    expect_near(cross(frame[0], frame[1]), {0.0, 0.0, 1.0}, kTolerance);
  }
}

}  // namespace
}  // namespace driftbench::math
