// Coefficients of the low-pass.
#include "math/filter.h"

#include "base/contract.h"
#include "math/angle.h"
#include "math/elementary.h"

#include <cmath>

namespace driftbench::math {

LowPass make_low_pass(double cutoff_hz, double step_s) {
  DRIFTBENCH_EXPECTS(cutoff_hz > 0.0 && step_s > 0.0 && cutoff_hz * step_s < 0.5);
  const double cutoff_over_natural = std::sqrt(std::sqrt(2.0) - 1.0);
  const double omega_rad_per_s = 2.0 * kPi * cutoff_hz / cutoff_over_natural;
  return {omega_rad_per_s, step_s, exp(-omega_rad_per_s * step_s)};
}

}  // namespace driftbench::math
