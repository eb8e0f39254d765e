// How hard the hand presses, as a shape: a wedge that fills. No number.
#pragma once

#include "ui/widgets.h"

namespace driftbench::ui {

/// Clicking or arrows set the level that a held press gives; held by a finger it presses.
void press_gauge(Frame& frame, const Rect& box);

}  // namespace driftbench::ui
