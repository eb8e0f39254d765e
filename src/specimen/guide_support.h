// What a support by teeth, gum or bone is worth to a guide.
#pragma once

#include "specimen/plan.h"

namespace driftbench::specimen {

/// Fixation pins from which a guide counts as pinned; common teaching value.
inline constexpr int kPinsThatHold = 3;

/// A guide on that support: stiffness, seat and making. The span of its feet is left to the jaw
/// (0).
///
/// Source: fit_tilt_sd_deg: mean angles of 2.91 deg on teeth, 4.63 on bone, 4.51 on mucosa (Ozan et
///         al. 2009, J Oral Maxillofac Surg 67:394), as spreads per axis (mean = 1.2533 SD), with
///         0.5 deg of it on teeth (0.2 mm over 20 mm) and the surplus added in squares; pins halve
///         it (they help: Cassetta et al. 2013; by how much: own assumption). fit_sd_mm on teeth:
///         guide off by 0.34 mm in space (PMC12801966), over 1.596. Foot on gum: 0.3 mm under the
///         hold of 15 N (0.1 to 0.5 mm under seating, common text figure). The rest: own assumption
[[nodiscard]] Guide typical_guide(const GuideSupport& support);

}  // namespace driftbench::specimen
