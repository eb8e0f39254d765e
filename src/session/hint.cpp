#include "session/hint.h"

#include "lesson/instruments.h"
#include "session/implant_work.h"

#include <algorithm>
#include <cmath>

namespace driftbench::session {
namespace {

constexpr double kVisibleGap_mm = 0.05;  // what an eye sees in a window; own assumption
constexpr double kAtDepth_mm = 0.1;      // this close to the planned depth it is time to ease off
constexpr double kNearDepth_mm = 1.0;    // and this close to press less

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
    return state.key_index >= 0 ? Hint::kChangeKey : Hint::kKeyIn;
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

/// What the depth asks for. Only the block's far side, a stop that rests and, where the lesson
/// shows numbers, the numbers may tell; elsewhere depth is the learner's to judge.
std::optional<Hint> depth_hint(const AttemptModel& model, const AttemptState& state) {
  const bool presses = state.command.press_n > 0.0;
  const double depth_mm = shoulder_depth_mm(model, state);
  const specimen::BlockSpec* block = specimen::block_in(model.setup.specimen);
  if (block != nullptr && depth_mm > block->edge_mm) {
    return Hint::kThrough;
  }
  const double left_mm = model.setup.plan.depth_mm - depth_mm;
  const bool is_told = model.setup.show.numbers;
  if (is_told && -left_mm > model.setup.tolerance.depth_high_mm) {
    return presses ? Hint::kTooDeep : Hint::kLift;
  }
  if (state.output.at_stop || (is_told && left_mm <= kAtDepth_mm)) {
    return presses ? Hint::kEaseOff : Hint::kLift;
  }
  if (is_told && presses && left_mm <= kNearDepth_mm) {
    return Hint::kNearDepth;
  }
  return std::nullopt;
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
  if (state.lifting && !out) {
    return Hint::kLifting;
  }
  if (!out && state.drill_index >= 0 && is_used(state) && state.motor_target_rpm == 0.0) {
    return Hint::kLift;
  }
  if (out || state.drill_index < 0 || state.motor_target_rpm == 0.0) {
    if (const std::optional<Hint> hint = guide_hint(model, state)) {
      return *hint;
    }
  }
  if (state.drill_index < 0) {
    return Hint::kTakeDrill;
  }
  if (const std::optional<Hint> hint = depth_hint(model, state)) {
    return *hint;
  }
  if (done_with_drill && state.command.press_n == 0.0) {
    return all_planned_used(model, state) ? hint_after_drills(model, state) : Hint::kNextDrill;
  }
  if (state.motor_target_rpm == 0.0) {
    return Hint::kStartMotor;
  }
  if (!out && is_used(state) && state.command.press_n == 0.0) {
    return Hint::kJudgeDepth;
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
