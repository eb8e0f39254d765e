// Hole size by depth: largest and smallest diameter beside the last drill's.
#pragma once

#include "scoring/results.h"
#include "ui/widgets.h"

namespace driftbench::ui {

/// One row that says what the lines of the chart mean.
void hole_chart_legend(Frame& frame, Rect row);

/// `floor_mm`: depth of the full diameter; what lies below is the point's cone and not drawn.
void hole_chart(Frame& frame, const Rect& box, const scoring::HoleMeasures& hole,
                double last_drill_mm, double floor_mm);

}  // namespace driftbench::ui
