// A tube of constant radius about a curve: nerve canals.
#pragma once

#include "math/vec.h"

#include <vector>

namespace driftbench::specimen {

/// Tube about a centre line of straight pieces. Its distance is exact for that line.
struct Tube {
  std::vector<math::Vec3> centre_mm;  ///< two points or more
  double radius_mm = 1.0;
  double wall_mm = 0.0;  ///< corticated wall outside the radius
};

/// Signed distance to the tube without its wall, negative inside. Contract: two points or more.
[[nodiscard]] double signed_distance_mm(const Tube& tube, const math::Vec3& p);

/// Smooth curve through the points, `pieces` straight pieces between neighbours.
///
/// Source: Catmull, Rom (1974), uniform cubic; ends repeated. Contract: two points or more
[[nodiscard]] std::vector<math::Vec3> smooth_curve(const std::vector<math::Vec3>& points,
                                                   int pieces);

}  // namespace driftbench::specimen
