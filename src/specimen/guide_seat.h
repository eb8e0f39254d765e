// Where a guide's feet stand in a jaw.
#pragma once

#include "base/result.h"
#include "specimen/jaw_site.h"

#include <array>

namespace driftbench::specimen {

/// Gum thicker than this moves under a guide, which is refused; own assumption (a mucosa of 3.42 mm
/// in non-smokers and 4.53 mm in smokers: Cassetta et al. 2013).
inline constexpr double kThickestGum_mm = 4.0;

/// One foot of a guide.
struct GuideFoot {
  math::Vec3 at_mm{0.0};  ///< site frame
  int fdi = 0;            ///< tooth it stands on; 0: gum or bone

  friend bool operator==(const GuideFoot&, const GuideFoot&) = default;
};

/// How a guide sits in a jaw.
struct GuideSeat {
  std::array<GuideFoot, 4> feet;  ///< at +x+y, -x+y, -x-y, +x-y of the site frame
  double span_mm = 0.0;  ///< edge of the square that rocks as much: the same mean square of the
                         ///< tilt over all directions, from 8 to 36 mm

  friend bool operator==(const GuideSeat&, const GuideSeat&) = default;
};

/// The seat that this jaw gives: on the neighbours' crowns where they are widest, or on gum or bone
/// over the shoulders of the crest, between the neighbours.
///
/// Contract: the site's jaw is valid
/// Errors:   kInvalidArgument where the jaw cannot give it: one sentence
/// Cost:     a few milliseconds
[[nodiscard]] base::Result<GuideSeat> seat_of(const JawSite& site, const GuideSupport& support);

}  // namespace driftbench::specimen
