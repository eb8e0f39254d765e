#include "support/bench_rig.h"

#include <cmath>

namespace driftbench {
namespace {

using testing::block;
using testing::drill;
using testing::Outcome;

/// Two drills, one after the other, on one lattice.
Outcome two_drills(specimen::BlockSpec spec, double voxel_mm) {
  spec.voxel_mm = voxel_mm;
  volume::Volume volume = block(spec);
  const Outcome first = drill(volume, {.diameter_mm = 2.0, .depth_mm = 6.0});
  Outcome second = drill(volume, {.diameter_mm = 3.4,
                                  .depth_mm = 6.0,
                                  .start_mm = {first.mouth_mm.x, first.mouth_mm.y},
                                  .hand_mm = {first.mouth_mm.x, first.mouth_mm.y}});
  second.time_s += first.time_s;
  return second;
}

double lean_deg(const Outcome& outcome) {
  return std::acos(outcome.axis.z) * 57.29577951308232;
}

// Bounds of the design: 0.05 mm, 0.3 degrees, 5 % of the drilling time.
TEST(Convergence, HalvingTheVoxelChangesLittleInAUniformBlock) {
  const specimen::BlockSpec spec = testing::uniform_block(specimen::DensityClass::kD2);
  const Outcome coarse = two_drills(spec, 0.2);
  const Outcome fine = two_drills(spec, 0.1);
  EXPECT_LT(math::length(coarse.mouth_mm - fine.mouth_mm), 0.05);
  EXPECT_LT(math::length(coarse.tip_mm - fine.tip_mm), 0.05);
  EXPECT_NEAR(coarse.time_s, fine.time_s, 0.05 * fine.time_s);
}

TEST(Convergence, HalvingTheVoxelChangesLittleOnTheBoundary) {
  const Outcome coarse = two_drills(testing::halves(), 0.2);
  const Outcome fine = two_drills(testing::halves(), 0.1);
  EXPECT_LT(math::length(coarse.mouth_mm - fine.mouth_mm), 0.05);
  EXPECT_NEAR(lean_deg(coarse), lean_deg(fine), 0.3);
  EXPECT_NEAR(coarse.time_s, fine.time_s, 0.05 * fine.time_s);
}

}  // namespace
}  // namespace driftbench
