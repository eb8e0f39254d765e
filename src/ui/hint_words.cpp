#include "ui/hint_words.h"

#include "base/text.h"
#include "ui/strings.h"

#include <algorithm>
#include <array>
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
    case Hint::kEngageDrill:
      return {Str::kHintEngageDrill, ""};
    case Hint::kStartMotor:
      return {Str::kHintStartMotor, "Space"};
    case Hint::kPlaceTip:
      return {Str::kHintPlaceTip, ""};
    case Hint::kPressing:
      return {Str::kHintPressing, ""};
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
  }
  return {Str::kHintPlaceTip, ""};
}

Str now_of(const session::SessionView& view, bool pressing) {
  if (view.drill_index < 0) {
    return Str::kNowEmptyHand;
  }
  if (view.lifting) {
    return Str::kNowLifting;
  }
  if (pressing) {
    return view.at_stop ? Str::kNowAtStop : Str::kNowPressing;
  }
  return view.load.in_contact || !view.is_out ? Str::kNowInHole : Str::kNowPlacing;
}

}  // namespace

HintLine hint_line(const session::SessionView& view, bool pressing) {
  const Step step = step_of(view.hint);
  return {std::string(tr(now_of(view, pressing))), std::string(tr(step.sentence)),
          std::string(step.key)};
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
