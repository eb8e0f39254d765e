// Hotelling's test of a mean in the plane: is there a bias that chance does not explain?
#pragma once

#include "base/result.h"
#include "stats/plane_scatter.h"

namespace driftbench::stats {

struct Hotelling {
  double t2 = 0.0;
  double f = 0.0;
  double df1 = 0.0;
  double df2 = 0.0;
  double p = 0.0;
};

/// One-sample test of the mean against `target`.
///
/// Errors: kInvalidArgument below three points, or when the points lie on one line
/// Source: Hotelling (1931), Ann. Math. Statist. 2, 360; F = (n - 2) / (2 (n - 1)) T^2
[[nodiscard]] base::Result<Hotelling> hotelling(const PlaneScatter& scatter,
                                                const math::Vec2& target = math::Vec2(0.0));

}  // namespace driftbench::stats
