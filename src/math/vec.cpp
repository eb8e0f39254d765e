// Vector helpers beyond plain arithmetic.
#include "math/vec.h"

#include "base/contract.h"

#include <cmath>

namespace driftbench::math {

Vec3 unit(const Vec3& v) {
  const double size = length(v);
  DRIFTBENCH_EXPECTS(size > 0.0 && std::isfinite(size));
  return v / size;
}

double length2(const Vec3& v) {
  return dot(v, v);
}

bool is_finite(const Vec3& v) {
  return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

bool is_finite(const Vec2& v) {
  return std::isfinite(v.x) && std::isfinite(v.y);
}

Vec3 any_perpendicular(const Vec3& axis) {
  const double x = std::fabs(axis.x);
  const double y = std::fabs(axis.y);
  const double z = std::fabs(axis.z);
  Vec3 shortest(0.0, 0.0, 1.0);
  if (x <= y && x <= z) {
    shortest = Vec3(1.0, 0.0, 0.0);
  } else if (y <= z) {
    shortest = Vec3(0.0, 1.0, 0.0);
  }
  return unit(cross(axis, shortest));
}

}  // namespace driftbench::math
