// How a jaw section lies in the core's frame: mirrored in quadrants 2 and 4, perhaps turned to a
// plan.
#pragma once

#include "math/vec.h"
#include "specimen/plan.h"

namespace driftbench::specimen {

/// Placement of the core frame in the jaw frame.
///
/// Frame: core frame: right-handed, the frame of volume and mechanics. Jaw frame: anatomical words
///        (+x distal, +y lingual, +z out of the bone), left-handed in quadrants 2 and 4. `axes`
///        are the core's axes before mirroring, in the jaw frame; mirroring turns core x round.
struct JawPose {
  math::Vec3 origin_mm{0.0};
  math::Mat3 axes{1.0};
  bool is_mirrored = false;

  [[nodiscard]] math::Vec3 to_jaw(const math::Vec3& core) const {
    const math::Vec3 p(is_mirrored ? -core.x : core.x, core.y, core.z);
    return origin_mm + axes * p;
  }

  [[nodiscard]] math::Vec3 direction_to_jaw(const math::Vec3& core) const {
    return axes * math::Vec3(is_mirrored ? -core.x : core.x, core.y, core.z);
  }

  [[nodiscard]] math::Vec3 direction_to_core(const math::Vec3& jaw) const {
    const math::Vec3 p(math::dot(axes[0], jaw), math::dot(axes[1], jaw), math::dot(axes[2], jaw));
    return {is_mirrored ? -p.x : p.x, p.y, p.z};
  }

  [[nodiscard]] math::Vec3 to_core(const math::Vec3& jaw) const {
    return direction_to_core(jaw - origin_mm);
  }
};

/// Core axes along the jaw's own axes, mirrored where the quadrant of the site needs it.
[[nodiscard]] JawPose pose_of(int site_fdi);

/// Site frame of a plan given in the jaw frame: origin at the entry, +z along the axis.
///
/// Contract: axis not along x or y. Source: Gram-Schmidt as in geometry/anatomical_frame.h
[[nodiscard]] JawPose pose_at(int site_fdi, const math::Vec3& entry_mm, const math::Vec3& axis_out);

/// A plan of the jaw frame in the core's frame, with its 'distal' and 'lingual' hints.
[[nodiscard]] Plan plan_in_core(const JawPose& pose, const Plan& in_jaw);

}  // namespace driftbench::specimen
