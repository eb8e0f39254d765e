#include "session/implant_work.h"

#include "session/refusal.h"

#include <algorithm>

namespace driftbench::session {
namespace {

constexpr double kSecondsPerMinute = 60.0;
constexpr double kCarrierPlay_mm = 0.1;  // of the carrier in the sleeve; own assumption
constexpr double kAtLevel_mm = 0.05;     // this close to the plan the platform is level
constexpr double kBitten_mm2 = 1.0;      // less engaged thread than this holds nothing

bool is_guided(const AttemptModel& model, const AttemptState& state) {
  return model.setup.implant_through_guide && state.guide && state.guide->is_placed();
}

/// The implant's carrier runs in the sleeve; its flange rests on it when the platform is as
/// planned.
std::optional<drilling::SleeveFit> carrier_fit(const AttemptModel& model,
                                               const AttemptState& state) {
  if (!is_guided(model, state)) {
    return std::nullopt;
  }
  const specimen::Sleeve& sleeve = *model.sleeve;
  const double length_mm = implant_in_hand(model, state)->length_mm;
  drilling::SleeveFit fit;
  const double bore_mm = 0.5 * sleeve.bore_mm;
  fit.rings = {drilling::Ring{0.0, bore_mm, 0.0}, drilling::Ring{sleeve.height_mm, bore_mm, 0.0}};
  fit.end_face_mm = sleeve.height_mm;
  fit.collar_radius_mm = 0.5 * (sleeve.bore_mm - kCarrierPlay_mm);
  fit.collar_from_tip_mm = length_mm;
  fit.stop_from_tip_mm = length_mm + model.setup.guide->gap_mm + sleeve.height_mm;
  fit.sleeve = state.guide->sleeve();
  return fit;
}

/// Torque in hand after the motor had its say: above the limit it stops.
void obey_limit(double torque_nmm, AttemptState& state) {
  ImplantState& implant = state.implant;
  state.output.torque_nmm = torque_nmm;
  if (state.motor_rpm <= 0.0) {
    return;
  }
  if (torque_nmm > implant.torque_limit_nmm) {
    state.output.torque_nmm = implant.torque_limit_nmm;
    state.motor_rpm = 0.0;
    state.motor_target_rpm = 0.0;
    implant.has_stalled = true;
  }
  implant.final_torque_nmm = state.output.torque_nmm;
  implant.peak_torque_nmm = std::max(implant.peak_torque_nmm, state.output.torque_nmm);
}

}  // namespace

const specimen::Implant* implant_in_hand(const AttemptModel& model, const AttemptState& state) {
  return state.implant.index < 0
             ? nullptr
             : &model.setup.kit.implants[static_cast<std::size_t>(state.implant.index)];
}

double platform_depth_mm(const AttemptModel& model, const AttemptState& state) {
  const bool in_hand = state.implant.index >= 0;
  const std::int32_t index = in_hand ? state.implant.index : state.implant.seat_index;
  if (index < 0) {
    return 0.0;
  }
  const drilling::DrillPose& pose = in_hand ? state.drill.pose : state.implant.seat;
  const double length_mm = model.setup.kit.implants[static_cast<std::size_t>(index)].length_mm;
  const specimen::Plan& plan = model.setup.plan;
  return math::dot(plan.entry_mm - pose.tip_mm - length_mm * pose.axis_out_unit,
                   plan.axis_out_unit);
}

bool has_bitten(const AttemptState& state) {
  return state.implant.index >= 0 && state.implant.engaged_mm2 > kBitten_mm2;
}

base::Result<void> take_implant(std::int32_t index, const AttemptModel& model,
                                AttemptState& state) {
  ImplantState& implant = state.implant;
  const auto last = static_cast<std::int32_t>(model.implants.size()) - 1;
  if (auto checked = within("implant index", index, 0, last); !checked) {
    return checked;
  }
  if (!model.setup.place_implant) {
    return refuse("This attempt ends with the hole; there is no implant to place.");
  }
  if (!is_out(model, state)) {
    return refuse("Lift the drill out before you take the implant.");
  }
  const bool guide_is_on = state.guide && state.guide->is_placed();
  if (guide_is_on && !model.setup.implant_through_guide) {
    return refuse("Take the guide off the block: this implant goes in by hand.");
  }
  if (guide_is_on && state.key_index >= 0) {
    return refuse("Take the key out of the sleeve: the implant's carrier needs its whole bore.");
  }
  if (implant.is_seated && index != implant.seat_index) {
    return refuse("Another implant sits in the block: take that one out first.");
  }
  implant.was_asked = true;
  implant.index = index;
  state.drill_index = -1;
  state.stop_length_mm = 0.0;
  hold_above_site(model, state.drill.heat_degc, state);
  if (implant.is_seated) {
    state.drill.pose = implant.seat;
    implant.is_seated = false;
  } else {
    implant.engaged_mm2 = 0.0;
  }
  return {};
}

base::Result<void> release_implant(AttemptState& state) {
  ImplantState& implant = state.implant;
  if (implant.index < 0) {
    return refuse("There is no implant on the driver.");
  }
  if (!has_bitten(state)) {
    return refuse("Nothing holds this implant yet: turn it in before you take the driver off.");
  }
  implant.is_seated = true;
  implant.seat = state.drill.pose;
  implant.seat_index = implant.index;
  implant.index = -1;
  state.motor_target_rpm = 0.0;
  state.motor_rpm = 0.0;
  state.lifting = false;
  state.output = {};
  return {};
}

void advance_implant(const AttemptModel& model, const drilling::HandTarget& hand, double feed_n,
                     double grip_height_mm, AttemptState& state) {
  const std::optional<drilling::SleeveFit> fit = carrier_fit(model, state);
  drilling::ImplantInput input;
  input.body = &model.implants[static_cast<std::size_t>(state.implant.index)];
  input.hand = hand;
  input.feed_n = feed_n;
  input.grip_height_mm = grip_height_mm;
  input.rev_per_s = state.motor_rpm / kSecondsPerMinute;
  input.guide = fit ? &*fit : nullptr;
  const drilling::ImplantOutput felt = drilling::advance_implant(
      model.step, input, state.drill, state.implant.thread, state.volume, state.scratch);
  state.output = {};
  state.output.is_finite = felt.is_finite;
  state.output.thrust_n = felt.thrust_n;
  state.output.side_force_n = felt.side_force_n;
  state.output.guide_force_n = felt.guide_force_n;
  state.output.guide_moment_nmm = felt.guide_moment_nmm;
  state.output.feed_mm_per_s = felt.feed_mm_per_s;
  state.output.strength_mpa = felt.strength_mpa;
  state.output.in_contact = felt.in_contact;
  state.output.at_stop = felt.at_stop;
  state.implant.engaged_mm2 = felt.engaged_mm2;
  obey_limit(felt.torque_nmm, state);
}

std::optional<Hint> implant_hint(const AttemptModel& model, const AttemptState& state) {
  const ImplantState& implant = state.implant;
  if (!model.setup.place_implant) {
    return std::nullopt;
  }
  if (implant.is_seated) {
    return Hint::kFinish;
  }
  if (implant.index < 0) {
    return std::nullopt;
  }
  if (implant.has_stalled) {
    return Hint::kImplantTight;
  }
  const bool is_level = platform_depth_mm(model, state) >= -kAtLevel_mm || state.output.at_stop;
  if (is_level && has_bitten(state)) {
    return state.motor_target_rpm > 0.0 ? Hint::kStopImplant : Hint::kReleaseImplant;
  }
  if (!state.output.in_contact) {
    return Hint::kLowerImplant;
  }
  return state.motor_target_rpm == 0.0 ? Hint::kStartImplant : Hint::kTurningImplant;
}

ImplantView implant_view(const AttemptModel& model, const AttemptState& state) {
  const ImplantState& implant = state.implant;
  ImplantView view;
  view.index = implant.index;
  view.is_seated = implant.is_seated;
  view.seat = implant.seat;
  view.seat_index = implant.seat_index;
  view.platform_depth_mm = platform_depth_mm(model, state);
  view.has_bitten = has_bitten(state);
  view.torque_limit_nmm = implant.torque_limit_nmm;
  view.has_stalled = implant.has_stalled;
  view.peak_torque_nmm = implant.peak_torque_nmm;
  view.final_torque_nmm = implant.final_torque_nmm;
  view.grip_frac = implant.thread.grip;
  view.samples = implant.samples;
  return view;
}

}  // namespace driftbench::session
