#include "scoring/judge.h"

#include <string>
#include <utility>

namespace driftbench::scoring {

namespace {

Judgement judged(const Deviation& deviation, double depth_error_mm, const Tolerance& tolerance) {
  const Reason checks[] = {
      {"entry_lateral_mm", deviation.entry_lateral_mm, 0.0, tolerance.entry_mm},
      {"apex_lateral_mm", deviation.apex_lateral_mm, 0.0, tolerance.apex_mm},
      {"angle_deg", deviation.angle_deg, 0.0, tolerance.angle_deg},
      {"depth_error_mm", depth_error_mm, tolerance.depth_low_mm, tolerance.depth_high_mm}};
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

}  // namespace

Judgement judge(const HoleMeasures& hole, const Tolerance& tolerance) {
  return judged(hole.deviation, hole.depth_error_mm, tolerance);
}

Judgement judge(const ImplantMeasures& implant, const Tolerance& tolerance) {
  return judged(implant.deviation, implant.depth_error_mm, tolerance);
}

void judge_events(const JawMeasures& jaw, Judgement& judgement) {
  for (const JawEvent& event : jaw.events) {
    Reason reason;
    reason.measure =
        event.is_going_on ? "went-on" : "touched:" + std::string(name_of(event.structure));
    for (const ClearanceMeasure& clearance : jaw.clearances) {
      if (clearance.structure == event.structure) {
        reason.found = clearance.achieved_mm;
      }
    }
    judgement.reasons.push_back(std::move(reason));
  }
  judgement.inside_tolerance = judgement.inside_tolerance && jaw.events.empty();
}

}  // namespace driftbench::scoring
