// Ellipses around points of a small sample: where the next hole falls, and where the mean lies.
#pragma once

#include "base/result.h"
#include "stats/plane_scatter.h"

#include <cstddef>

namespace driftbench::stats {

/// Below this many points no ellipse is given: its factor grows beyond use (5.5 at n = 5).
inline constexpr std::size_t kMinEllipsePoints = 6;

/// Ellipse centred on the mean.
struct Ellipse {
  double semi_major_mm = 0.0;
  double semi_minor_mm = 0.0;
  double angle_deg = 0.0;  ///< of the major axis from +md toward +bl, in [0, 180)
  double k = 0.0;          ///< semi-axes in standard deviations along the axes
};

/// Factors k that make an ellipse of the estimated covariance hold with the given probability.
/// Contract: n >= 3, 0 < level < 1.
///
/// Source: T^2 of one new point, k^2 = 2 (n^2 - 1) / (n (n - 2)) F(level; 2, n - 2)
[[nodiscard]] double prediction_factor(std::size_t n, double level);
/// Source: T^2 of the mean, k^2 = 2 (n - 1) / (n (n - 2)) F(level; 2, n - 2)
[[nodiscard]] double mean_factor(std::size_t n, double level);

/// Holds the next point with probability `level`.
///
/// Errors: kInvalidArgument below six points, or when the points lie on one line
[[nodiscard]] base::Result<Ellipse> prediction_ellipse(const PlaneScatter& scatter, double level);

/// Holds the true mean with probability `level`. Errors: as prediction_ellipse
[[nodiscard]] base::Result<Ellipse> mean_ellipse(const PlaneScatter& scatter, double level);

}  // namespace driftbench::stats
