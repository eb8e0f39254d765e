// Small functions of one number that shapes are drawn with.
#pragma once

#include "math/angle.h"
#include "math/elementary.h"

#include <algorithm>

namespace driftbench::specimen {

/// Smooth change from 0 to 1 over 0..1, held at its ends.
[[nodiscard]] inline double smooth_step(double t) {
  const double x = std::clamp(t, 0.0, 1.0);
  return x * x * (3.0 - 2.0 * x);
}

/// Cubic from `a` at t = 0 to `b` at t = 1 with slopes per unit of `span`; numbers or vectors.
///
/// Source: cubic Hermite basis
template <class T>
[[nodiscard]] T hermite(double t, double span, const T& a, const T& slope_a, const T& b,
                        const T& slope_b) {
  const double t2 = t * t;
  const double t3 = t2 * t;
  return (2.0 * t3 - 3.0 * t2 + 1.0) * a + (t3 - 2.0 * t2 + t) * span * slope_a +
         (3.0 * t2 - 2.0 * t3) * b + (t3 - t2) * span * slope_b;
}

/// Tangent of an angle in degrees.
[[nodiscard]] inline double tangent_of(double degrees) {
  return math::tan(math::Radians(math::Degrees(degrees)).value);
}

}  // namespace driftbench::specimen
