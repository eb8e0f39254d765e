#include "volume/carve.h"

#include "specimen/block.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace driftbench {
namespace {

constexpr std::uint16_t kTick = 7;

volume::Volume fresh(double voxel_mm = 0.2) {
  specimen::BlockSpec spec;
  spec.voxel_mm = voxel_mm;
  return std::move(*specimen::build_block(spec));
}

volume::RevolvedSolid twist(double diameter_mm) {
  volume::RevolvedSolid solid;
  solid.radius_mm = 0.5 * diameter_mm;
  return solid;
}

std::uint64_t coverage_sum(const volume::Volume& volume) {
  std::uint64_t sum = 0;
  for (const std::uint8_t cover : volume.coverage) {
    sum += cover;
  }
  return sum;
}

// Conservation: what carve reports is exactly what the coverage lost, to the unit.
TEST(Carve, ReportsExactlyTheCoverageThatIsGone) {
  volume::Volume volume = fresh();
  const std::uint64_t before = coverage_sum(volume);
  const math::Vec3 axis = math::unit(math::Vec3(0.1, -0.05, 1.0));
  const std::uint64_t lost =
      volume::carve(volume, twist(2.7), {0.3, 0.2, -7.0}, axis, 0.0, 20.0, kTick);
  EXPECT_GT(lost, 0U);
  EXPECT_EQ(before - coverage_sum(volume), lost);
  EXPECT_EQ(volume.lost_coverage, lost);
}

// Closed form: cylinder to the platform plus cone, pi r^2 (h + c/3).
TEST(Carve, RemovesTheVolumeOfCylinderAndCone) {
  for (const double voxel_mm : {0.1, 0.2}) {
    volume::Volume volume = fresh(voxel_mm);
    const double radius = 1.35;
    const double point = radius * 0.51503807491005421 / 0.85716730070211229;  // 118 degrees
    volume::carve(volume, twist(2.0 * radius), {0.13, -0.41, -8.0}, {0.0, 0.0, 1.0}, 0.0, 20.0,
                  kTick);
    const double exact = std::numbers::pi * radius * radius * (8.0 - point + point / 3.0);
    EXPECT_NEAR(volume.removed_mm3(), exact, 0.01 * exact) << voxel_mm;
  }
}

TEST(Carve, DoesNothingTwice) {
  volume::Volume volume = fresh();
  volume::carve(volume, twist(2.0), {0.0, 0.0, -5.0}, {0.0, 0.0, 1.0}, 0.0, 12.0, kTick);
  EXPECT_EQ(volume::carve(volume, twist(2.0), {0.0, 0.0, -5.0}, {0.0, 0.0, 1.0}, 0.0, 12.0, kTick),
            0U);
}

TEST(Carve, OnlyEverLowersCoverageAndStampsTheTickWhereItDid) {
  volume::Volume volume = fresh();
  volume::carve(volume, twist(3.4), {0.2, 0.1, -6.0}, {0.0, 0.0, 1.0}, 0.0, 12.0, kTick);
  for (std::size_t i = 0; i < volume.coverage.size(); ++i) {
    ASSERT_LE(volume.coverage[i], volume.initial_coverage[i]);
    ASSERT_EQ(volume.removal_tick[i] == kTick, volume.coverage[i] < volume.initial_coverage[i]);
  }
}

TEST(Carve, InTwoStretchesIsTheSameAsInOne) {
  volume::Volume whole = fresh();
  volume::Volume parts = fresh();
  const math::Vec3 axis = math::unit(math::Vec3(0.05, 0.08, 1.0));
  volume::carve(whole, twist(2.0), {0.0, 0.0, -9.0}, axis, 0.0, 14.0, kTick);
  volume::carve(parts, twist(2.0), {0.0, 0.0, -9.0}, axis, 7.0, 14.0, kTick);
  volume::carve(parts, twist(2.0), {0.0, 0.0, -9.0}, axis, 0.0, 7.0, kTick);
  EXPECT_EQ(whole.coverage, parts.coverage);
}

TEST(Carve, MirrorsWithTheDrill) {
  volume::Volume left = fresh();
  volume::Volume right = fresh();
  const math::Vec3 lean = math::unit(math::Vec3(0.1, 0.03, 1.0));
  volume::carve(left, twist(2.0), {-0.7, 0.2, -5.0}, {-lean.x, lean.y, lean.z}, 0.0, 12.0, kTick);
  volume::carve(right, twist(2.0), {0.7, 0.2, -5.0}, lean, 0.0, 12.0, kTick);
  // Bit for bit but for single-precision rounding of the offsets: one coverage unit.
  EXPECT_NEAR(static_cast<double>(left.lost_coverage), static_cast<double>(right.lost_coverage),
              1e-5 * static_cast<double>(left.lost_coverage));
}

TEST(Restore, EqualsAFreshSpecimen) {
  volume::Volume volume = fresh();
  const volume::Volume untouched = fresh();
  volume::carve(volume, twist(4.0), {0.0, 0.0, -9.0}, {0.0, 0.0, 1.0}, 0.0, 14.0, kTick);
  volume.restore();
  EXPECT_EQ(volume.coverage, untouched.coverage);
  EXPECT_EQ(volume.removal_tick, untouched.removal_tick);
  EXPECT_EQ(volume.lost_coverage, 0U);
}

TEST(Carve, BallLeavesAHemisphere) {
  volume::Volume volume = fresh(0.1);
  volume::RevolvedSolid ball;
  ball.point = volume::RevolvedSolid::Point::kBall;
  ball.radius_mm = 1.0;
  ball.neck_radius_mm = 0.6;
  volume::carve(volume, ball, {0.0, 0.0, -1.0}, {0.0, 0.0, 1.0}, 0.0, 3.0, kTick);
  const double exact = 2.0 / 3.0 * std::numbers::pi;
  EXPECT_NEAR(volume.removed_mm3(), exact, 0.02 * exact);
}

}  // namespace
}  // namespace driftbench
