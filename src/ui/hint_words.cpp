#include "ui/hint_words.h"

#include "base/text.h"
#include "ui/strings.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace driftbench::ui {

namespace {

struct Step {
  Str sentence;
  std::string_view key;
};

Step step_of(session::Hint hint) {
  using session::Hint;
  switch (hint) {
    case Hint::kTakeDrill:
      return {Str::kHintTakeDrill,
              "1\xE2\x80\x93"
              "6"};
    case Hint::kPlaceGuide:
      return {Str::kHintPlaceGuide, "G"};
    case Hint::kSeatGuide:
      return {Str::kHintSeatGuide, ""};
    case Hint::kHoldGuide:
      return {Str::kHintHoldGuide, "H"};
    case Hint::kKeyIn:
      return {Str::kHintKeyIn, "K"};
    case Hint::kChangeKey:
      return {Str::kHintChangeKey, "K"};
    case Hint::kEngageDrill:
      return {Str::kHintEngageDrill, ""};
    case Hint::kStopMotor:
      return {Str::kHintStopMotor, "Space"};
    case Hint::kPressGuided:
      return {Str::kHintPressGuided, "X"};
    case Hint::kStartMotor:
      return {Str::kHintStartMotor, "Space"};
    case Hint::kPlaceTip:
      return {Str::kHintPlaceTip, ""};
    case Hint::kPressing:
      return {Str::kHintPressing, ""};
    case Hint::kNearDepth:
      return {Str::kHintNearDepth, ""};
    case Hint::kTooDeep:
      return {Str::kHintTooDeep, ""};
    case Hint::kThrough:
      return {Str::kHintThrough, "R"};
    case Hint::kJudgeDepth:
      return {Str::kHintJudgeDepth, "R"};
    case Hint::kLifting:
      return {Str::kHintLifting, ""};
    case Hint::kEaseOff:
      return {Str::kHintEaseOff, ""};
    case Hint::kLift:
      return {Str::kHintLift, "R"};
    case Hint::kNextDrill:
      return {Str::kHintNextDrill,
              "1\xE2\x80\x93"
              "6"};
    case Hint::kFinish:
      return {Str::kHintFinish, "Enter"};
    case Hint::kRemoveGuide:
      return {Str::kHintRemoveGuide, "G"};
    case Hint::kRemoveKey:
      return {Str::kHintRemoveKey, "K"};
    case Hint::kTakeImplant:
      return {Str::kHintTakeImplant, "0"};
    case Hint::kLowerImplant:
      return {Str::kHintLowerImplant, ""};
    case Hint::kStartImplant:
      return {Str::kHintStartImplant, "Space"};
    case Hint::kTurningImplant:
      return {Str::kHintTurningImplant, ""};
    case Hint::kImplantTight:
      return {Str::kHintImplantTight, "B"};
    case Hint::kStopImplant:
      return {Str::kHintStopImplant, "Space"};
    case Hint::kReleaseImplant:
      return {Str::kHintReleaseImplant, "D"};
  }
  return {Str::kHintPlaceTip, ""};
}

Str now_of(const session::SessionView& view, const HandNow& hand) {
  if (view.drill_index < 0) {
    return Str::kNowEmptyHand;
  }
  if (view.lifting) {
    return Str::kNowLifting;
  }
  const bool touch = hand.steering == Steering::kTouch;
  if (hand.is_pressing) {
    if (view.at_stop) {
      return Str::kNowAtStop;
    }
    return touch ? Str::kNowPressingTouch : Str::kNowPressing;
  }
  if (view.load.in_contact || !view.is_out) {
    return Str::kNowInHole;
  }
  if (hand.is_reaching) {
    return Str::kNowReaching;
  }
  return touch ? Str::kNowPlacingTouch : Str::kNowPlacing;
}

/// The sentence for this way of steering.
Str steered(Str sentence, Steering steering) {
  const bool steps = steering == Steering::kSteps || steering == Steering::kStepsLean;
  const bool touch = steering == Steering::kTouch;
  if (sentence == Str::kHintPlaceTip) {
    return steps ? Str::kHintPlaceTipSteps : touch ? Str::kHintPlaceTipTouch : sentence;
  }
  if (sentence == Str::kHintPressGuided) {
    return steps ? Str::kHintPressGuidedSteps : touch ? Str::kHintPressGuidedTouch : sentence;
  }
  return sentence;
}

/// What the implant and its motor do now; empty without one.
std::string implant_now(const session::SessionView& view) {
  const session::ImplantView& implant = view.implant;
  const std::string limit = torque_ncm(implant.torque_limit_nmm);
  if (implant.is_seated) {
    return say(Str::kNowSeated, torque_ncm(implant.final_torque_nmm));
  }
  if (implant.index < 0) {
    return {};
  }
  const bool turns = view.load.torque_nmm > 0.0 || implant.has_stalled;
  return turns ? say(Str::kNowTurning, torque_ncm(view.load.torque_nmm), limit)
               : say(Str::kNowImplant, limit);
}

}  // namespace

std::string torque_ncm(double torque_nmm, int decimals) {
  constexpr double kNmmPerNcm = 10.0;
  return base::fixed(torque_nmm / kNmmPerNcm, decimals);
}

HintLine hint_line(const session::SessionView& view, const HandNow& hand) {
  const bool touch = hand.steering == Steering::kTouch;
  if (view.pin.has_value()) {
    return {std::string(tr(Str::kNowPin)), std::string(tr(Str::kHintPin)),
            std::string(touch ? std::string_view() : "V")};
  }
  Step step = hand.is_choosing_length ? Step{Str::kHintChooseLength, ""} : step_of(view.hint);
  step.sentence = steered(step.sentence, hand.steering);
  const bool takes_drill =
      view.hint == session::Hint::kTakeDrill || view.hint == session::Hint::kNextDrill;
  std::string next(tr(step.sentence));
  std::string key(step.key);
  if (takes_drill && !hand.is_choosing_length && !hand.next_drill.empty()) {
    next = say(Str::kHintTakeNamed, hand.next_drill);
    key = hand.next_drill_key;
  }
  std::string now = implant_now(view);
  if (hand.steering == Steering::kSteps || hand.steering == Steering::kStepsLean) {
    now = tr(hand.steering == Steering::kSteps ? Str::kNowSteps : Str::kNowStepsLean);
  } else if (now.empty()) {
    now = tr(now_of(view, hand));
  }
  return {std::move(now), std::move(next), touch ? std::string() : std::move(key)};
}

std::string probe_words(const session::SessionView& view) {
  if (!view.probe.has_value()) {
    return {};
  }
  const auto& walls = view.probe->wall_present;
  const auto present = std::count(walls.begin(), walls.end(), true);
  const std::string floor = base::fixed(view.probe->floor_mm, 0);
  if (present == 4) {
    return say(Str::kProbeAllWalls, floor);
  }
  constexpr std::array kSides{Str::kRight, Str::kFar, Str::kLeft, Str::kNear};
  std::vector<std::string> missing;
  for (std::size_t i = 0; i < walls.size(); ++i) {
    if (!walls[i]) {
      missing.emplace_back(tr(kSides[i]));
    }
  }
  return say(Str::kProbeMissingWall, floor, base::join(missing, ", "));
}

}  // namespace driftbench::ui
