#include "session/commands.h"

#include "session/implant_work.h"
#include "session/pin.h"
#include "session/probe.h"
#include "session/refusal.h"

#include <fmt/format.h>

#include <cmath>

namespace driftbench::session {
namespace {

using base::ErrorCode;

constexpr double kMmPerUm = 1e-3;
constexpr double kRadPerUrad = 1e-6;
constexpr double kNPerMn = 1e-3;
constexpr double kAmbient_degc = 22.0;

// Largest values that a command may carry: beyond them no hand can mean it. Own assumption.
constexpr std::int32_t kLargestReach_um = 60'000;
constexpr std::int32_t kLargestLean_urad = 700'000;  // 40 degrees
constexpr std::int32_t kLargestPress_mn = 60'000;
constexpr std::int32_t kLargestSpeed_rpm = 3'000;
constexpr std::int32_t kLargestStop_um = 40'000;
constexpr std::int32_t kLargestImplantSpeed_rpm = 50;
constexpr std::int32_t kLeastLimit_nmm = 100;

base::Result<void> move_hand(const record::Command& command, AttemptState& state) {
  const auto& [x, y, lean_x, lean_y, press] = command.arguments;
  for (const auto& checked : {within("x_um", x, -kLargestReach_um, kLargestReach_um),
                              within("y_um", y, -kLargestReach_um, kLargestReach_um),
                              within("lean_x_urad", lean_x, -kLargestLean_urad, kLargestLean_urad),
                              within("lean_y_urad", lean_y, -kLargestLean_urad, kLargestLean_urad),
                              within("press_mn", press, 0, kLargestPress_mn)}) {
    if (!checked) {
      return checked;
    }
  }
  state.command.tip_mm = {x * kMmPerUm, y * kMmPerUm};
  state.command.lean_rad = {lean_x * kRadPerUrad, lean_y * kRadPerUrad};
  state.command.press_n = press * kNPerMn;
  return {};
}

base::Result<void> take_drill(const record::Command& command, const AttemptModel& model,
                              AttemptState& state) {
  const std::int32_t index = command.arguments[0];
  const std::int32_t stop_um = command.arguments[1];
  const auto last = static_cast<std::int32_t>(model.tools.size()) - 1;
  if (auto checked = within("drill index", index, 0, last); !checked) {
    return checked;
  }
  if (auto checked = within("stop length in um", stop_um, 0, kLargestStop_um); !checked) {
    return checked;
  }
  if (!is_out(model, state)) {
    return refuse("Lift the drill out before you take another one.");
  }
  if (state.implant.is_seated) {
    return refuse("An implant sits in the hole: take the driver and turn it out first.");
  }
  const bool is_change = state.drill_index >= 0;
  state.implant.index = -1;
  state.drill_index = index;
  state.stop_length_mm = stop_um * kMmPerUm;
  hold_above_site(model, kAmbient_degc, state);
  if (is_change && state.guide && !state.guide_held) {
    state.guide->jog();
  }
  return {};
}

base::Result<void> place_guide(bool on, const AttemptModel& model, AttemptState& state) {
  if (!state.guide) {
    return refuse("This attempt has no guide.");
  }
  if (!is_out(model, state)) {
    return refuse("Lift the drill out before you move the guide.");
  }
  if (on && !state.guide->is_placed()) {
    state.guide->place();
  } else if (!on) {
    state.guide->remove();
    state.key_index = -1;
  }
  if (has_tool(state)) {
    state.drill.pose.tip_mm.z = clearance_mm(model, state);
  }
  return {};
}

base::Result<void> change_key(std::int32_t index, const AttemptModel& model, AttemptState& state) {
  const auto last = static_cast<std::int32_t>(model.setup.kit.keys.size()) - 1;
  if (auto checked = within("key index", index, -1, last); !checked) {
    return checked;
  }
  if (!state.guide || !state.guide->is_placed()) {
    return refuse("Put the guide on before you put a key into its sleeve.");
  }
  if (!is_out(model, state)) {
    return refuse("Lift the drill out before you change the key.");
  }
  const bool is_change = index != state.key_index;
  state.key_index = index;
  if (is_change && !state.guide_held) {
    state.guide->jog();
  }
  if (has_tool(state)) {
    state.drill.pose.tip_mm.z = clearance_mm(model, state);
  }
  return {};
}

base::Result<void> press_guide(const record::Command& command, AttemptState& state) {
  if (!state.guide || !state.guide->is_placed()) {
    return refuse("There is no guide in place to press on.");
  }
  const auto& arguments = command.arguments;
  if (auto checked = within("x_um", arguments[0], -kLargestReach_um, kLargestReach_um); !checked) {
    return checked;
  }
  if (auto checked = within("y_um", arguments[1], -kLargestReach_um, kLargestReach_um); !checked) {
    return checked;
  }
  if (auto checked = within("force_mn", arguments[2], 0, kLargestPress_mn); !checked) {
    return checked;
  }
  state.finger_mm = {arguments[0] * kMmPerUm, arguments[1] * kMmPerUm};
  state.finger_n = arguments[2] * kNPerMn;
  return {};
}

base::Result<void> need_drill(const AttemptState& state) {
  return has_tool(state) ? base::Result<void>{} : refuse("Take a drill first.");
}

base::Result<void> run_motor(std::int32_t rpm, AttemptState& state) {
  if (auto checked = need_drill(state); !checked && rpm != 0) {
    return checked;
  }
  const std::int32_t fastest =
      state.implant.index >= 0 ? kLargestImplantSpeed_rpm : kLargestSpeed_rpm;
  if (auto checked = within("rpm", rpm, -fastest, fastest); !checked) {
    return checked;
  }
  state.motor_target_rpm = rpm;
  state.implant.has_stalled = false;
  return {};
}

base::Result<void> lift(bool on, AttemptState& state) {
  if (auto checked = need_drill(state); !checked) {
    return checked;
  }
  if (on && has_bitten(state) && state.motor_target_rpm >= 0.0) {
    return refuse("The thread holds: run the motor backward to bring the implant out.");
  }
  state.lifting = on;
  return {};
}

base::Result<void> limit_torque(std::int32_t limit_nmm, AttemptState& state) {
  if (auto checked =
          within("torque limit in N mm", limit_nmm, kLeastLimit_nmm, kLargestTorqueLimit_nmm);
      !checked) {
    return checked;
  }
  state.implant.was_asked = true;
  state.implant.torque_limit_nmm = limit_nmm;
  return {};
}

base::Result<void> carry_out(const record::Command& command, const AttemptModel& model,
                             AttemptState& state) {
  const std::int32_t first = command.arguments[0];
  switch (command.op) {
    case record::Op::kHand:
      return move_hand(command, state);
    case record::Op::kMotor:
      return run_motor(first, state);
    case record::Op::kIrrigation:
      state.irrigation = first != 0;
      return {};
    case record::Op::kLift:
      return lift(first != 0, state);
    case record::Op::kTakeDrill:
      return take_drill(command, model, state);
    case record::Op::kPlaceGuide:
      return place_guide(first != 0, model, state);
    case record::Op::kPressGuide:
      return press_guide(command, state);
    case record::Op::kHoldGuide:
      if (!state.guide || !state.guide->is_placed()) {
        return refuse("There is no guide in place to hold.");
      }
      state.guide_held = first != 0;
      return {};
    case record::Op::kKey:
      return change_key(first, model, state);
    case record::Op::kProbe:
      if (!is_out(model, state)) {
        return refuse("Lift the drill out before you probe.");
      }
      state.probe = probed(model, state);
      return {};
    case record::Op::kFinish:
      if (!is_out(model, state)) {
        return refuse("Lift the drill out before you finish.");
      }
      state.phase = Phase::kFinished;
      return {};
    case record::Op::kTakeImplant:
      return take_implant(first, model, state);
    case record::Op::kReleaseImplant:
      return release_implant(state);
    case record::Op::kTorqueLimit:
      return limit_torque(first, state);
    case record::Op::kPin:
      return stand_pin(first != 0, model, state);
  }
  return base::fail(ErrorCode::kOutOfRange,
                    fmt::format("command {} is unknown", static_cast<int>(command.op)));
}

/// What goes on with the work takes the direction pin out of the hole.
bool goes_on(const record::Command& command) {
  switch (command.op) {
    case record::Op::kHand:
      return command.arguments[4] > 0;
    case record::Op::kMotor:
    case record::Op::kPlaceGuide:
      return command.arguments[0] != 0;
    case record::Op::kTakeDrill:
    case record::Op::kTakeImplant:
    case record::Op::kFinish:
      return true;
    default:
      return false;
  }
}

}  // namespace

base::Result<void> apply(const record::Command& command, const AttemptModel& model,
                         AttemptState& state) {
  base::Result<void> done = carry_out(command, model, state);
  if (done && goes_on(command)) {
    state.pin.reset();
  }
  return done;
}

}  // namespace driftbench::session
