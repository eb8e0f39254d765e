#include "ui/pen_curve.h"

#include "math/angle.h"
#include "math/vec.h"

#include <algorithm>
#include <cmath>

namespace driftbench::ui {

double pen_press_n(double pressure) {
  const double share = std::clamp((pressure - kPenRest) / (kPenFull - kPenRest), 0.0, 1.0);
  // Half line, half parabola: fine where it matters, no dead start. Own assumption.
  const double press_n = kPenHardest_n * 0.5 * (share + share * share);
  return kPenStep_n * std::round(press_n / kPenStep_n);
}

double pen_lean_rad(double tilt_from_neutral_deg) {
  const double wanted_deg = kPenLeanGain * tilt_from_neutral_deg;
  const double bounded_deg =
      kPenLeanMost_deg * wanted_deg / math::length(math::Vec2(kPenLeanMost_deg, wanted_deg));
  return math::to_radians(math::Degrees(bounded_deg)).value;
}

}  // namespace driftbench::ui
