// Difference between a planned and an achieved placement, by the definitions used in print.
#pragma once

#include "base/result.h"
#include "math/vec.h"
#include "scoring/results.h"

namespace driftbench::scoring {

/// All components of the difference, with their signs.
///
/// Unit:   points in mm; result mm and degrees. Entries are platform centres, or for a hole the
///         point where its axis meets the planned platform plane
/// Frame:  any one frame for all arguments; the hints are 'distal' and 'lingual' in that frame
/// Errors: kInvalidArgument when a number is not finite, entry and apex coincide, a hint is
///         parallel to the planned axis, or the achieved axis never meets the platform plane
/// Source: Vercruyssen et al. 2015 (signed components); Onclin thesis ch. 3 (axis-piercing
/// lateral);
///         Appl Sci 2026;16(3):1652 (global, perpendicular lateral, depth); angle by atan2
[[nodiscard]] base::Result<Deviation> deviation(const math::Vec3& plan_entry,
                                                const math::Vec3& plan_apex,
                                                const math::Vec3& entry, const math::Vec3& apex,
                                                const math::Vec3& md_hint,
                                                const math::Vec3& bl_hint);

}  // namespace driftbench::scoring
