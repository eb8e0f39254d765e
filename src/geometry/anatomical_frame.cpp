// Gram-Schmidt in the order down, mesio-distal, bucco-lingual.
#include "geometry/anatomical_frame.h"

#include "base/contract.h"
#include "math/elementary.h"

#include <fmt/format.h>

#include <string_view>

namespace driftbench::geometry {
namespace {

using math::Vec3;

// Shortest plan that has a direction, and smallest sine between a hint and what it must leave.
constexpr double kSmallestLength_mm = 1e-6;
constexpr double kSmallestSine = 1e-6;

tl::unexpected<base::Error> degenerate(std::string_view found, std::string_view expected) {
  return base::fail(base::ErrorCode::kInvalidArgument,
                    fmt::format("found {}, expected {}", found, expected));
}

}  // namespace

base::Result<AnatomicalFrame> make_anatomical_frame(const Vec3& plan_entry, const Vec3& plan_apex,
                                                    const Vec3& distal_hint,
                                                    const Vec3& lingual_hint) {
  const Vec3 along = plan_apex - plan_entry;
  if (!math::is_finite(along) || !math::is_finite(distal_hint) || !math::is_finite(lingual_hint)) {
    return degenerate("a coordinate that is not finite", "finite numbers");
  }
  if (length(along) < kSmallestLength_mm) {
    return degenerate("a planned entry and apex at the same point", "two different points");
  }
  AnatomicalFrame frame;
  frame.down_unit = math::unit(along);
  const Vec3 md = distal_hint - frame.down_unit * dot(distal_hint, frame.down_unit);
  if (length(md) <= kSmallestSine * length(distal_hint)) {
    return degenerate("a plan that runs along the distal direction",
                      "a distal direction across the plan");
  }
  frame.md_unit = math::unit(md);
  const Vec3 bl = lingual_hint - frame.down_unit * dot(lingual_hint, frame.down_unit) -
                  frame.md_unit * dot(lingual_hint, frame.md_unit);
  if (length(bl) <= kSmallestSine * length(lingual_hint)) {
    return degenerate("a lingual direction in the plane of plan and distal direction",
                      "a lingual direction out of that plane");
  }
  frame.bl_unit = math::unit(bl);
  return frame;
}

AnatomicalComponents components(const AnatomicalFrame& frame, const Vec3& difference) {
  return {dot(difference, frame.md_unit), dot(difference, frame.bl_unit),
          dot(difference, frame.down_unit)};
}

AnatomicalTilts tilts(const AnatomicalFrame& frame, const Vec3& axis) {
  DRIFTBENCH_EXPECTS(math::is_finite(axis) && math::length2(axis) > 0.0);
  const double down = dot(axis, frame.down_unit);
  return {math::atan2(dot(axis, frame.md_unit), down), math::atan2(dot(axis, frame.bl_unit), down),
          math::atan2(length(cross(frame.down_unit, axis)), down)};
}

}  // namespace driftbench::geometry
