// A straight line in space and its distances and angles.
#pragma once

#include "math/angle.h"
#include "math/vec.h"

#include <optional>

namespace driftbench::geometry {

/// Line through a point along a unit axis.
struct Line {
  math::Vec3 point{0.0};  ///< any point on the line [mm]
  math::Vec3 axis_unit{0.0, 0.0, 1.0};
};

/// Line through two points, pointing from the first to the second. Contract: they differ.
[[nodiscard]] Line line_through(const math::Vec3& from, const math::Vec3& to);

/// Point of the line nearest to p.
[[nodiscard]] math::Vec3 closest_point(const Line& line, const math::Vec3& p);

/// Perpendicular distance of p from the line.
[[nodiscard]] double distance_mm(const Line& line, const math::Vec3& p);

/// Where the line pierces the plane; nothing when it runs parallel within 1e-9 rad.
[[nodiscard]] std::optional<math::Vec3> plane_intersection(const Line& line,
                                                           const math::Vec3& plane_point,
                                                           const math::Vec3& normal_unit);

/// Angle between two directions, 0 ... pi, by atan2(|u x v|, u . v): accurate near 0 as well.
/// The vectors need not have length 1. Contract: neither is zero.
[[nodiscard]] math::Radians angle_between(const math::Vec3& u, const math::Vec3& v);

}  // namespace driftbench::geometry
