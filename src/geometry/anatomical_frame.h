// Mesio-distal, bucco-lingual and depth directions of one planned site.
#pragma once

#include "base/result.h"
#include "math/vec.h"

namespace driftbench::geometry {

/// Unit directions at right angles to one another; md is + distal, bl is + lingual, down is +
/// deeper.
struct AnatomicalFrame {
  math::Vec3 md_unit{1.0, 0.0, 0.0};
  math::Vec3 bl_unit{0.0, 1.0, 0.0};
  math::Vec3 down_unit{0.0, 0.0, 1.0};
};

/// A difference vector split along the frame.
struct AnatomicalComponents {
  double md_mm = 0.0;     ///< + distal
  double bl_mm = 0.0;     ///< + lingual
  double depth_mm = 0.0;  ///< + deeper
};

/// Tilt of a placed axis against the planned one.
struct AnatomicalTilts {
  double tilt_md_rad = 0.0;  ///< + apex leans distally
  double tilt_bl_rad = 0.0;  ///< + apex leans lingually
  double angle_rad = 0.0;    ///< whole angle, >= 0
};

/// Frame of a plan: down = unit(apex - entry); md = the distal hint without its part along down;
/// bl = the lingual hint without its parts along down and md.
///
/// Frame:  all in the specimen's frame; handedness follows the hints
/// Errors: kInvalidArgument when entry and apex coincide, a hint is (nearly) parallel to what it
/// must
///         be independent of, or a number is not finite
/// Source: definition (Gram-Schmidt in the order down, md, bl)
[[nodiscard]] base::Result<AnatomicalFrame> make_anatomical_frame(const math::Vec3& plan_entry,
                                                                  const math::Vec3& plan_apex,
                                                                  const math::Vec3& distal_hint,
                                                                  const math::Vec3& lingual_hint);

/// Components of a difference vector [mm].
[[nodiscard]] AnatomicalComponents components(const AnatomicalFrame& frame,
                                              const math::Vec3& difference);

/// Tilts of an axis that need not have length 1:
/// tilt_md = atan2(v.md, v.down), tilt_bl = atan2(v.bl, v.down), angle = atan2(|down x v|, down.v).
/// Contract: axis finite and not zero.
[[nodiscard]] AnatomicalTilts tilts(const AnatomicalFrame& frame, const math::Vec3& axis);

}  // namespace driftbench::geometry
