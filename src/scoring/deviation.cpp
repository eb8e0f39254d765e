#include "scoring/deviation.h"

#include "geometry/anatomical_frame.h"
#include "geometry/line.h"
#include "math/angle.h"

#include <optional>

namespace driftbench::scoring {

namespace {

double degrees(double radians) {
  return math::to_degrees(math::Radians(radians)).value;
}

}  // namespace

base::Result<Deviation> deviation(const math::Vec3& plan_entry, const math::Vec3& plan_apex,
                                  const math::Vec3& entry, const math::Vec3& apex,
                                  const math::Vec3& md_hint, const math::Vec3& bl_hint) {
  const base::Result<geometry::AnatomicalFrame> frame =
      geometry::make_anatomical_frame(plan_entry, plan_apex, md_hint, bl_hint);
  if (!frame) {
    return tl::unexpected<base::Error>(frame.error());
  }
  if (!math::is_finite(entry) || !math::is_finite(apex)) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "The achieved entry or apex is not a finite number.");
  }
  const math::Vec3 achieved = apex - entry;
  if (!(math::length2(achieved) > 0.0)) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "The achieved entry and apex coincide, so there is no axis.");
  }

  const geometry::AnatomicalComponents at_entry = geometry::components(*frame, entry - plan_entry);
  const geometry::AnatomicalComponents at_apex = geometry::components(*frame, apex - plan_apex);
  const geometry::AnatomicalTilts lean = geometry::tilts(*frame, achieved);
  const std::optional<math::Vec3> piercing = geometry::plane_intersection(
      geometry::line_through(entry, apex), plan_entry, frame->down_unit);
  if (!piercing) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "The achieved axis lies parallel to the platform plane and never meets it.");
  }

  Deviation result;
  result.entry_global_mm = math::length(entry - plan_entry);
  result.entry_lateral_mm = math::length(math::Vec2(at_entry.md_mm, at_entry.bl_mm));
  result.entry_piercing_mm = math::length(*piercing - plan_entry);
  result.depth_mm = at_entry.depth_mm;
  result.apex_global_mm = math::length(apex - plan_apex);
  result.apex_lateral_mm = math::length(math::Vec2(at_apex.md_mm, at_apex.bl_mm));
  result.apex_depth_mm = at_apex.depth_mm;
  result.angle_deg = degrees(lean.angle_rad);
  result.entry_md_mm = at_entry.md_mm;
  result.entry_bl_mm = at_entry.bl_mm;
  result.apex_md_mm = at_apex.md_mm;
  result.apex_bl_mm = at_apex.bl_mm;
  result.tilt_md_deg = degrees(lean.tilt_md_rad);
  result.tilt_bl_deg = degrees(lean.tilt_bl_rad);
  return result;
}

}  // namespace driftbench::scoring
