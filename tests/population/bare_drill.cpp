#include "bare_drill.h"

#include <algorithm>

namespace driftbench::population {
namespace {

constexpr double kLongest_s = 60.0;
constexpr std::uint64_t kWanderSeed = 11;
constexpr double kServo_n_per_mm = 40.0;  // press gained per mm that the drill lags behind

double shoulder_mm(const drilling::DrillPose& pose, const drilling::Tool& tool) {
  return -(pose.tip_mm + tool.point_height_mm * pose.axis_out_unit).z;
}

drilling::StepModel model_of(const Drilling& task) {
  drilling::StepModel model;
  model.step_s = task.step_s;
  model.hand.drift_mm = task.wander_mm;
  model.hand.drift_lean_rad = 0.0;
  return model;
}

/// Mean over the part of the way that counts.
class Mean {
 public:
  void add(double value) {
    sum_ += value;
    ++count_;
  }

  [[nodiscard]] double value() const { return count_ > 0 ? sum_ / count_ : 0.0; }

 private:
  double sum_ = 0.0;
  int count_ = 0;
};

}  // namespace

specimen::Drill twist_drill(double diameter_mm) {
  specimen::Drill drill;
  drill.diameter_mm = diameter_mm;
  drill.body_length_mm = 24.0;
  return drill;
}

Drilled drill(volume::Volume& volume, const Drilling& task) {
  const drilling::StepModel model = model_of(task);
  const drilling::Tool tool = drilling::make_tool(twist_drill(task.diameter_mm));
  drilling::Hand hand(model.hand, kWanderSeed, task.step_s);
  drilling::HandCommand command{task.hand_mm, task.lean_rad, 0.0};
  hand.settle(command);
  command.press_n = task.press_n;
  drilling::DrillState state;
  state.pose = task.start;
  drilling::StepScratch scratch;
  Drilled drilled;
  Mean thrust;
  Mean torque;
  double press_n = 0.0;
  double since_contact_s = -1.0;
  const auto steps = static_cast<std::int64_t>(kLongest_s / task.step_s);
  for (std::int64_t i = 0; i < steps && !drilled.is_done; ++i) {
    drilling::StepInput input;
    input.tool = &tool;
    input.hand = hand.advance(command, model.hand.grip_height_mm);
    input.feed_n = task.fixed_feed_mm_per_s > 0.0 ? press_n : input.hand.press_n;
    input.spin = {task.rev_per_s, -1.0};
    input.guide = task.guide;
    const drilling::StepOutput output = drilling::advance(model, input, state, volume, scratch);
    if (task.fixed_feed_mm_per_s > 0.0) {
      const double lag_mm = (task.fixed_feed_mm_per_s - output.feed_mm_per_s) * task.step_s;
      press_n = std::max(0.0, press_n + kServo_n_per_mm * lag_mm);
    }
    if (since_contact_s >= 0.0) {
      since_contact_s += task.step_s;
    } else if (output.in_contact) {
      since_contact_s = 0.0;
    }
    const double depth_mm = shoulder_mm(state.pose, tool);
    if (depth_mm > 0.5 * task.depth_mm) {
      thrust.add(output.thrust_n);
      torque.add(output.torque_nmm);
    }
    drilled.is_done = depth_mm >= task.depth_mm ||
                      (task.guide != nullptr && output.at_stop && output.feed_mm_per_s < 0.05);
  }
  const math::Vec3 axis = state.pose.axis_out_unit;
  drilled.axis = axis;
  drilled.floor_mm = state.pose.tip_mm + tool.point_height_mm * axis;
  drilled.mouth_mm = drilled.floor_mm - (drilled.floor_mm.z / axis.z) * axis;
  drilled.time_s = std::max(0.0, since_contact_s);
  drilled.thrust_n = thrust.value();
  drilled.torque_nmm = torque.value();
  return drilled;
}

}  // namespace driftbench::population
