// Rodrigues' formula and frames.
#include "math/rotation.h"

#include "base/contract.h"
#include "math/elementary.h"

#include <cmath>

namespace driftbench::math {

Vec3 rotated(const Vec3& v, const Vec3& axis_unit, Radians angle) {
  constexpr double kUnitTolerance = 1e-9;
  DRIFTBENCH_EXPECTS(std::fabs(length2(axis_unit) - 1.0) < 2.0 * kUnitTolerance);
  const SinCos turn = sincos(angle.value);
  return v * turn.cos + cross(axis_unit, v) * turn.sin +
         axis_unit * (dot(axis_unit, v) * (1.0 - turn.cos));
}

Vec3 rotated_small(const Vec3& v, const Vec3& omega_rad) {
  // Below 1e-2 rad the first terms left out are t^6/5040 and t^6/40320: under 1e-15.
  constexpr double kSeriesBelow_rad2 = 1e-4;
  const double t2 = length2(omega_rad);
  double sin_ratio = 1.0 - t2 / 6.0 * (1.0 - t2 / 20.0);   // sin(t)/t
  double cos_ratio = 0.5 - t2 / 24.0 * (1.0 - t2 / 30.0);  // (1 - cos t)/t^2
  if (t2 > kSeriesBelow_rad2) {
    const double t = std::sqrt(t2);
    const double half_sin = sin(0.5 * t);
    sin_ratio = sin(t) / t;
    cos_ratio = 2.0 * half_sin * half_sin / t2;
  }
  const Vec3 first = cross(omega_rad, v);
  return v + first * sin_ratio + cross(omega_rad, first) * cos_ratio;
}

Vec3 rotated_about_z(const Vec3& v, Radians angle) {
  const SinCos turn = sincos(angle.value);
  return {v.x * turn.cos - v.y * turn.sin, v.x * turn.sin + v.y * turn.cos, v.z};
}

Mat3 frame_from_axis(const Vec3& z_axis, const Vec3& x_hint) {
  // A hint within this sine of the axis says nothing about a direction across it.
  constexpr double kSmallestSine = 1e-9;
  const Vec3 z = unit(z_axis);
  const Vec3 across = x_hint - z * dot(x_hint, z);
  const bool is_usable = length(across) > kSmallestSine * length(x_hint);
  const Vec3 x = is_usable ? unit(across) : any_perpendicular(z);
  return {x, cross(z, x), z};
}

}  // namespace driftbench::math
