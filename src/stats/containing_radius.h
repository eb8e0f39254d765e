// Radius about the target that holds a share of the holes: R50 (CEP), R95.
#pragma once

#include "base/result.h"
#include "stats/plane_scatter.h"

namespace driftbench::stats {

/// Share of a bivariate normal distribution with this mean and covariance that lies within
/// `radius_mm` of the origin. Contract: radius_mm >= 0.
[[nodiscard]] double share_within(const PlaneScatter& scatter, double radius_mm);

/// Radius about the origin (the target) that holds the share `probability` of a bivariate normal
/// distribution with this mean and covariance; bias counts. With a mean of 0 it is the circular
/// error probable about the mean. Contract: 0 < probability < 1.
///
/// Errors: kOutOfRange when the scatter is too large to compute with
/// Source: definition; the integral by adaptive Simpson, exact to about 1e-9 of the radius
[[nodiscard]] base::Result<double> containing_radius(const PlaneScatter& scatter,
                                                     double probability);

}  // namespace driftbench::stats
