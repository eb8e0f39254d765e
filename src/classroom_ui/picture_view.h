// Draws a chart of the class on the screen, in the colours of the theme.
#pragma once

#include "classroom/picture.h"
#include "ui/canvas.h"

#include <imgui.h>

namespace driftbench::classroom_ui {

/// Draws the chart with its top left corner at `origin`; `unit_px` logical px make one picture
/// unit. Its words go to the item tree, the chart itself as an image with its title.
void draw_picture(ui::Canvas& canvas, ImVec2 origin, float unit_px,
                  const classroom::Picture& picture);

}  // namespace driftbench::classroom_ui
