// Which hand holds the drill, and whether time waits for the keys: set before an attempt, kept.
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <array>

namespace driftbench::ui {

void briefing_bar(Frame& frame, Rect& page) {
  const Model& model = frame.model;
  const auto choice = [&model](Str label, Str help, bool on) {
    Button one = quiet_button(label);
    one.is_switch = true;
    one.on = on;
    one.enabled = !model.is_hand_kept;
    one.description = tr(model.is_hand_kept ? Str::kHandKept : help);
    return one;
  };
  std::array ways{choice(Str::kLeftHand, Str::kLeftHandHelp, model.left_handed),
                  choice(Str::kSteps, Str::kStepsHelp, model.step_by_step)};
  ways[1].key = "S";
  const std::string where = place_words(frame);
  const PageBar bar = page_bar(frame, page, where, ways);
  if (bar.pressed == 0) {
    frame.emit(ToggleLeftHand{});
  }
  if (bar.pressed == 1 || (key_hit(ImGuiKey_S) && !model.is_hand_kept)) {
    frame.emit(ToggleSteps{});
  }
  text_middle(frame, bar.title, strong(frame), where);
}

}  // namespace driftbench::ui
