// The plan as a drawing: block, planned hole, and for a guided site what adds up to the drill
// length.
#pragma once

#include "lesson/lesson.h"
#include "specimen/site_sketch.h"
#include "ui/widgets.h"

namespace driftbench::ui {

/// The part of a jaw that the drawing shows.
[[nodiscard]] specimen::SketchWindow plan_window(const lesson::AttemptSetup& setup);

/// Draws the section through the planned axis. Without a plan to draw (a box too small) nothing.
void plan_figure(Frame& frame, const Rect& box, const lesson::AttemptSetup& setup);

}  // namespace driftbench::ui
