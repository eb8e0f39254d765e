// Which hand holds the drill, and whether time waits for the keys: set before an attempt, kept.
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"

namespace driftbench::ui {

void hand_switches(Frame& frame, Rect& bar) {
  const std::string_view kept = frame.model.is_hand_kept ? tr(Str::kHandKept) : std::string_view();
  Button left{std::string(tr(Str::kLeftHand))};
  left.is_switch = true;
  left.on = frame.model.left_handed;
  left.kind = ButtonKind::kQuiet;
  left.enabled = !frame.model.is_hand_kept;
  left.description = kept.empty() ? tr(Str::kLeftHandHelp) : kept;
  if (bar_button(frame, bar, left)) {
    frame.emit(ToggleLeftHand{});
  }
  Button steps{std::string(tr(Str::kSteps)), "S"};
  steps.is_switch = true;
  steps.on = frame.model.step_by_step;
  steps.kind = ButtonKind::kQuiet;
  steps.enabled = !frame.model.is_hand_kept;
  steps.description = kept.empty() ? tr(Str::kStepsHelp) : kept;
  const bool by_key = key_hit(ImGuiKey_S) && steps.enabled;
  if (bar_button(frame, bar, steps) || by_key) {
    frame.emit(ToggleSteps{});
  }
}

}  // namespace driftbench::ui
