// Effects that nobody wrote down: they come out of hand, contact and material alone.
#include "support/bench_rig.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace driftbench {
namespace {

using specimen::DensityClass;
using testing::block;
using testing::drill;
using testing::halves;
using testing::Job;
using testing::Outcome;
using testing::uniform_block;

math::Vec2 across(const math::Vec3& v) {
  return {v.x, v.y};
}

math::Vec2 turned(const math::Vec2& v, double degrees) {
  const double a = degrees * std::numbers::pi / 180.0;
  return {std::cos(a) * v.x - std::sin(a) * v.y, std::sin(a) * v.x + std::cos(a) * v.y};
}

// Common practice, no source: at a hard/soft border a drill is forced toward the soft side.
TEST(Boundary, APilotSkatesTowardTheSoftHalfAtFirstContact) {
  for (const double boundary_deg : {0.0, 45.0, 90.0, 200.0}) {
    for (const std::uint64_t seed : {3U, 17U}) {
      volume::Volume volume = block(halves(boundary_deg));
      const Outcome outcome = drill(volume, {.slow_wander = true, .seed = seed});
      const math::Vec2 soft = turned({1.0, 0.0}, boundary_deg);
      EXPECT_GT(glm::dot(across(outcome.mouth_mm), soft), 0.3) << boundary_deg << " " << seed;
      EXPECT_GT(glm::dot(outcome.first_second_mm, soft), 0.15) << boundary_deg << " " << seed;
    }
  }
}

TEST(Boundary, WiderDrillsDoNotRecoverTheCentre) {
  volume::Volume volume = block(halves());
  const Outcome pilot = drill(volume, {});
  double last = pilot.mouth_mm.x;
  for (const double diameter : {2.7, 3.4, 4.0}) {
    const Outcome wider = drill(volume, {.diameter_mm = diameter, .rev_per_s = 15.0});
    EXPECT_GT(wider.mouth_mm.x, 0.9 * pilot.mouth_mm.x) << diameter;
    last = wider.mouth_mm.x;
  }
  EXPECT_GT(last, 0.3);
}

TEST(Boundary, TheTurnedBlockGivesTheTurnedResult) {
  volume::Volume straight = block(halves());
  const Outcome reference = drill(straight, {});
  for (const double boundary_deg : {30.0, 90.0, 137.0, 180.0, 270.0}) {
    volume::Volume volume = block(halves(boundary_deg));
    const Outcome outcome = drill(volume, {});
    const math::Vec2 expected = turned(across(reference.mouth_mm), boundary_deg);
    EXPECT_LT(glm::length(across(outcome.mouth_mm) - expected), 0.1) << boundary_deg;
    EXPECT_NEAR(outcome.axis.z, reference.axis.z, 0.005) << boundary_deg;
  }
}

TEST(Uniform, ThereIsNoMeanSideDrift) {
  math::Vec2 mean(0.0);
  const int count = 16;
  for (int i = 0; i < count; ++i) {
    volume::Volume volume = block(uniform_block(DensityClass::kD2));
    const Outcome outcome = drill(
        volume, {.depth_mm = 4.0, .slow_wander = true, .seed = 100U + static_cast<unsigned>(i)});
    mean += across(outcome.mouth_mm) / static_cast<double>(count);
  }
  // Wander SD 0.1 mm over 16 attempts: standard error 0.025 mm; three of them.
  EXPECT_LT(std::fabs(mean.x), 0.075);
  EXPECT_LT(std::fabs(mean.y), 0.075);
}

// Drills deflect along a sloping wall; 45-60 degrees significantly worse than less
// (Thangwarawut et al. 2022, Materials 15:3004).
TEST(Slope, ADrillIsDeflectedDownhillAndMoreOnASteeperOne) {
  double last = 0.0;
  for (const double slope_deg : {5.0, 10.0, 20.0}) {
    for (const double heading_deg : {0.0, 120.0}) {
      specimen::BlockSpec spec = uniform_block(DensityClass::kD2);
      spec.slope_deg = slope_deg;
      spec.slope_direction_deg = heading_deg;
      volume::Volume volume = block(spec);
      const Outcome outcome = drill(volume, {.depth_mm = 4.0});
      const double downhill = glm::dot(across(outcome.mouth_mm), turned({1.0, 0.0}, heading_deg));
      EXPECT_GT(downhill, last) << slope_deg << " " << heading_deg;
      if (heading_deg > 0.0) {
        last = downhill;
      }
    }
  }
}

/// Largest width of the hole along x and along y, 0.5 mm below the top, from lost coverage.
math::Vec2 width_mm(const volume::Volume& volume) {
  const volume::Grid& grid = volume.grid;
  const int z = static_cast<int>((-0.5 - grid.first_centre_mm.z) / grid.spacing_mm);
  const auto lost_mm = [&](int x, int y) {
    const std::size_t at = grid.index(x, y, z);
    return grid.spacing_mm * (volume.initial_coverage[at] - volume.coverage[at]) /
           volume::kFullCoverage;
  };
  math::Vec2 widest(0.0);
  for (int i = 0; i < grid.nx; ++i) {
    math::Vec2 width(0.0);
    for (int k = 0; k < grid.nx; ++k) {
      width += math::Vec2(lost_mm(k, i), lost_mm(i, k));
    }
    widest = {std::max(widest.x, width.x), std::max(widest.y, width.y)};
  }
  return widest;
}

/// Width of a 6 mm deep hole in which the turning drill is pushed sideways for two seconds.
math::Vec2 pushed_width_mm(specimen::DrillKind kind, double push_mm) {
  volume::Volume volume = block(uniform_block(DensityClass::kD3));
  drill(volume, {.depth_mm = 6.0, .push_mm = {push_mm, 0.0}, .push_steps = 2000, .kind = kind});
  return width_mm(volume);
}

TEST(Sideways, PushingMakesTheHoleWiderAndOval) {
  const math::Vec2 round = pushed_width_mm(specimen::DrillKind::kTwist, 0.0);
  const math::Vec2 oval = pushed_width_mm(specimen::DrillKind::kTwist, 12.0);
  EXPECT_NEAR(round.x, 2.0, 0.05);
  EXPECT_NEAR(round.x, round.y, 0.01);
  EXPECT_GT(oval.x, round.x + 0.1);
  EXPECT_GT(oval.x, oval.y + 0.1);
}

// An end-cutting drill can hardly be steered sideways, a side-cutting bur can (common practice, no
// source).
TEST(Sideways, ASideCutterWidensTheHoleFarMoreThanATwistDrill) {
  const double twist = pushed_width_mm(specimen::DrillKind::kTwist, 4.0).x - 2.0;
  const double bur = pushed_width_mm(specimen::DrillKind::kSideCutter, 4.0).x - 2.0;
  EXPECT_LT(twist, 0.3);
  EXPECT_GT(bur, 3.0 * std::max(twist, 0.05));
}

// Hand-drilled holes are wider than the drill, the more so the softer the foam
// (Pangnguriseng et al. 2024, J Orthop Sci): the rise is tested, not the amount.
TEST(Oversize, GrowsAsTheFoamGetsSofter) {
  double last = 0.0;
  for (const DensityClass density :
       {DensityClass::kD1, DensityClass::kD2, DensityClass::kD3, DensityClass::kD4}) {
    volume::Volume volume = block(uniform_block(density));
    drill(volume, {.press_n = 10.0, .depth_mm = 6.0, .push_mm = {1.5, 0.0}, .push_steps = 1000});
    const double point = 0.601;
    const double exact = std::numbers::pi * (6.0 + point / 3.0);
    const double oversize = volume.removed_mm3() / exact;
    EXPECT_GT(oversize, last) << static_cast<int>(density);
    last = oversize;
  }
}

TEST(Plunge, DenseGivingWayToSoftMakesTheDrillJumpAndMoreSoWhenPressedHarder) {
  // Drilling down through a dense layer into a soft one: a glue plane across the way.
  const auto jump = [](double press_n) {
    volume::Volume volume = block(uniform_block(DensityClass::kD1));
    const volume::Grid& grid = volume.grid;
    for (int z = 0; z < grid.nz; ++z) {
      for (int y = 0; y < grid.ny; ++y) {
        for (int x = 0; x < grid.nx; ++x) {
          if (grid.centre_mm(x, y, z).z < -5.0) {
            volume.density_mg_per_cm3[grid.index(x, y, z)] = 160;
          }
        }
      }
    }
    const Outcome outcome = drill(volume, {.press_n = press_n, .depth_mm = 7.0});
    EXPECT_GT(outcome.peak_feed_mm_per_s, 3.0 * outcome.least_feed_mm_per_s);
    return outcome.peak_feed_mm_per_s;
  };
  EXPECT_GT(jump(24.0), jump(12.0));
}

}  // namespace
}  // namespace driftbench
