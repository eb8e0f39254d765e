// Hole size by depth: largest and smallest diameter beside the last drill's.
#pragma once

#include "scoring/results.h"
#include "ui/widgets.h"

namespace driftbench::ui {

void hole_chart(Frame& frame, const Rect& box, const scoring::HoleMeasures& hole,
                double last_drill_mm);

}  // namespace driftbench::ui
