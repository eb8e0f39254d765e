// Best line through points by total least squares (perpendicular distances).
#pragma once

#include "base/result.h"
#include "geometry/line.h"

#include <span>

namespace driftbench::geometry {

/// A point with its weight, >= 0.
struct WeightedPoint {
  math::Vec3 position{0.0};  ///< [mm]
  double weight = 1.0;
};

/// A line and how far the points lie off it.
struct LineFit {
  Line line;            ///< through the weighted centroid; the axis points from first to last point
  double rms_mm = 0.0;  ///< weighted root mean square of perpendicular distances
};

/// Line with the least weighted sum of squared perpendicular distances.
///
/// Errors: kInvalidArgument when fewer than two distinct points have weight, or a number is not
///         finite, or a weight is negative
/// Source: principal axis of the covariance matrix (Pearson 1901, Phil. Mag. 2(11):559)
[[nodiscard]] base::Result<LineFit> fit_line(std::span<const WeightedPoint> points);
[[nodiscard]] base::Result<LineFit> fit_line(std::span<const math::Vec3> points);

}  // namespace driftbench::geometry
