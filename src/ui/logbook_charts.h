// Charts of the logbook: learning curve, and own estimate against what was measured.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

#include <vector>

namespace driftbench::ui {

/// One attempt on the learning curve, oldest first.
struct CurvePoint {
  double share = 0.0;  ///< largest error as a part of its tolerance
  specimen::Approach approach = specimen::Approach::kFreehand;
};

/// Points over a line at the tolerance, and the evidence for a pass below as a filled step line;
/// `evidence` may be empty.
void learning_curve(Frame& frame, const Rect& box, const std::vector<CurvePoint>& points,
                    const std::vector<double>& evidence);

/// One own estimate: distance of the entry from the plan. Unit: mm
struct EstimatePoint {
  double measured_mm = 0.0;
  double estimated_mm = 0.0;
  specimen::Approach approach = specimen::Approach::kFreehand;
};

/// Points about the line on which both are the same.
void estimate_chart(Frame& frame, const Rect& box, const std::vector<EstimatePoint>& points);

}  // namespace driftbench::ui
