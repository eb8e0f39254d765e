// The lower picture of the debrief: hole size by depth, or the section across the axis.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Draws the one that is chosen, with the choice above it. Without a hole only the section.
void debrief_chart(Frame& frame, Rect box);

}  // namespace driftbench::ui
