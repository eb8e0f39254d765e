// Removes a solid of revolution from a volume.
#pragma once

#include "volume/volume.h"

#include <cstdint>

namespace driftbench::volume {

/// Solid of revolution about +z of its own frame, tip at the origin.
struct RevolvedSolid {
  enum class Point { kCone, kBall };
  Point point = Point::kCone;
  double radius_mm = 0.0;                        ///< of the body; of the ball
  double half_angle_sin = 0.857167300702112287;  ///< of the conical point (59 deg)
  double half_angle_cos = 0.515038074910054210;
  double neck_radius_mm = 0.0;  ///< above a ball; at most its radius
};

/// Signed distance to the solid (negative inside) from cylinder coordinates: radius, height.
///
/// Unit: mm. Convex parts are combined by max(), so edges stay sharp.
[[nodiscard]] double signed_distance_mm(const RevolvedSolid& solid, double radius_mm,
                                        double height_mm);

/// Lowers coverage to what the solid leaves, within the stretch of its axis from `from_mm` to
/// `to_mm`.
///
/// Frame:  tip and axis in the site frame; the axis points from the tip into the body
/// Result: coverage units lost (0..255 per voxel); added to volume.lost_coverage too
/// Cost:   proportional to the box around the stretch; already empty runs are skipped
std::uint64_t carve(Volume& volume, const RevolvedSolid& solid, const math::Vec3& tip_mm,
                    const math::Vec3& axis_unit, double from_mm, double to_mm,
                    std::uint16_t removal_tick);

}  // namespace driftbench::volume
