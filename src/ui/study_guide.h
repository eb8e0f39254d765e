// The tab of the study that plans a guide, and what it lets through.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Approach, support, gap and mouth; shortens the column by what they take.
void guide_choices(Frame& frame, Rect& column);

/// Support and room, lengths, error budget of the plan as it is now, or why there are none.
void guide_findings(Frame& frame, Rect& column);

}  // namespace driftbench::ui
