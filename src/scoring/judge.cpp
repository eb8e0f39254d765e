#include "scoring/judge.h"

namespace driftbench::scoring {

Judgement judge(const HoleMeasures& hole, const Tolerance& tolerance) {
  const Reason checks[] = {
      {"entry_lateral_mm", hole.deviation.entry_lateral_mm, 0.0, tolerance.entry_mm},
      {"apex_lateral_mm", hole.deviation.apex_lateral_mm, 0.0, tolerance.apex_mm},
      {"angle_deg", hole.deviation.angle_deg, 0.0, tolerance.angle_deg},
      {"depth_error_mm", hole.depth_error_mm, tolerance.depth_low_mm, tolerance.depth_high_mm}};
  Judgement judgement;
  for (const Reason& check : checks) {
    const bool is_inside = check.found >= check.low && check.found <= check.high;
    if (!is_inside) {
      judgement.reasons.push_back(check);
    }
  }
  judgement.inside_tolerance = judgement.reasons.empty();
  return judgement;
}

}  // namespace driftbench::scoring
