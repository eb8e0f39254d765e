// Places one implant in a ready hole by the bare step, for tests of laws.
#pragma once

#include "support/bench_rig.h"

#include "drilling/implant_step.h"
#include "volume/carve.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace driftbench::testing {

/// A straight hole of one diameter, its full-diameter floor at `depth_mm` below z = 0.
struct ReadyHole {
  double diameter_mm = 4.0;
  double depth_mm = 10.5;
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
};

inline void make_hole(volume::Volume& volume, const ReadyHole& hole) {
  Job job;
  job.diameter_mm = hole.diameter_mm;
  const drilling::Tool tool = tool_of(job);
  const math::Vec3 tip = -(hole.depth_mm + tool.point_height_mm) * hole.axis_out_unit;
  static_cast<void>(volume::carve(volume, tool.solid, tip, hole.axis_out_unit, 0.0,
                                  hole.depth_mm + tool.point_height_mm + 4.0, 0));
}

/// What is done with the implant.
struct Placing {
  double rev_per_s = 25.0 / 60.0;
  double press_n = 5.0;
  double platform_mm = 0.0;  ///< where the platform shall end below z = 0
  math::Vec2 hand_mm{0.0};
  math::Vec2 lean_rad{0.0};
  std::int64_t longest_steps = 40'000;
};

/// One implant in one block, step by step.
class ImplantRig {
 public:
  explicit ImplantRig(volume::Volume& volume)
      : volume_(volume), model_(still_model()), hand_(model_.hand, 1) {
    implant_.diameter_mm = 4.5;
    implant_.length_mm = 10.0;
    body_ = drilling::make_implant_body(implant_);
  }

  /// Runs until the platform is as deep as wished or time is up; true when it got there.
  bool place(const Placing& job) {
    drilling::HandCommand command;
    command.tip_mm = job.hand_mm;
    command.lean_rad = job.lean_rad;
    hand_.settle(command);
    state_.pose.axis_out_unit = math::unit(math::Vec3(job.lean_rad.x, job.lean_rad.y, 1.0));
    state_.pose.tip_mm = math::Vec3(job.hand_mm.x, job.hand_mm.y, 1.0);
    for (std::int64_t i = 0; i < job.longest_steps && platform_depth_mm() < job.platform_mm; ++i) {
      step(job, job.rev_per_s, job.press_n);
    }
    return platform_depth_mm() >= job.platform_mm;
  }

  /// Runs on from where the implant is.
  void run(const Placing& job, double rev_per_s, double press_n, std::int64_t steps) {
    for (std::int64_t i = 0; i < steps; ++i) {
      step(job, rev_per_s, press_n);
    }
  }

  /// Below z = 0, along z.
  [[nodiscard]] double platform_depth_mm() const {
    return -(state_.pose.tip_mm + implant_.length_mm * state_.pose.axis_out_unit).z;
  }

  [[nodiscard]] const drilling::DrillPose& pose() const { return state_.pose; }

  [[nodiscard]] const drilling::ImplantOutput& now() const { return now_; }

  [[nodiscard]] double peak_nmm() const { return peak_nmm_; }

  /// Torque each time the end had gone another millimetre below z = 0.
  [[nodiscard]] const std::vector<double>& torque_by_mm() const { return torque_by_mm_; }

 private:
  void step(const Placing& job, double rev_per_s, double press_n) {
    drilling::HandCommand command;
    command.tip_mm = job.hand_mm;
    command.lean_rad = job.lean_rad;
    command.press_n = std::max(0.0, press_n);
    drilling::ImplantInput input;
    input.body = &body_;
    input.hand = hand_.advance(command, model_.hand.grip_height_mm);
    input.feed_n = press_n < 0.0 ? press_n : input.hand.press_n;
    input.rev_per_s = rev_per_s;
    now_ = drilling::advance_implant(model_, input, state_, thread_, volume_, scratch_);
    ASSERT_TRUE(now_.is_finite);
    peak_nmm_ = std::max(peak_nmm_, now_.torque_nmm);
    if (-state_.pose.tip_mm.z >= static_cast<double>(torque_by_mm_.size() + 1)) {
      torque_by_mm_.push_back(now_.torque_nmm);
    }
  }

  volume::Volume& volume_;
  drilling::StepModel model_;
  drilling::Hand hand_;
  specimen::Implant implant_;
  drilling::ImplantBody body_;
  drilling::DrillState state_;
  drilling::ThreadState thread_;
  drilling::StepScratch scratch_;
  drilling::ImplantOutput now_;
  double peak_nmm_ = 0.0;
  std::vector<double> torque_by_mm_;
};

}  // namespace driftbench::testing
