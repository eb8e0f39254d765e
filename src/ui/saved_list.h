// Stored attempts on the shelf: open, export, delete.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Draws the list from the top of the column; gives where it ends.
float saved_list(Frame& frame, Rect column);

}  // namespace driftbench::ui
