#include "support/bench_rig.h"

#include <cmath>

namespace driftbench {
namespace {

using testing::block;
using testing::drill;
using testing::Outcome;

/// Lattice and step of a run.
struct Resolution {
  double voxel_mm = 0.15;
  double step_s = drilling::kStep_s;
};

/// Two drills, one after the other.
Outcome two_drills(specimen::BlockSpec spec, const Resolution& resolution) {
  spec.voxel_mm = resolution.voxel_mm;
  volume::Volume volume = block(spec);
  const Outcome first =
      drill(volume, {.diameter_mm = 2.0, .depth_mm = 6.0, .step_s = resolution.step_s});
  Outcome second = drill(volume, {.diameter_mm = 3.4,
                                  .depth_mm = 6.0,
                                  .start_mm = {first.mouth_mm.x, first.mouth_mm.y},
                                  .hand_mm = {first.mouth_mm.x, first.mouth_mm.y},
                                  .step_s = resolution.step_s});
  second.time_s += first.time_s;
  return second;
}

double lean_deg(const Outcome& outcome) {
  return std::acos(outcome.axis.z) * 57.29577951308232;
}

/// Bounds of the design: 0.05 mm, 0.3 degrees, 5 % of the drilling time.
void expect_close(const specimen::BlockSpec& spec, const Resolution& fine) {
  const Outcome here = two_drills(spec, {});
  const Outcome there = two_drills(spec, fine);
  EXPECT_LT(math::length(here.mouth_mm - there.mouth_mm), 0.05);
  EXPECT_LT(math::length(here.tip_mm - there.tip_mm), 0.05);
  EXPECT_NEAR(lean_deg(here), lean_deg(there), 0.3);
  EXPECT_NEAR(here.time_s, there.time_s, 0.05 * there.time_s);
}

TEST(Convergence, HalvingTheVoxelChangesLittleInAUniformBlock) {
  expect_close(testing::uniform_block(specimen::DensityClass::kD2), {.voxel_mm = 0.075});
}

TEST(Convergence, HalvingTheVoxelChangesLittleOnTheBoundary) {
  expect_close(testing::halves(), {.voxel_mm = 0.075});
}

TEST(Convergence, HalvingTheStepChangesLittleInAUniformBlock) {
  expect_close(testing::uniform_block(specimen::DensityClass::kD2),
               {.step_s = 0.5 * drilling::kStep_s});
}

TEST(Convergence, HalvingTheStepChangesLittleOnTheBoundary) {
  expect_close(testing::halves(), {.step_s = 0.5 * drilling::kStep_s});
}

}  // namespace
}  // namespace driftbench
