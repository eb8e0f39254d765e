#include "specimen/kit.h"

#include "base/contract.h"
#include "math/angle.h"
#include "math/elementary.h"

namespace driftbench::specimen {

double point_height_mm(double diameter_mm, double point_angle_deg) {
  DRIFTBENCH_EXPECTS(diameter_mm >= 0.0);
  DRIFTBENCH_EXPECTS(point_angle_deg > 0.0 && point_angle_deg <= 180.0);
  const double half_angle_rad = math::Radians(math::Degrees(0.5 * point_angle_deg)).value;
  return 0.5 * diameter_mm / math::tan(half_angle_rad);
}

}  // namespace driftbench::specimen
