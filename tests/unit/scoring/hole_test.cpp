// Holes stamped from closed formulas must be measured back.
#include "scoring/hole.h"

#include "stamped_block.h"

#include "math/angle.h"
#include "math/rotation.h"
#include "scoring/hole_floor.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <ctime>
#include <string>

namespace driftbench::scoring {
namespace {

using math::Vec3;

/// Bounds of the measurement on analytic holes; floors are found within 0.02 mm, 0.05 is promised.
constexpr double kPoint_mm = 0.03;
constexpr double kFloor_mm = 0.03;
constexpr double kAngle_deg = 0.05;
constexpr double kDiameter_mm = 0.02;

/// A hole that enters at a point of the platform plane and leans by tilts about y and x.
StampedHole hole_from(const Vec3& entry, double depth_mm, double lean_md_deg, double lean_bl_deg,
                      double diameter_mm) {
  const double md = std::tan(lean_md_deg * math::kPi / 180.0);
  const double bl = std::tan(lean_bl_deg * math::kPi / 180.0);
  StampedHole hole;
  hole.axis_out_unit = math::unit(Vec3(-md, -bl, 1.0));  // apex leans to +md, +bl
  hole.shoulder_mm = entry - depth_mm * hole.axis_out_unit;
  hole.diameter_mm = diameter_mm;
  hole.sweep_unit = math::unit(Vec3(hole.axis_out_unit.z, 0.0, -hole.axis_out_unit.x));
  return hole;
}

HoleMeasures measured(const volume::Volume& volume, const specimen::Plan& plan, double diameter) {
  const base::Result<HoleMeasures> result = measure_hole(volume, plan, diameter);
  EXPECT_TRUE(result.has_value()) << (result ? "" : result.error().message);
  return result.value_or(HoleMeasures{});
}

class AnalyticHole : public testing::TestWithParam<double> {
 protected:
  StampedBlock block() const {
    StampedBlock block;
    block.voxel_mm = GetParam();
    block.shift_mm = {0.031, -0.047, 0.022};  // nothing lies on the lattice by luck
    return block;
  }

