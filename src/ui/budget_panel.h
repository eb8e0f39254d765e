// What the guide of a block lets through, split by what lets it.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Rows of the error budget with a gap to be chosen; gives the height used. Nothing without a
/// budget in the model.
float budget_panel(Frame& frame, Rect column);

}  // namespace driftbench::ui
