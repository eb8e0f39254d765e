// Implant or drill as an exact solid of revolution: a cylinder, perhaps with a conical point.
#pragma once

#include "math/vec.h"

namespace driftbench::specimen {

/// Cylinder from its upper end downward, then a cone.
///
/// Frame: jaw frame of the section (any frame will do); lengths count from `top_mm` downward
struct RevolvedBody {
  math::Vec3 top_mm{0.0};                ///< centre of the upper end: the implant's platform
  math::Vec3 down_unit{0.0, 0.0, -1.0};  ///< into the bone
  double radius_mm = 2.0;
  double length_mm = 10.0;  ///< upper end to the full-diameter shoulder
  double point_mm = 0.0;    ///< height of the cone below the shoulder; 0 for an implant

  [[nodiscard]] math::Vec3 deepest_mm() const {
    return top_mm + (length_mm + point_mm) * down_unit;
  }
};

/// Distance from the axis and depth below the upper end.
struct BodyCoordinates {
  double out_mm = 0.0;
  double down_mm = 0.0;
};

[[nodiscard]] BodyCoordinates body_coordinates(const RevolvedBody& body, const math::Vec3& p);

/// Signed distance of a point to the body, negative inside.
///
/// Unit: mm. Exact: distance to a convex polygon in the half plane through the axis
[[nodiscard]] double signed_distance_mm(const RevolvedBody& body, const math::Vec3& p);

/// Point of the body's surface: u runs once around over 0..1, v over 0..3 from the middle of the
/// upper end over its rim (1) and the shoulder (2) to the middle of the lower end.
[[nodiscard]] math::Vec3 surface_mm(const RevolvedBody& body, double u, double v);

/// Point of the body's surface nearest to p.
[[nodiscard]] math::Vec3 nearest_on_body(const RevolvedBody& body, const math::Vec3& p);

}  // namespace driftbench::specimen
