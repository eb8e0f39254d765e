#include "session/hint.h"

#include "lesson/instruments.h"
#include "session/implant_work.h"

#include <algorithm>
#include <cmath>

namespace driftbench::session {
namespace {

constexpr double kVisibleGap_mm = 0.05;  // what an eye sees in a window; own assumption
constexpr double kNearDepth_mm = 0.1;    // this close to the planned depth it is time to ease off

bool all_planned_used(const AttemptModel& model, const AttemptState& state) {
  const auto& drills = model.setup.kit.drills;
  return std::all_of(model.setup.plan.drill_ids.begin(), model.setup.plan.drill_ids.end(),
                     [&](const std::string& id) {
                       return std::any_of(state.used_drills.begin(), state.used_drills.end(),
                                          [&](std::int32_t i) {
                                            return drills[static_cast<std::size_t>(i)].id == id;
                                          });
                     });
}

bool is_used(const AttemptState& state) {
  return std::find(state.used_drills.begin(), state.used_drills.end(), state.drill_index) !=
         state.used_drills.end();
}

/// Whether the drill in hand runs through the guide and its tip stands above the sleeve.
bool is_above_sleeve(const AttemptModel& model, const AttemptState& state) {
  return state.guide->is_placed() &&
         state.drill.pose.tip_mm.z > state.guide->sleeve().tip_mm.z + model.sleeve->height_mm;
}

/// Steps before a guided drill may turn; nothing when all is ready.
std::optional<Hint> guide_hint(const AttemptModel& model, const AttemptState& state) {
  const bool wanted = state.drill_index < 0 ? model.sleeve != nullptr && state.used_drills.empty()
                                            : lesson::is_guided(model.setup, state.drill_index);
  if (!wanted) {
    return std::nullopt;
  }
  if (!state.guide->is_placed()) {
    return Hint::kPlaceGuide;
  }
  if (state.guide->largest_gap_mm() > kVisibleGap_mm) {
    return Hint::kSeatGuide;
  }
  if (!state.guide_held) {
    return Hint::kHoldGuide;
  }
  if (state.drill_index < 0) {
    return Hint::kTakeDrill;
  }
  const std::int32_t key = lesson::key_index_of(model.setup, state.drill_index);
  if (key >= 0 && state.key_index != key) {
    return Hint::kKeyIn;
  }
  if (is_above_sleeve(model, state)) {
    return state.motor_target_rpm == 0.0 ? Hint::kEngageDrill : Hint::kStopMotor;
  }
  return std::nullopt;
}

/// What follows the last planned drill.
Hint hint_after_drills(const AttemptModel& model, const AttemptState& state) {
  if (!model.setup.place_implant) {
    return Hint::kFinish;
  }
  if (state.guide && state.guide->is_placed()) {
    if (!model.setup.implant_through_guide) {
      return Hint::kRemoveGuide;
    }
    if (state.key_index >= 0) {
      return Hint::kRemoveKey;
    }
  }
  return Hint::kTakeImplant;
}

}  // namespace

Hint next_hint(const AttemptModel& model, const AttemptState& state) {
  if (const std::optional<Hint> hint = implant_hint(model, state)) {
    return *hint;
  }
  const bool out = is_out(model, state);
  const bool done_with_drill = state.drill_index >= 0 && is_used(state) && out;
  if (done_with_drill && state.command.press_n == 0.0 && state.motor_target_rpm == 0.0) {
    return all_planned_used(model, state) ? hint_after_drills(model, state) : Hint::kNextDrill;
  }
  if (out || state.drill_index < 0 || state.motor_target_rpm == 0.0) {
    if (const std::optional<Hint> hint = guide_hint(model, state)) {
      return *hint;
    }
  }
  if (state.drill_index < 0) {
    return Hint::kTakeDrill;
  }
  const bool deep = shoulder_depth_mm(model, state) >= model.setup.plan.depth_mm - kNearDepth_mm ||
                    state.output.at_stop;
  if (deep) {
    return state.command.press_n > 0.0 ? Hint::kEaseOff : Hint::kLift;
  }
  if (done_with_drill && state.command.press_n == 0.0) {
    return all_planned_used(model, state) ? hint_after_drills(model, state) : Hint::kNextDrill;
  }
  if (state.motor_target_rpm == 0.0) {
    return Hint::kStartMotor;
  }
  if (state.output.in_contact) {
    return Hint::kPressing;
  }
  if (!lesson::is_guided(model.setup, state.drill_index) || !state.guide->is_placed()) {
    return Hint::kPlaceTip;
  }
  return is_above_sleeve(model, state) ? Hint::kStopMotor : Hint::kPressGuided;
}

}  // namespace driftbench::session
