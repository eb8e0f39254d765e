// The attempt over time: press, depth and side force, the moments, and a scrubber.
#pragma once

#include "ui/widgets.h"

namespace driftbench::ui {

/// Height that the time line needs.
[[nodiscard]] float timeline_height(const Frame& frame, float room_px);

/// Draws the whole strip and emits ScrubTo and PlayReplay.
void timeline(Frame& frame, const Rect& box);

}  // namespace driftbench::ui
