// Box-Muller draws.
#include "math/random_normal.h"

#include "base/contract.h"
#include "math/angle.h"
#include "math/elementary.h"

#include <cmath>

namespace driftbench::math {

double normal(base::Rng& rng) {
  const double radius_draw = 1.0 - rng.uniform01();  // (0, 1]: the logarithm exists
  const double angle_draw = rng.uniform01();
  return std::sqrt(-2.0 * log(radius_draw)) * cos(2.0 * kPi * angle_draw);
}

double normal(base::Rng& rng, double mean, double sd) {
  DRIFTBENCH_EXPECTS(sd >= 0.0);
  return mean + sd * normal(rng);
}

double normal_truncated(base::Rng& rng, double mean, double sd, double limit_sd) {
  DRIFTBENCH_EXPECTS(sd >= 0.0 && limit_sd >= 0.5);
  double draw = normal(rng);
  while (std::fabs(draw) > limit_sd) {
    draw = normal(rng);
  }
  return mean + sd * draw;
}

}  // namespace driftbench::math
