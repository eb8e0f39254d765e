// The plan as a drawing: block, planned hole, and for a guided site what adds up to the drill
// length.
#pragma once

#include "lesson/lesson.h"
#include "ui/widgets.h"

namespace driftbench::ui {

/// Draws the section through the planned axis. Without a plan to draw (a box too small) nothing.
void plan_figure(Frame& frame, const Rect& box, const lesson::AttemptSetup& setup);

}  // namespace driftbench::ui
