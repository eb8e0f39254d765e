// A button that takes something away only when it is pressed a second time.
#pragma once

#include "ui/frame.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <string>

namespace driftbench::ui {

/// Gives the button its words: `question` in red once it was pressed, `label` before. `what` names
/// what would go, among all that can go on this screen.
[[nodiscard]] Button twice_button(const Frame& frame, Str label, Str question,
                                  const std::string& what);

/// After the button was drawn: whether it was pressed for the second time. A click elsewhere takes
/// the question back.
[[nodiscard]] bool pressed_twice(Frame& frame, bool is_pressed, const std::string& what);

}  // namespace driftbench::ui
