// Inputs of the estimate that are drawn, not typed: target dot, depth slider, lean needles.
#pragma once

#include "ui/target_chart.h"

namespace driftbench::ui {

/// Drags a mark on the target; arrows 0.1 mm, Shift 0.02. Changes md and bl.
void target_input(Frame& frame, const Rect& box, const SiteWords& words, double& md_mm,
                  double& bl_mm);

/// Vertical, too shallow at the top, too deep at the bottom; + deeper.
void depth_slider(Frame& frame, const Rect& box, double& depth_error_mm);

/// A needle that leans about the middle of an arc; + is toward `plus`.
struct NeedleSpec {
  std::string name;
  std::string minus;  ///< edge word at the left
  std::string plus;   ///< at the right
  std::string value;  ///< the lean in words
};

void lean_needle(Frame& frame, const Rect& box, const NeedleSpec& spec, double& tilt_deg);

}  // namespace driftbench::ui
