// Distances and angles of lines.
#include "geometry/line.h"

#include "base/contract.h"
#include "math/elementary.h"

#include <cmath>

namespace driftbench::geometry {

using math::Vec3;

Line line_through(const Vec3& from, const Vec3& to) {
  return {from, math::unit(to - from)};
}

Vec3 closest_point(const Line& line, const Vec3& p) {
  return line.point + line.axis_unit * dot(p - line.point, line.axis_unit);
}

double distance_mm(const Line& line, const Vec3& p) {
  return length(p - closest_point(line, p));
}

std::optional<Vec3> plane_intersection(const Line& line, const Vec3& plane_point,
                                       const Vec3& normal_unit) {
  constexpr double kSmallestSine = 1e-9;
  const double rise = dot(line.axis_unit, normal_unit);
  if (std::fabs(rise) < kSmallestSine) {
    return std::nullopt;
  }
  return line.point + line.axis_unit * (dot(plane_point - line.point, normal_unit) / rise);
}

math::Radians angle_between(const Vec3& u, const Vec3& v) {
  DRIFTBENCH_EXPECTS(math::length2(u) > 0.0 && math::length2(v) > 0.0);
  return math::Radians(math::atan2(length(cross(u, v)), dot(u, v)));
}

}  // namespace driftbench::geometry
