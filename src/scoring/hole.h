// Measures a hole from the material alone: where it is, how it leans, how deep and wide it is.
#pragma once

#include "base/result.h"
#include "scoring/results.h"
#include "specimen/plan.h"
#include "volume/volume.h"

namespace driftbench::scoring {

/// Shallowest full-diameter floor below the rim that is still measured as a hole. Own choice.
inline constexpr double kShallowestHole_mm = 1.0;

/// Distance between the sections of a hole.
inline constexpr double kSectionSpacing_mm = 0.2;

/// Finds the removed region nearest the planned entry and measures it against the plan. It is not
/// told which approach, hand or drill made the hole.
///
/// Unit:   mm; last_drill_diameter_mm = last drill of the planned sequence
/// Frame:  site frame; the planned axis may lie obliquely in the lattice
/// Errors: kInvalidArgument with one sentence when nothing was removed, the hole is shallower than
///         1 mm, or the plan is degenerate
/// Source: definitions as in holes.csv (DEVELOPERS.md): entry = fitted axis through the platform
///         plane, apex = fitted axis at the full-diameter floor; axis by total least squares
/// Cost:   about 15 ms for a 4 x 12 mm hole on 0.2 mm voxels
[[nodiscard]] base::Result<HoleMeasures> measure_hole(const volume::Volume& volume,
                                                      const specimen::Plan& plan,
                                                      double last_drill_diameter_mm);

}  // namespace driftbench::scoring
