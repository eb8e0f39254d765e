// Ellipses through points: the direct algebraic fit, and the one with the least distances.
#pragma once

#include "base/result.h"
#include "math/angle.h"
#include "math/vec.h"

#include <span>

namespace driftbench::geometry {

/// An ellipse and how far the points lie off it.
struct EllipseFit {
  math::Vec2 centre_mm{0.0};
  double semi_major_mm = 0.0;
  double semi_minor_mm = 0.0;
  math::Radians orientation;  ///< of the major axis from +x toward +y, in [0, pi)
  double squares_mm2 = 0.0;   ///< sum of squared distances of the points from the ellipse
};

/// The point of the ellipse that is nearest to `point_mm`.
[[nodiscard]] math::Vec2 nearest_on_ellipse(const EllipseFit& ellipse, const math::Vec2& point_mm);

/// The ellipse (never another conic) with the least algebraic distance under 4 a c - b^2 = 1.
///
/// Errors: kInvalidArgument for fewer than five points, numbers that are not finite, or points that
///         determine no ellipse (on a line, or far from any ellipse)
/// Source: Fitzgibbon, Pilu, Fisher (1999), IEEE Trans. PAMI 21, 476, in the stable form of Halir,
///         Flusser (1998), Proc. WSCG, 125
[[nodiscard]] base::Result<EllipseFit> fit_ellipse_direct(std::span<const math::Vec2> points_mm);

/// The ellipse with the least sum of squared distances from the points, started from the direct
/// fit.
///
/// Errors: as fit_ellipse_direct; kInvalidArgument when no minimum is found
/// Source: Gander, Golub, Strebel (1994), BIT 34, 558, section 4; damped Gauss-Newton steps with
///         the feet of the perpendiculars eliminated
[[nodiscard]] base::Result<EllipseFit> fit_ellipse(std::span<const math::Vec2> points_mm);

}  // namespace driftbench::geometry
