#include "support/bench_rig.h"

#include <cmath>

namespace driftbench {
namespace {

using specimen::DensityClass;
using testing::block;
using testing::drill;
using testing::halves;
using testing::Job;
using testing::Outcome;
using testing::uniform_block;

TEST(Conservation, SweptVolumeIsLostVolume) {
  volume::Volume volume = block(halves());
  for (const double diameter : {2.0, 2.7, 3.4, 4.0}) {
    const Outcome outcome = drill(volume, {.diameter_mm = diameter});
    ASSERT_TRUE(outcome.reached);
    EXPECT_NEAR(outcome.swept_mm3, outcome.lost_mm3, 0.03 * outcome.lost_mm3) << diameter;
  }
}

TEST(Conservation, TheContactNeverDoesNegativeWork) {
  volume::Volume volume = block(halves());
  const Outcome outcome = drill(volume, {.hand_mm = {1.0, 0.5}, .slow_wander = true});
  EXPECT_GE(outcome.least_work_mj, 0.0);
}

TEST(Rest, ADrillThatIsNotPressedStaysAndCutsNothing) {
  volume::Volume volume = block(uniform_block(DensityClass::kD2));
  const Outcome outcome = drill(volume, {.press_n = 0.0, .longest_steps = 500});
  EXPECT_EQ(outcome.lost_mm3, 0.0);
  EXPECT_NEAR(outcome.tip_mm.z, 1.0, 1e-9);
}

TEST(Rest, AStillDrillOnlyIndents) {
  volume::Volume still = block(uniform_block(DensityClass::kD2));
  volume::Volume turning = block(uniform_block(DensityClass::kD2));
  const Outcome indented = drill(still, {.rev_per_s = 0.0, .longest_steps = 2000});
  const Outcome cut = drill(turning, {.longest_steps = 2000});
  EXPECT_LT(-indented.tip_mm.z, 0.1 * -cut.tip_mm.z);
}

TEST(Feed, IsMonotonicInPressAndFallsWithDensity) {
  double last_time = 1e9;
  for (const double press : {10.0, 16.0, 24.0}) {
    volume::Volume volume = block(uniform_block(DensityClass::kD2));
    const Outcome outcome = drill(volume, {.press_n = press});
    ASSERT_TRUE(outcome.reached) << press;
    EXPECT_LT(outcome.time_s, last_time);
    last_time = outcome.time_s;
  }
  last_time = 0.0;
  for (const DensityClass density :
       {DensityClass::kD4, DensityClass::kD3, DensityClass::kD2, DensityClass::kD1}) {
    volume::Volume volume = block(uniform_block(density));
    const Outcome outcome = drill(volume, {});
    ASSERT_TRUE(outcome.reached);
    EXPECT_GT(outcome.time_s, last_time);
    last_time = outcome.time_s;
  }
}

// Mirrored input with the spin reversed gives mirrored output. The lattice is symmetric; what is
// left is rounding in the order of sums.
TEST(Mirror, OfInputAndSpinMirrorsTheHole) {
  const Job job{.start_mm = {0.4, 0.3}, .hand_mm = {0.7, -0.2}, .lean_rad = {0.05, 0.02}};
  Job mirrored = job;
  mirrored.start_mm.y = -mirrored.start_mm.y;
  mirrored.hand_mm.y = -mirrored.hand_mm.y;
  mirrored.lean_rad.y = -mirrored.lean_rad.y;
  mirrored.spin_direction = 1.0;
  volume::Volume one = block(halves());
  volume::Volume other = block(halves());
  const Outcome a = drill(one, job);
  const Outcome b = drill(other, mirrored);
  EXPECT_NEAR(a.tip_mm.x, b.tip_mm.x, 1e-3);
  EXPECT_NEAR(a.tip_mm.y, -b.tip_mm.y, 1e-3);
  EXPECT_NEAR(a.tip_mm.z, b.tip_mm.z, 1e-3);
  EXPECT_NEAR(a.time_s, b.time_s, 0.002);
}

TEST(Determinism, TheSameJobGivesTheSameBits) {
  volume::Volume one = block(halves());
  volume::Volume other = block(halves());
  const Job job{.hand_mm = {0.3, 0.1}, .slow_wander = true, .seed = 99};
  const Outcome a = drill(one, job);
  const Outcome b = drill(other, job);
  EXPECT_EQ(a.tip_mm, b.tip_mm);
  EXPECT_EQ(one.coverage, other.coverage);
}

}  // namespace
}  // namespace driftbench
