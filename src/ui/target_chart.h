// Target seen along the planned axis: plan in the middle, holes and estimates as marks.
#pragma once

#include "ui/marks.h"
#include "ui/words.h"

#include <vector>

namespace driftbench::ui {

/// One mark on the target.
struct TargetMark {
  double md_mm = 0.0;
  double bl_mm = 0.0;
  specimen::Approach approach = specimen::Approach::kFreehand;
  bool is_current = true;
  bool is_estimate = false;
};

struct TargetSpec {
  std::string name;           ///< "Entry target"
  std::string value;          ///< what the marks say, in words, for assistive tools
  double range_mm = 3.0;      ///< half width
  double tolerance_mm = 0.0;  ///< ring; 0: none
  std::vector<TargetMark> marks;
};

/// The square of the plot within the room for chart and edge words.
[[nodiscard]] Rect target_plot(const Frame& frame, const Rect& box);

/// Rings, scale and the words at the four edges.
void target_ground(Frame& frame, const Rect& plot, const SiteWords& words, double range_mm,
                   double tolerance_mm);

/// Where a point lies in the plot.
[[nodiscard]] ImVec2 on_target(const Rect& plot, double range_mm, double md_mm, double bl_mm);

/// Whole chart. A mark beyond the range stands at the edge with its distance.
void target_chart(Frame& frame, const Rect& box, const SiteWords& words, const TargetSpec& spec);

}  // namespace driftbench::ui
