// Briefing: what the guide rests on, whether there is room, and the sheet to print.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Draws the findings about the briefed block's guide and the button that saves the site sheet;
/// gives the height used, 0 without a guide.
float guide_panel(Frame& frame, Rect column);

}  // namespace driftbench::ui
