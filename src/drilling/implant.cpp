#include "drilling/implant.h"

#include "math/angle.h"
#include "math/elementary.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

constexpr int kAzimuths = 12;
constexpr double kRing_mm = 0.7;
constexpr int kApexRings = 3;
constexpr double kOutlinePoint_mm = 1.0;  // rounded end, as a guide's ring sees it

/// Half an element off the axes: symmetric under every mirror that the count allows.
math::SinCos azimuth(int k) {
  return math::sincos(2.0 * math::kPi * (k + 0.5) / kAzimuths);
}

}  // namespace

ImplantBody make_implant_body(const specimen::Implant& implant) {
  const specimen::ImplantThread thread = specimen::thread_of(implant);
  ImplantBody body;
  body.length_mm = implant.length_mm;
  body.ring_elements = kAzimuths;
  body.pitch_mm = thread.pitch_mm;
  body.lead_mm_per_rev = thread.lead_mm_per_rev;
  const double radius_mm = 0.5 * implant.diameter_mm;
  const double end_mm = 0.5 * thread.apex_diameter_mm;
  const double depth_mm = radius_mm - 0.5 * thread.core_diameter_mm;
  const double taper = (radius_mm - end_mm) / thread.taper_mm;
  body.outline.radius_mm = radius_mm;
  body.outline.solid.radius_mm = radius_mm;
  body.outline.point_height_mm = kOutlinePoint_mm;
  body.outline.body_end_mm = implant.length_mm;

  const int rings = static_cast<int>(std::ceil(implant.length_mm / kRing_mm));
  const double height_mm = implant.length_mm / rings;
  for (int i = 0; i < rings; ++i) {
    const double at_mm = (i + 0.5) * height_mm;
    const bool is_tapered = at_mm < thread.taper_mm;
    const double here_mm = is_tapered ? end_mm + taper * at_mm : radius_mm;
    for (int k = 0; k < kAzimuths; ++k) {
      const math::SinCos at = azimuth(k);
      ThreadElement element;
      element.normal = {at.cos, at.sin, 0.0};
      element.position_mm = {here_mm * at.cos, here_mm * at.sin, at_mm};
      element.area_mm2 = 2.0 * math::kPi * here_mm * height_mm / kAzimuths;
      element.radius_mm = here_mm;
      element.core_mm = here_mm - depth_mm;
      element.taper = is_tapered ? taper : 0.0;
      body.thread.push_back(element);
    }
  }
  const double core_end_mm = end_mm - depth_mm;  // the thread runs out at the very end
  for (int i = 0; i < kApexRings; ++i) {
    const double low_mm = core_end_mm * i / kApexRings;
    const double high_mm = core_end_mm * (i + 1) / kApexRings;
    const double middle_mm = std::sqrt(0.5 * (low_mm * low_mm + high_mm * high_mm));
    for (int k = 0; k < kAzimuths; ++k) {
      const math::SinCos at = azimuth(k);
      ApexElement element;
      element.position_mm = {middle_mm * at.cos, middle_mm * at.sin, 0.0};
      element.area_mm2 = math::kPi * (high_mm * high_mm - low_mm * low_mm) / kAzimuths;
      element.radius_mm = middle_mm;
      body.apex.push_back(element);
    }
  }
  return body;
}

}  // namespace driftbench::drilling
