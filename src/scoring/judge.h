// Says whether a hole lies inside its tolerance, and if not, every reason why.
#pragma once

#include "scoring/results.h"
#include "scoring/tolerance.h"

#include <vector>

namespace driftbench::scoring {

/// Verdict of the conjunctive rule: inside only when every measure is inside.
struct Judgement {
  bool inside_tolerance = false;
  std::vector<Reason> reasons;  ///< measures outside, in the order entry, apex, angle, depth
};

/// Holds a measured hole against the lesson's tolerances. Limits themselves are inside.
///
/// Unit:   mm and degrees; reasons name entry_lateral_mm, apex_lateral_mm, angle_deg,
/// depth_error_mm Errors: none; a measure that is not a number counts as outside Source: own rule
/// (every tolerance must be met; speed never counts)
[[nodiscard]] Judgement judge(const HoleMeasures& hole, const Tolerance& tolerance);

/// The same rule for a placed implant; its depth error is at the platform.
[[nodiscard]] Judgement judge(const ImplantMeasures& implant, const Tolerance& tolerance);

/// Adds the critical events of a jaw: one reason each, named "touched:<structure>" or "went-on",
/// with the distance that was left (negative). Any of them puts the attempt outside.
void judge_events(const JawMeasures& jaw, Judgement& judgement);

}  // namespace driftbench::scoring
