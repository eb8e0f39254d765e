// Circles through points: the algebraic fit that starts, and the one with the least distances.
#pragma once

#include "base/result.h"
#include "math/vec.h"

#include <span>

namespace driftbench::geometry {

/// A circle and how far the points lie off it.
struct CircleFit {
  math::Vec2 centre_mm{0.0};
  double radius_mm = 0.0;
  double squares_mm2 = 0.0;  ///< sum of squared distances of the points from the circle
};

/// Algebraic fit by gradient weights: no start is needed and partial arcs are hardly biased.
///
/// Errors: kInvalidArgument for fewer than three points, numbers that are not finite, or points on
///         one line
/// Source: Taubin (1991), IEEE Trans. PAMI 13, 1115; as a root of a cubic by Newton's method from
///         zero: Chernov, Circular and Linear Regression (2010), section 5.9
[[nodiscard]] base::Result<CircleFit> fit_circle_taubin(std::span<const math::Vec2> points_mm);

/// The circle with the least sum of squared distances from the points.
///
/// Errors: as fit_circle_taubin; kInvalidArgument when no minimum is found
/// Source: Gander, Golub, Strebel (1994), BIT 34, 558, section 3; damped Gauss-Newton steps
[[nodiscard]] base::Result<CircleFit> fit_circle(std::span<const math::Vec2> points_mm);

}  // namespace driftbench::geometry