  HoleMeasures round_trip(const StampedHole& hole) const {
    volume::Volume volume = stamped_block(block());
    stamp(volume, hole);
    return measured(volume, specimen::Plan{}, hole.diameter_mm);
  }
};

TEST_P(AnalyticHole, UprightHoleOnThePlanHasNoError) {
  for (const double diameter : {2.0, 2.7, 3.4, 4.0}) {
    const HoleMeasures m = round_trip(hole_from({0.0, 0.0, 0.0}, 10.0, 0.0, 0.0, diameter));
    EXPECT_NEAR(m.deviation.entry_lateral_mm, 0.0, kPoint_mm) << diameter;
    EXPECT_NEAR(m.deviation.apex_global_mm, 0.0, kFloor_mm) << diameter;
    EXPECT_NEAR(m.deviation.angle_deg, 0.0, kAngle_deg) << diameter;
    EXPECT_NEAR(m.depth_error_mm, 0.0, kFloor_mm) << diameter;
    EXPECT_NEAR(m.hole_diameter_mm, diameter, kDiameter_mm) << diameter;
    EXPECT_NEAR(m.oversize_mm, 0.0, kDiameter_mm) << diameter;
    EXPECT_NEAR(m.ovality_mm, 0.0, 0.03) << diameter;
    EXPECT_LT(m.axis_residual_mm, 0.005) << diameter;
  }
}

TEST_P(AnalyticHole, OffsetHoleReportsItsOffset) {
  const HoleMeasures m = round_trip(hole_from({0.73, -1.21, 0.0}, 9.4, 0.0, 0.0, 3.4));
  EXPECT_NEAR(m.deviation.entry_md_mm, 0.73, kPoint_mm);
  EXPECT_NEAR(m.deviation.entry_bl_mm, -1.21, kPoint_mm);
  EXPECT_NEAR(m.deviation.apex_md_mm, 0.73, kPoint_mm);
  EXPECT_NEAR(m.deviation.apex_bl_mm, -1.21, kPoint_mm);
  EXPECT_NEAR(m.depth_error_mm, -0.6, kFloor_mm);
}

TEST_P(AnalyticHole, LeaningHoleReportsItsTilts) {
  const StampedHole hole = hole_from({-0.4, 0.3, 0.0}, 10.0, 5.0, -2.0, 4.0);
  const HoleMeasures m = round_trip(hole);
  EXPECT_NEAR(m.deviation.tilt_md_deg, 5.0, kAngle_deg);
  EXPECT_NEAR(m.deviation.tilt_bl_deg, -2.0, kAngle_deg);
  EXPECT_LT(math::length(m.apex_mm - hole.shoulder_mm), kFloor_mm);
  EXPECT_LT(math::length(m.entry_mm - Vec3(-0.4, 0.3, 0.0)), kPoint_mm);
  EXPECT_NEAR(m.hole_diameter_mm, 4.0, kDiameter_mm);
}

TEST_P(AnalyticHole, SweptHoleReportsTheEllipseOfItsMoments) {
  // A disc of radius R swept over +-a: area pi R^2 + 4 a R; second moments of two half discs and a
  // rectangle, in closed form.
  const double radius = 2.0;
  const double half = 0.25;
  StampedHole hole = hole_from({0.0, 0.0, 0.0}, 10.0, 0.0, 0.0, 2.0 * radius);
  hole.half_sweep_mm = half;
  const double area = math::kPi * radius * radius + 4.0 * half * radius;
  const double disc = math::kPi * radius * radius * radius * radius / 4.0;
  const double across = disc + 4.0 / 3.0 * half * radius * radius * radius;
  const double along = disc + math::kPi * radius * radius * half * half +
                       8.0 / 3.0 * half * radius * radius * radius +
                       4.0 / 3.0 * radius * half * half * half;
  const HoleMeasures m = round_trip(hole);
  EXPECT_NEAR(m.hole_diameter_mm, 2.0 * std::sqrt(area / math::kPi), kDiameter_mm);
  EXPECT_NEAR(m.ovality_mm, 4.0 * (std::sqrt(along / area) - std::sqrt(across / area)), 0.03);
  ASSERT_GT(m.slices.size(), 20U);
  EXPECT_NEAR(m.slices[10].major_mm, 4.0 * std::sqrt(along / area), 0.03);
  EXPECT_NEAR(m.slices[10].minor_mm, 4.0 * std::sqrt(across / area), 0.03);
  const double heading = m.slices[10].major_heading_deg;
  EXPECT_LT(std::min(heading, 180.0 - heading), 2.0);
}

TEST_P(AnalyticHole, ShallowHoleStillHasAFloor) {
  const HoleMeasures m = round_trip(hole_from({0.2, 0.0, 0.0}, 2.2, 0.0, 0.0, 2.7));
  EXPECT_NEAR(m.depth_error_mm, 2.2 - 10.0, kFloor_mm);
  EXPECT_NEAR(m.hole_diameter_mm, 2.7, 0.03);
}

TEST_P(AnalyticHole, FloorIsThatOfTheLastDrillNotOfThePilot) {
  volume::Volume volume = stamped_block(block());
  stamp(volume, hole_from({0.0, 0.0, 0.0}, 11.0, 0.0, 0.0, 2.0));
  stamp(volume, hole_from({0.0, 0.0, 0.0}, 10.6, 0.0, 0.0, 3.4));
  stamp(volume, hole_from({0.0, 0.0, 0.0}, 9.5, 0.0, 0.0, 4.0));
  EXPECT_NEAR(measured(volume, specimen::Plan{}, 4.0).depth_error_mm, -0.5, 0.05);
}

TEST_P(AnalyticHole, ACrestWidenedAfterwardsDoesNotEndTheHole) {
  volume::Volume volume = stamped_block(block());
  stamp(volume, hole_from({0.0, 0.0, 0.0}, 10.0, 0.0, 0.0, 4.0));
  stamp(volume, hole_from({0.0, 0.0, 0.0}, 2.0, 0.0, 0.0, 4.8));
  EXPECT_NEAR(measured(volume, specimen::Plan{}, 4.0).depth_error_mm, 0.0, kFloor_mm);
}

TEST_P(AnalyticHole, AHoleTooNarrowKeepsItsOwnFloor) {
  const HoleMeasures m = round_trip(hole_from({0.0, 0.0, 0.0}, 8.0, 0.0, 0.0, 2.0));
  EXPECT_NEAR(m.depth_error_mm, -2.0, kFloor_mm);
}

TEST_P(AnalyticHole, SlopedTopChangesNeitherAxisNorFloor) {
  StampedBlock sloped = block();
  sloped.top_normal = math::unit(Vec3(std::tan(30.0 * math::kPi / 180.0), 0.0, 1.0));
  volume::Volume volume = stamped_block(sloped);
  const StampedHole hole = hole_from({0.0, 0.0, 0.0}, 10.0, 3.0, 0.0, 4.0);
  stamp(volume, hole);
  const HoleMeasures m = measured(volume, specimen::Plan{}, 4.0);
  EXPECT_NEAR(m.deviation.tilt_md_deg, 3.0, kAngle_deg);
  EXPECT_NEAR(m.hole_diameter_mm, 4.0, kDiameter_mm);
  EXPECT_LT(math::length(m.apex_mm - hole.shoulder_mm), kFloor_mm);
}

INSTANTIATE_TEST_SUITE_P(VoxelSizes, AnalyticHole, testing::Values(0.12, 0.16, 0.2, 0.25),
                         [](const testing::TestParamInfo<double>& param_info) {
                           return "Voxel" + std::to_string(std::lround(1000.0 * param_info.param)) +
                                  "um";
                         });

// Where drills followed different lines, the floors of the narrower ones together can leave a short
// stretch nearly as wide as the widest (seen in an attempt of the virtual operator).
TEST(FullDiameter, IsTheLongStretchAndNotAShortOneBelowIt) {
  const Plateau wide{0.6, 11.4, 2.19, 1.86};
  const Plateau short_stretch{11.8, 12.4, 1.86, 0.0};
  const Plateau long_stretch{11.8, 14.0, 1.95, 0.0};
  const std::array of_two_floors{wide, short_stretch};
  EXPECT_EQ(full_diameter_plateau(of_two_floors, 4.0)->step_mm, wide.step_mm);
  const std::array of_one_deep_drill{wide, long_stretch};
  EXPECT_EQ(full_diameter_plateau(of_one_deep_drill, 4.0)->step_mm, long_stretch.step_mm);
}

TEST(MeasureHole, RemovedVolumeIsThatOfCylinderAndPoint) {
  volume::Volume volume = stamped_block(StampedBlock{});
  stamp(volume, hole_from({0.0, 0.0, 0.0}, 10.0, 0.0, 0.0, 4.0));
  const double point = 2.0 / std::tan(59.0 * math::kPi / 180.0);
  const double expected = math::kPi * 4.0 * (10.0 + point / 3.0);
  const HoleMeasures m = measured(volume, specimen::Plan{}, 4.0);
  EXPECT_NEAR(m.removed_mm3, expected, 0.02 * expected);  // the ramp rounds the edges
  EXPECT_NEAR(m.removed_mm3, volume.removed_mm3(), 1e-9);
}

TEST(MeasureHole, ObliquePlansGiveTheSameMeasures) {
  // The same hole and plan, turned together within the lattice by up to 40 deg.
  for (const double turn_deg : {0.0, 12.0, 25.0, 40.0}) {
    const Vec3 axis = math::unit(Vec3(0.6, 0.8, 0.0));
    const math::Radians turn{math::Degrees(turn_deg)};
    StampedHole hole = hole_from({0.5, -0.3, 0.0}, 9.0, 4.0, 2.0, 3.4);
    hole.axis_out_unit = math::rotated(hole.axis_out_unit, axis, turn);
    hole.shoulder_mm = math::rotated(hole.shoulder_mm, axis, turn);
    StampedBlock block;
    block.size_mm = {22.0, 22.0, 20.0};
    block.top_normal = math::rotated({0.0, 0.0, 1.0}, axis, turn);
    volume::Volume volume = stamped_block(block);
    stamp(volume, hole);
    specimen::Plan plan;
    plan.axis_out_unit = block.top_normal;
    plan.md_hint = math::rotated(plan.md_hint, axis, turn);
    plan.bl_hint = math::rotated(plan.bl_hint, axis, turn);
    const HoleMeasures m = measured(volume, plan, 3.4);
    const double leaned = 9.0 / std::sqrt(1.0 + std::pow(std::tan(4.0 * math::kPi / 180.0), 2) +
                                          std::pow(std::tan(2.0 * math::kPi / 180.0), 2));
    EXPECT_NEAR(m.deviation.entry_md_mm, 0.5, kPoint_mm) << turn_deg;
    EXPECT_NEAR(m.deviation.entry_bl_mm, -0.3, kPoint_mm) << turn_deg;
    EXPECT_NEAR(m.deviation.tilt_md_deg, 4.0, kAngle_deg) << turn_deg;
    EXPECT_NEAR(m.deviation.tilt_bl_deg, 2.0, kAngle_deg) << turn_deg;
    EXPECT_NEAR(m.depth_error_mm, leaned - 10.0, kFloor_mm) << turn_deg;
    EXPECT_NEAR(m.hole_diameter_mm, 3.4, kDiameter_mm) << turn_deg;
  }
}

TEST(MeasureHole, AMirroredHoleFlipsOnlyMesioDistalSigns) {
  StampedBlock block;  // lattice symmetric about x = 0
  volume::Volume left = stamped_block(block);
  volume::Volume right = stamped_block(block);
  stamp(left, hole_from({-0.6, 0.4, 0.0}, 9.3, -4.0, 1.5, 3.4));
  stamp(right, hole_from({0.6, 0.4, 0.0}, 9.3, 4.0, 1.5, 3.4));
  const HoleMeasures a = measured(left, specimen::Plan{}, 4.0);
  const HoleMeasures b = measured(right, specimen::Plan{}, 4.0);
  EXPECT_NEAR(a.deviation.entry_md_mm, -b.deviation.entry_md_mm, 1e-9);
  EXPECT_NEAR(a.deviation.apex_md_mm, -b.deviation.apex_md_mm, 1e-9);
  EXPECT_NEAR(a.deviation.tilt_md_deg, -b.deviation.tilt_md_deg, 1e-9);
  EXPECT_NEAR(a.deviation.entry_bl_mm, b.deviation.entry_bl_mm, 1e-9);
  EXPECT_NEAR(a.deviation.tilt_bl_deg, b.deviation.tilt_bl_deg, 1e-9);
  EXPECT_NEAR(a.depth_error_mm, b.depth_error_mm, 1e-9);
  EXPECT_NEAR(a.hole_diameter_mm, b.hole_diameter_mm, 1e-9);
}

TEST(MeasureHole, TakesTheHoleNearestThePlannedEntry) {
  StampedBlock wide;
  wide.size_mm = {20.0, 12.0, 18.0};
  volume::Volume volume = stamped_block(wide);
  stamp(volume, hole_from({-5.0, 0.0, 0.0}, 10.0, 0.0, 0.0, 4.0));
  stamp(volume, hole_from({1.5, 0.0, 0.0}, 8.0, 0.0, 0.0, 2.7));
  stamp(volume, hole_from({-1.2, 0.0, 0.0}, 0.1, 0.0, 0.0, 0.9));  // a scratch nearer still
  const HoleMeasures m = measured(volume, specimen::Plan{}, 2.7);
  EXPECT_NEAR(m.deviation.entry_md_mm, 1.5, kPoint_mm);
  EXPECT_NEAR(m.hole_diameter_mm, 2.7, kDiameter_mm);
  EXPECT_LT(m.removed_mm3, 0.5 * volume.removed_mm3());
}

TEST(MeasureHole, SaysWhyThereIsNothingToMeasure) {
  volume::Volume volume = stamped_block(StampedBlock{});
  const base::Result<HoleMeasures> nothing = measure_hole(volume, specimen::Plan{}, 4.0);
  ASSERT_FALSE(nothing.has_value());
  EXPECT_EQ(nothing.error().message, "Nothing was removed, so there is no hole to measure.");
  for (const double depth : {-0.4, 0.1, 0.9}) {
    volume::Volume shallow = stamped_block(StampedBlock{});
    stamp(shallow, hole_from({0.0, 0.0, 0.0}, depth, 0.0, 0.0, 2.0));
    const base::Result<HoleMeasures> result = measure_hole(shallow, specimen::Plan{}, 4.0);
    ASSERT_FALSE(result.has_value()) << depth;
    EXPECT_NE(result.error().message.find("too shallow"), std::string::npos);
  }
}

TEST(MeasureHole, SlicesRunFromTheRimToThePoint) {
  volume::Volume volume = stamped_block(StampedBlock{});
  stamp(volume, hole_from({0.5, 0.0, 0.0}, 10.0, 3.0, 0.0, 4.0));
  const HoleMeasures m = measured(volume, specimen::Plan{}, 4.0);
  ASSERT_GT(m.slices.size(), 45U);
  EXPECT_NEAR(m.slices.front().depth_mm, 0.2, 0.21);
  EXPECT_GT(m.slices.back().depth_mm, 10.5);
  for (std::size_t i = 0; i + 1 < m.slices.size(); ++i) {
    EXPECT_NEAR(m.slices[i + 1].depth_mm - m.slices[i].depth_mm, kSectionSpacing_mm, 1e-9);
  }
  for (const HoleSlice& slice : m.slices) {
    if (slice.depth_mm > 1.0 && slice.depth_mm < 9.0) {
      const double expected = 0.5 + slice.depth_mm * std::tan(3.0 * math::kPi / 180.0);
      EXPECT_NEAR(slice.md_mm, expected, 0.01);
      EXPECT_NEAR(slice.bl_mm, 0.0, 0.01);
    }
  }
}

TEST(MeasureHole, IsFastOnABenchBlock) {
  // The promise is 80 ms of processor time for a 25.4 mm block on 0.2 mm voxels, optimised; ten
  // times that here, because sanitizers run this too. The bench program reports the real figure.
  StampedBlock bench;
  bench.size_mm = {26.6, 26.6, 26.6};
  volume::Volume volume = stamped_block(bench);
  stamp(volume, hole_from({0.5, 0.3, 0.0}, 12.0, 4.0, 0.0, 4.0));
  const std::clock_t start = std::clock();
  const HoleMeasures m = measured(volume, specimen::Plan{}, 4.0);
  const double spent_ms = 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  EXPECT_GT(m.removed_mm3, 100.0);
  EXPECT_LT(spent_ms, 800.0);
  RecordProperty("milliseconds", std::to_string(spent_ms));
}

}  // namespace
}  // namespace driftbench::scoring
