// A set on the shelf: its purpose and a card for each lesson.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

#include <cstddef>

namespace driftbench::ui {

/// Draws a set at the top of the column; gives the height used.
float set_row(Frame& frame, Rect column, std::size_t set_index);

}  // namespace driftbench::ui
