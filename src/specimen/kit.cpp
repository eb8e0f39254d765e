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

ImplantThread thread_of(const Implant& implant) {
  if (implant.thread) {
    return *implant.thread;
  }
  ImplantThread thread;
  thread.core_diameter_mm = 0.8 * implant.diameter_mm;
  thread.apex_diameter_mm = 0.72 * implant.diameter_mm;
  thread.taper_mm = 0.5 * implant.length_mm;
  return thread;
}

}  // namespace driftbench::specimen
