// Guided drill-length arithmetic and the tilt that a sleeve's play allows.
#pragma once

#include "base/result.h"
#include "math/angle.h"

namespace driftbench::specimen {

/// One guiding fit. All lengths along the axis.
struct SleeveFit {
  double bore_mm = 0.0;    ///< D
  double drill_mm = 0.0;   ///< d, the diameter that runs in the bore
  double height_mm = 0.0;  ///< H, engaged length
  double gap_mm = 0.0;     ///< planned platform to the sleeve's lower edge
  double implant_mm = 0.0;
  double key_mm = 0.0;  ///< collar of the key on the sleeve; adds length only
};

struct SleeveGeometry {
  math::Radians tilt;              ///< exact: D cos t - H sin t = d
  math::Radians tilt_first_order;  ///< atan((D - d) / H), an upper bound
  double entry_mm = 0.0;           ///< (H/2 + gap) tan(tilt)
  double apex_mm = 0.0;            ///< (H/2 + gap + implant) tan(tilt)
  double drill_length_mm = 0.0;    ///< stop to shoulder: implant + gap + H + key
};

/// Largest tilt and lateral error that a sleeve allows, and the drill length it asks for.
///
/// Errors: kOutOfRange when a length is not finite or not positive (gap, key: negative), or d >= D
/// Source: rigid-body geometry (strip of width d in a slot D x H); lengths: common teaching
/// practice
[[nodiscard]] base::Result<SleeveGeometry> sleeve_geometry(const SleeveFit& fit);

}  // namespace driftbench::specimen
