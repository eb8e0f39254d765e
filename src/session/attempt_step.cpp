#include "session/attempt_step.h"

#include "math/angle.h"
#include "session/implant_work.h"

#include <algorithm>
#include <cmath>

namespace driftbench::session {
namespace {

constexpr double kSecondsPerMinute = 60.0;
constexpr double kMotorRamp_rpm_per_step = 4.0;  // about 0.3 s to full speed; own assumption
constexpr double kLiftForce_n = 12.0;            // own assumption
constexpr double kAmbient_degc = 22.0;
constexpr double kSteepestLean_cos = 0.819;  // 35 degrees: the drill has slipped away
constexpr double kFreeBorder_mm = 6.0;       // beyond the specimen's side
constexpr double kGrasp_mm = 6.0;            // hand above the stop of a long drill; own assumption
constexpr double kWattPerNmmRadPerS = 1e-3;

void run_motor(AttemptState& state) {
  const double lack = state.motor_target_rpm - state.motor_rpm;
  state.motor_rpm += std::clamp(lack, -kMotorRamp_rpm_per_step, kMotorRamp_rpm_per_step);
  const double turn = 2.0 * math::kPi * state.motor_rpm / kSecondsPerMinute * drilling::kStep_s;
  state.spin_rad -= turn;  // clockwise from the handpiece
  if (std::fabs(state.spin_rad) > 2.0 * math::kPi) {
    state.spin_rad += state.spin_rad > 0.0 ? -2.0 * math::kPi : 2.0 * math::kPi;
  }
}

/// Speed with which the drill cuts: forward only.
drilling::Spin spin_of(const AttemptState& state) {
  return {std::max(0.0, state.motor_rpm) / kSecondsPerMinute, -1.0};
}

double feed_n(const AttemptModel& model, AttemptState& state, const drilling::HandTarget& hand) {
  if (state.lifting) {
    if (state.drill.pose.tip_mm.z < clearance_mm(model, state)) {
      return -kLiftForce_n;
    }
    state.lifting = false;
    state.drill.velocity = {};
  }
  return hand.press_n;
}

void advance_guide(AttemptState& state) {
  if (!state.guide) {
    return;
  }
  drilling::GuideLoad load;
  load.finger_at_mm = state.finger_mm;
  load.finger_n = state.finger_n;
  load.held = state.guide_held;
  load.drill_force_n = -state.output.guide_force_n;
  load.drill_moment_nmm = -state.output.guide_moment_nmm;
  state.guide->advance(load);
}

/// Fit of the drill in hand in the guide as it sits now; nothing when no guide is on the block.
std::optional<drilling::SleeveFit> fit_of(const AttemptModel& model, const AttemptState& state) {
  if (!state.guide || !state.guide->is_placed()) {
    return std::nullopt;
  }
  drilling::SleeveFit fit =
      drilling::make_sleeve_fit(*model.sleeve, key_in_sleeve(model, state),
                                model.tools[static_cast<std::size_t>(state.drill_index)],
                                *drill_in_hand(model, state), state.stop_length_mm);
  fit.sleeve = state.guide->sleeve();
  return fit;
}

/// Remembers that this drill has cut, and how deep any has been.
void note_use(AttemptState& state) {
  if (state.output.lost_coverage == 0) {
    return;
  }
  if (state.drill.pose.tip_mm.z < state.deepest.tip_mm.z) {
    state.deepest = state.drill.pose;
  }
  const auto used =
      std::find(state.used_drills.begin(), state.used_drills.end(), state.drill_index);
  if (used == state.used_drills.end()) {
    state.used_drills.push_back(state.drill_index);
  }
}

bool has_run_away(const AttemptModel& model, const AttemptState& state) {
  const specimen::Reach reach = specimen::reach_of(model.setup.specimen);
  const double border_mm = reach.half_width_mm + kFreeBorder_mm;
  const math::Vec3& tip = state.drill.pose.tip_mm;
  return state.drill.pose.axis_out_unit.z < kSteepestLean_cos ||
         (state.output.in_contact &&
          (std::fabs(tip.x) > border_mm || std::fabs(tip.y) > border_mm)) ||
         tip.z < -reach.depth_mm;
}

void stop(AttemptState& state, std::uint32_t reason) {
  state.status |= reason;
  state.phase = Phase::kStopped;
}

/// Whether every number that a view, a sample or the record takes from this step is finite.
bool shows_finite_numbers(const AttemptState& state) {
  const drilling::LoadSample shown = sample_of(state);
  for (const math::Vec3& v : {shown.pose.tip_mm, shown.pose.axis_out_unit, shown.side_force_n,
                              shown.guide_force_n, state.output.guide_moment_nmm}) {
    if (!math::is_finite(v)) {
      return false;
    }
  }
  for (const double number : {shown.thrust_n, shown.torque_nmm, shown.power_w, shown.feed_mm_per_s,
                              shown.strength_mpa, shown.heat_degc}) {
    if (!std::isfinite(number)) {
      return false;
    }
  }
  return true;
}

/// Ends the attempt when a step went wrong; what it would show goes back to the step before.
void judge_step(const AttemptModel& model, const drilling::DrillState& before,
                AttemptState& state) {
  if (!state.output.is_finite || !shows_finite_numbers(state)) {
    state.drill = before;
    state.output = {};
    stop(state, kStepNotFinite);
  } else if (has_run_away(model, state)) {
    stop(state, kStepRunaway);
  }
}

void advance_drill(const AttemptModel& model, AttemptState& state) {
  const drilling::DrillState before = state.drill;
  const double grip_mm =
      std::max(model.setup.hand.grip_height_mm, state.stop_length_mm + kGrasp_mm);
  const drilling::HandTarget hand = state.hand.advance(state.command, grip_mm);
  const std::optional<drilling::SleeveFit> fit = fit_of(model, state);

  drilling::StepInput input;
  input.tool = &model.tools[static_cast<std::size_t>(state.drill_index)];
  input.hand = hand;
  input.feed_n = feed_n(model, state, hand);
  input.grip_height_mm = grip_mm;
  input.spin = spin_of(state);
  input.guide = fit ? &*fit : nullptr;
  input.ambient_degc = kAmbient_degc;
  input.irrigation = state.irrigation;
  input.removal_tick = static_cast<std::uint16_t>(
      std::min<std::int64_t>(state.step / volume::kStepsPerRemovalTick, volume::kNeverRemoved - 1));
  const volume::VoxelBox pending = state.volume.take_dirty();
  state.output = drilling::advance(model.step, input, state.drill, state.volume, state.scratch);
  state.touched.include(state.volume.dirty);
  state.volume.dirty.include(pending);
  judge_step(model, before, state);
  if ((state.status & kStepNotFinite) == 0) {
    note_use(state);
  }
}

void advance_implant_in_hand(const AttemptModel& model, AttemptState& state) {
  const drilling::DrillState before = state.drill;
  const double grip_mm = std::max(model.setup.hand.grip_height_mm,
                                  implant_in_hand(model, state)->length_mm + kGrasp_mm);
  const drilling::HandTarget hand = state.hand.advance(state.command, grip_mm);
  advance_implant(model, hand, feed_n(model, state, hand), grip_mm, state);
  judge_step(model, before, state);
}

}  // namespace

drilling::LoadSample sample_of(const AttemptState& state) {
  drilling::LoadSample sample;
  sample.step = state.step;
  sample.pose = state.drill.pose;
  sample.press_n = state.lifting ? 0.0 : state.command.press_n;
  sample.thrust_n = std::max(0.0, state.output.thrust_n);
  sample.side_force_n = state.output.side_force_n;
  sample.guide_force_n = state.output.guide_force_n;
  sample.torque_nmm = state.output.torque_nmm;
  sample.power_w = state.output.torque_nmm * kWattPerNmmRadPerS * 2.0 * math::kPi *
                   std::fabs(state.motor_rpm) / kSecondsPerMinute;
  sample.feed_mm_per_s = state.output.feed_mm_per_s;
  sample.strength_mpa = state.output.strength_mpa;
  sample.heat_degc = state.drill.heat_degc;
  sample.drill_index = state.drill_index;
  sample.in_contact = state.output.in_contact;
  return sample;
}

void step_once(const AttemptModel& model, AttemptState& state) {
  run_motor(state);
  if (state.drill_index >= 0) {
    advance_drill(model, state);
  } else if (state.implant.index >= 0) {
    advance_implant_in_hand(model, state);
  }
  if (state.phase != Phase::kDrilling) {
    return;
  }
  advance_guide(state);
  ++state.step;
  if (state.step % drilling::kStepsPerSample == 0) {
    if (state.drill_index >= 0) {
      state.samples.push_back(sample_of(state));
    } else if (state.implant.index >= 0) {
      state.implant.samples.push_back(sample_of(state));
    }
  }
  if (state.step % kStepsPerHash == 0) {
    state.hashes.push_back({state.step, hash_of(state)});
  }
}

}  // namespace driftbench::session
