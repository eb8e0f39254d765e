// Mean and covariance of points in the plane: bias and spread of entry points.
#pragma once

#include "base/result.h"
#include "math/vec.h"

#include <cstddef>
#include <span>

namespace driftbench::stats {

/// Mean and covariance (n - 1) of points; x is md, y is bl. Unit: mm, mm^2
struct PlaneScatter {
  std::size_t n = 0;
  math::Vec2 mean{0.0};
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
};

/// Variances along the principal axes and the direction of the larger one.
struct PrincipalAxes {
  double major_variance = 0.0;
  double minor_variance = 0.0;  ///< 0 when the points lie on one line
  double angle_rad = 0.0;       ///< of the major axis from +x, in [0, pi); 0 when both are equal
};

/// Errors: kInvalidArgument below two points; kOutOfRange when squares overflow
[[nodiscard]] base::Result<PlaneScatter> plane_scatter(std::span<const math::Vec2> points);

/// Source: eigenvalues of a symmetric 2 x 2 matrix (Mohr's circle)
[[nodiscard]] PrincipalAxes principal_axes(const PlaneScatter& scatter);

/// One standard deviation for both directions: sqrt((sd_x^2 + sd_y^2) / 2).
[[nodiscard]] double spread(const PlaneScatter& scatter);

/// Principal axes of points that fill the plane, as ellipses and Hotelling's test need them.
///
/// Errors: kInvalidArgument when all points are the same or lie on one line
[[nodiscard]] base::Result<PrincipalAxes> filled_axes(const PlaneScatter& scatter);

}  // namespace driftbench::stats
