#include "lesson/guide_plan.h"

#include "specimen/guide_support.h"

#include <algorithm>
#include <cmath>

namespace driftbench::lesson {

GuidePlan clamped(const GuidePlan& plan) {
  GuidePlan inside = plan;
  inside.gap_mm =
      std::round(10.0 * std::clamp(plan.gap_mm, kGuideGapLow_mm, kGuideGapHigh_mm)) / 10.0;
  inside.support.pins = std::clamp(plan.support.pins, 0, kMostGuidePins);
  if (plan.mouth_opening_mm.has_value()) {
    inside.mouth_opening_mm =
        std::round(std::clamp(*plan.mouth_opening_mm, kMouthLow_mm, kMouthHigh_mm));
  }
  if (inside.support.on == specimen::SupportKind::kTeeth) {
    inside.support.pins = 0;
  }
  inside.support.bite_index =
      inside.support.bite_index && inside.support.on == specimen::SupportKind::kMucosa;
  inside.implant_through_guide =
      inside.implant_through_guide && inside.approach == specimen::Approach::kSleeve;
  return inside;
}

specimen::Guide guide_of(const GuidePlan& plan, const specimen::Kit& kit) {
  specimen::Guide guide = specimen::typical_guide(plan.support);
  guide.sleeve_id = kit.sleeves.front().id;
  guide.gap_mm = plan.gap_mm;
  guide.mouth_opening_mm = plan.mouth_opening_mm;
  return guide;
}

}  // namespace driftbench::lesson
