// Laws of placing an implant: nothing here is scripted in the step.
#include "support/implant_rig.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench {
namespace {

using specimen::DensityClass;
using testing::ImplantRig;
using testing::Placing;
using testing::ReadyHole;

constexpr double kDegreesPerRad = 57.29577951308232;
constexpr double kNmmPerNcm = 10.0;

volume::Volume block_with_hole(DensityClass density, const ReadyHole& hole = {},
                               double voxel_mm = 0.2) {
  specimen::BlockSpec spec = testing::uniform_block(density);
  spec.voxel_mm = voxel_mm;
  volume::Volume volume = testing::block(spec);
  testing::make_hole(volume, hole);
  return volume;
}

/// Torque at the moment the platform reaches the surface.
double final_torque_nmm(DensityClass density, const ReadyHole& hole = {}, double voxel_mm = 0.2) {
  volume::Volume volume = block_with_hole(density, hole, voxel_mm);
  ImplantRig rig(volume);
  EXPECT_TRUE(rig.place({}));
  return rig.now().torque_nmm;
}

double lean_deg(const drilling::DrillPose& pose, const math::Vec3& axis) {
  return std::asin(math::length(math::cross(pose.axis_out_unit, axis))) * kDegreesPerRad;
}

TEST(Implant, TurningInAirMeetsNoTorqueAndDoesNotAdvance) {
  volume::Volume volume = block_with_hole(DensityClass::kD2);
  ImplantRig rig(volume);
  rig.place({.longest_steps = 0});
  const double height_mm = rig.pose().tip_mm.z;
  rig.run({}, 25.0 / 60.0, 0.0, 2000);
  EXPECT_EQ(rig.peak_nmm(), 0.0);
  EXPECT_NEAR(rig.pose().tip_mm.z, height_mm, 1e-9);
}

TEST(Implant, TorqueRisesWithDensity) {
  const double d4 = final_torque_nmm(DensityClass::kD4);
  const double d3 = final_torque_nmm(DensityClass::kD3);
  const double d2 = final_torque_nmm(DensityClass::kD2);
  const double d1 = final_torque_nmm(DensityClass::kD1);
  EXPECT_GT(d3, 2.0 * d4);
  EXPECT_GT(d2, 1.5 * d3);
  EXPECT_GT(d1, 1.3 * d2);
  EXPECT_GT(d4, 0.0);
}

TEST(Implant, TorqueRisesAsThePreparationIsNarrower) {
  const double wide = final_torque_nmm(DensityClass::kD3, {.diameter_mm = 4.0});
  const double middle = final_torque_nmm(DensityClass::kD3, {.diameter_mm = 3.4});
  const double narrow = final_torque_nmm(DensityClass::kD3, {.diameter_mm = 2.7});
  EXPECT_GT(middle, 1.5 * wide);
  EXPECT_GT(narrow, 1.2 * middle);
}

TEST(Implant, TorqueRisesWithDepth) {
  volume::Volume volume = block_with_hole(DensityClass::kD2);
  ImplantRig rig(volume);
  ASSERT_TRUE(rig.place({}));
  const std::vector<double>& torque = rig.torque_by_mm();
  ASSERT_GE(torque.size(), 9U);
  for (std::size_t i = 1; i < torque.size(); ++i) {
    EXPECT_GT(torque[i], torque[i - 1]) << "at " << i + 1 << " mm";
  }
}

// Insertion torques of 15 to 50 N cm in medium foam and bone: common practice, no source.
TEST(Implant, TorqueInMediumFoamIsWithinTheUsualRange) {
  for (const DensityClass density : {DensityClass::kD2, DensityClass::kD3}) {
    const double torque_ncm = final_torque_nmm(density) / kNmmPerNcm;
    EXPECT_GT(torque_ncm, 15.0);
    EXPECT_LT(torque_ncm, 50.0);
  }
  // Dense foam with the same hole passes 50: it must be widened or tapped (trade teaching value);
  // the softest stays below 15: low primary stability.
  EXPECT_GT(final_torque_nmm(DensityClass::kD1) / kNmmPerNcm, 50.0);
  EXPECT_LT(final_torque_nmm(DensityClass::kD4) / kNmmPerNcm, 15.0);
}

TEST(Implant, AdvancesByItsLeadOnceTheThreadHasBitten) {
  volume::Volume volume = block_with_hole(DensityClass::kD3);
  ImplantRig rig(volume);
  ASSERT_TRUE(rig.place({.platform_mm = -4.0}));
  const double before_mm = rig.platform_depth_mm();
  constexpr double kRevPerS = 0.5;
  rig.run({}, kRevPerS, 5.0, 4000);  // two turns of 1.2 mm
  EXPECT_NEAR(rig.platform_depth_mm() - before_mm, 2.4, 0.12);
}

TEST(Implant, StaysWhereItSitsWhenNothingTurns) {
  volume::Volume volume = block_with_hole(DensityClass::kD3);
  ImplantRig rig(volume);
  ASSERT_TRUE(rig.place({.platform_mm = -1.0}));
  const drilling::DrillPose seated = rig.pose();
  rig.run({.hand_mm = {1.5, 0.0}}, 0.0, 20.0, 2000);   // pressed and pulled aside
  rig.run({.hand_mm = {1.5, 0.0}}, 0.0, -12.0, 2000);  // lifted
  EXPECT_LT(math::length(rig.pose().tip_mm - seated.tip_mm), 0.15);
  EXPECT_LT(lean_deg(rig.pose(), seated.axis_out_unit), 1.0);
  EXPECT_EQ(rig.now().torque_nmm, 0.0);
}

TEST(Implant, FollowsTheHoleAndNotTheAim) {
  const double aim_rad = 5.0 / kDegreesPerRad;
  volume::Volume straight = block_with_hole(DensityClass::kD3);
  ImplantRig tilted_hand(straight);
  ASSERT_TRUE(tilted_hand.place({.lean_rad = {aim_rad, 0.0}}));
  EXPECT_LT(lean_deg(tilted_hand.pose(), {0.0, 0.0, 1.0}), 5.0 / 3.0);

  const math::Vec3 axis = math::unit(math::Vec3(std::tan(aim_rad), 0.0, 1.0));
  volume::Volume oblique = block_with_hole(DensityClass::kD3, {.axis_out_unit = axis});
  ImplantRig upright_hand(oblique);
  ASSERT_TRUE(upright_hand.place({}));
  EXPECT_LT(lean_deg(upright_hand.pose(), axis), 5.0 / 3.0);
}

TEST(Implant, MirroredHandGivesMirroredImplant) {
  volume::Volume left = block_with_hole(DensityClass::kD3);
  volume::Volume right = block_with_hole(DensityClass::kD3);
  ImplantRig a(left);
  ImplantRig b(right);
  ASSERT_TRUE(a.place({.platform_mm = -3.0, .hand_mm = {0.4, 0.1}, .lean_rad = {0.05, 0.0}}));
  ASSERT_TRUE(b.place({.platform_mm = -3.0, .hand_mm = {-0.4, 0.1}, .lean_rad = {-0.05, 0.0}}));
  EXPECT_NEAR(a.pose().tip_mm.x, -b.pose().tip_mm.x, 1e-6);
  EXPECT_NEAR(a.pose().tip_mm.y, b.pose().tip_mm.y, 1e-6);
  EXPECT_NEAR(a.pose().tip_mm.z, b.pose().tip_mm.z, 1e-6);
  EXPECT_NEAR(a.now().torque_nmm, b.now().torque_nmm, 1e-4);
}

TEST(Implant, PressingHardInSoftFoamStripsTheThread) {
  const auto placed = [](DensityClass density) {
    volume::Volume volume = block_with_hole(density);
    ImplantRig rig(volume);
    EXPECT_TRUE(rig.place({.press_n = 20.0}));
    return rig.now();
  };
  const drilling::ImplantOutput soft = placed(DensityClass::kD4);
  EXPECT_LT(soft.grip, 0.05);
  EXPECT_LT(soft.torque_nmm, 0.3 * final_torque_nmm(DensityClass::kD4));
  EXPECT_GT(placed(DensityClass::kD2).grip, 0.9);
}

TEST(Implant, TurningOnWhileHeldUpStripsSoftFoam) {
  volume::Volume volume = block_with_hole(DensityClass::kD4);
  ImplantRig rig(volume);
  ASSERT_TRUE(rig.place({.platform_mm = -1.0}));
  const double sound_nmm = rig.now().torque_nmm;
  for (int i = 0; i < 3000 && rig.now().grip > 0.05; ++i) {
    rig.run({}, 0.5, -250.0, 1);  // more than the thread can carry
  }
  EXPECT_TRUE(rig.now().in_contact);
  EXPECT_LT(rig.now().grip, 0.05);
  EXPECT_LT(rig.now().torque_nmm, 0.5 * sound_nmm);
}

TEST(Implant, BackingOutBringsTheTorqueToZero) {
  volume::Volume volume = block_with_hole(DensityClass::kD3);
  ImplantRig rig(volume);
  ASSERT_TRUE(rig.place({.platform_mm = -2.0}));
  const double seated_nmm = rig.now().torque_nmm;
  const double seated_mm = rig.platform_depth_mm();
  rig.run({}, -0.5, 0.0, 4000);
  EXPECT_NEAR(seated_mm - rig.platform_depth_mm(), 2.4, 0.2);
  EXPECT_LT(rig.now().torque_nmm, seated_nmm);
  EXPECT_GT(rig.now().torque_nmm, 0.0);
  rig.run({}, -0.5, -3.0, 16'000);
  EXPECT_EQ(rig.now().torque_nmm, 0.0);
  EXPECT_FALSE(rig.now().in_contact);
}

TEST(Implant, LeavesTheHoleAsItWasDrilled) {
  volume::Volume volume = block_with_hole(DensityClass::kD3);
  const std::vector<std::uint8_t> before = volume.coverage;
  ImplantRig rig(volume);
  ASSERT_TRUE(rig.place({}));
  EXPECT_EQ(volume.coverage, before);
}

TEST(Implant, TorqueDoesNotHangOnTheLattice) {
  const double coarse = final_torque_nmm(DensityClass::kD3, {}, 0.2);
  const double fine = final_torque_nmm(DensityClass::kD3, {}, 0.1);
  EXPECT_NEAR(coarse / fine, 1.0, 0.08);
}

TEST(Implant, OldKitsHaveAThreadOfUsualProportions) {
  specimen::Implant implant;
  implant.diameter_mm = 4.0;
  implant.length_mm = 8.0;
  const specimen::ImplantThread thread = specimen::thread_of(implant);
  EXPECT_DOUBLE_EQ(thread.core_diameter_mm, 3.2);
  EXPECT_DOUBLE_EQ(thread.apex_diameter_mm, 2.88);
  EXPECT_DOUBLE_EQ(thread.taper_mm, 4.0);
  const drilling::ImplantBody body = drilling::make_implant_body(implant);
  double area = 0.0;
  for (const drilling::ThreadElement& element : body.thread) {
    area += element.area_mm2;
    EXPECT_NEAR(element.radius_mm - element.core_mm, 0.4, 1e-12);
  }
  // Lateral area of the cylinder and of the cone's projection, pi d l each; own arithmetic.
  EXPECT_NEAR(area, 3.14159265358979 * (4.0 * 4.0 + 0.5 * (2.88 + 4.0) * 4.0), 0.3);
}

}  // namespace
}  // namespace driftbench
