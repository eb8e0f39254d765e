// Drills one hole with one tool by the bare step, for tests of laws.
#pragma once

#include "drilling/hand.h"
#include "drilling/step.h"
#include "specimen/block.h"
#include "volume/volume.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <optional>
#include <vector>

namespace driftbench::testing {

/// What is done with a drill.
struct Job {
  double diameter_mm = 2.0;
  double rev_per_s = 20.0;
  double press_n = 16.0;
  double depth_mm = 8.0;     ///< of the shoulder below z = 0
  math::Vec2 start_mm{0.0};  ///< where the tip is set down
  math::Vec2 hand_mm{0.0};   ///< where the hand stays
  math::Vec2 push_mm{0.0};   ///< once at depth, the hand goes sideways for push_steps, no press
  std::int64_t push_steps = 0;
  math::Vec2 lean_rad{0.0};  ///< of the drill's axis
  double spin_direction = -1.0;
  specimen::DrillKind kind = specimen::DrillKind::kTwist;
  std::int64_t longest_steps = 30'000;
  const drilling::SleeveFit* guide = nullptr;
  bool slow_wander = false;  ///< hand wander on
  std::uint64_t seed = 1;
  double step_s = drilling::kStep_s;
};

/// What came of it.
struct Outcome {
  math::Vec3 mouth_mm{};  ///< axis at z = 0
  math::Vec3 tip_mm{};
  math::Vec3 axis{};
  math::Vec2 first_second_mm{};  ///< tip across the site 0.15 s after first contact
  double time_s = 0.0;           ///< from first contact
  double swept_mm3 = 0.0;
  double lost_mm3 = 0.0;
  double least_work_mj = 0.0;
  double peak_side_n = 0.0;
  double peak_feed_mm_per_s = 0.0;  ///< after 3 mm of depth
  double least_feed_mm_per_s = 1e9;
  bool reached = false;
};

inline drilling::StepModel still_model(bool wander = false) {
  drilling::StepModel model;
  if (!wander) {
    model.hand.drift_mm = 0.0;
    model.hand.drift_lean_rad = 0.0;
  }
  return model;
}

inline drilling::Tool tool_of(const Job& job) {
  specimen::Drill drill;
  drill.kind = job.kind;
  drill.diameter_mm = job.diameter_mm;
  drill.body_length_mm = 24.0;
  return drilling::make_tool(drill);
}

inline volume::Volume block(const specimen::BlockSpec& spec) {
  auto built = specimen::build_block(spec);
  EXPECT_TRUE(built.has_value());
  return std::move(*built);
}

/// Sets the tip down, presses until the depth is reached or time is up.
inline Outcome drill(volume::Volume& volume, const Job& job) {
  drilling::StepModel model = still_model(job.slow_wander);
  model.step_s = job.step_s;
  const drilling::Tool tool = tool_of(job);
  drilling::Hand hand(model.hand, job.seed, job.step_s);
  drilling::HandCommand command;
  command.tip_mm = job.start_mm;
  command.lean_rad = job.lean_rad;
  hand.settle(command);
  command.tip_mm = job.hand_mm;
  command.press_n = job.press_n;
  drilling::DrillState state;
  state.pose.axis_out_unit = math::unit(math::Vec3(job.lean_rad.x, job.lean_rad.y, 1.0));
  state.pose.tip_mm = math::Vec3(job.start_mm.x, job.start_mm.y, job.guide == nullptr ? 1.0 : 2.0);
  drilling::StepScratch scratch;
  Outcome outcome;
  std::int64_t first = -1;
  std::int64_t pushed = 0;
  for (std::int64_t i = 0; i < job.longest_steps && (!outcome.reached || pushed < job.push_steps);
       ++i) {
    if (outcome.reached) {
      command.tip_mm = job.hand_mm + job.push_mm;
      command.press_n = 0.0;
      ++pushed;
    }
    drilling::StepInput input;
    input.tool = &tool;
    input.hand = hand.advance(command, model.hand.grip_height_mm);
    input.feed_n = input.hand.press_n;
    input.spin = {job.rev_per_s, job.spin_direction};
    input.guide = job.guide;
    const drilling::StepOutput out = drilling::advance(model, input, state, volume, scratch);
    EXPECT_TRUE(out.is_finite);
    if (first < 0 && out.in_contact) {
      first = i;
    }
    if (first >= 0 && i == first + static_cast<std::int64_t>(0.15 / job.step_s)) {
      outcome.first_second_mm = {state.pose.tip_mm.x, state.pose.tip_mm.y};
    }
    outcome.swept_mm3 += out.swept_mm3;
    outcome.lost_mm3 += static_cast<double>(out.lost_coverage) / volume::kFullCoverage *
                        volume.grid.voxel_volume_mm3();
    outcome.least_work_mj = std::min(outcome.least_work_mj, out.work_mj);
    outcome.peak_side_n = std::max(outcome.peak_side_n, math::length(out.side_force_n));
    if (state.pose.tip_mm.z < -3.0) {
      outcome.peak_feed_mm_per_s = std::max(outcome.peak_feed_mm_per_s, out.feed_mm_per_s);
      outcome.least_feed_mm_per_s = std::min(outcome.least_feed_mm_per_s, out.feed_mm_per_s);
    }
    const double shoulder_mm =
        -(state.pose.tip_mm + tool.point_height_mm * state.pose.axis_out_unit).z;
    if (outcome.reached) {
      continue;
    }
    outcome.reached = shoulder_mm >= job.depth_mm;
    outcome.time_s = first < 0 ? 0.0 : static_cast<double>(i - first) * job.step_s;
  }
  outcome.tip_mm = state.pose.tip_mm;
  outcome.axis = state.pose.axis_out_unit;
  outcome.mouth_mm = outcome.tip_mm - (outcome.tip_mm.z / outcome.axis.z) * outcome.axis;
  return outcome;
}

inline specimen::BlockSpec uniform_block(specimen::DensityClass density) {
  specimen::BlockSpec spec;
  spec.first = density;
  return spec;
}

inline specimen::BlockSpec halves(double boundary_deg = 0.0) {
  specimen::BlockSpec spec;
  spec.first = specimen::DensityClass::kD1;
  spec.second = specimen::DensityClass::kD4;
  spec.boundary_deg = boundary_deg;
  return spec;
}

}  // namespace driftbench::testing
