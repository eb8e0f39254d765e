#include "specimen/drill_length.h"

#include "math/elementary.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace driftbench::specimen {

namespace {

/// A length with its name and whether zero is allowed.
struct NamedLength {
  const char* name;
  double value_mm;
  bool may_be_zero;
};

}  // namespace

base::Result<SleeveGeometry> sleeve_geometry(const SleeveFit& fit) {
  const std::array<NamedLength, 6> lengths{{{"bore", fit.bore_mm, false},
                                            {"drill", fit.drill_mm, false},
                                            {"height", fit.height_mm, false},
                                            {"implant", fit.implant_mm, false},
                                            {"gap", fit.gap_mm, true},
                                            {"key", fit.key_mm, true}}};
  for (const NamedLength& length : lengths) {
    const bool is_good = std::isfinite(length.value_mm) &&
                         (length.value_mm > 0.0 || (length.may_be_zero && length.value_mm == 0.0));
    if (!is_good) {
      return base::fail(
          base::ErrorCode::kOutOfRange,
          fmt::format("The {} is {} mm, expected a finite length {}.", length.name, length.value_mm,
                      length.may_be_zero ? "of 0 mm or more" : "above 0 mm"),
          length.name);
    }
  }
  if (fit.drill_mm >= fit.bore_mm) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      fmt::format("The drill ({} mm) must be narrower than the bore ({} mm).",
                                  fit.drill_mm, fit.bore_mm),
                      "drill");
  }

  // Drill touching opposite rims: D cos t - H sin t = d, that is cos(t + atan(H/D)) = d / diagonal.
  const double bore = fit.bore_mm;
  const double height = fit.height_mm;
  const double diagonal = std::sqrt(bore * bore + height * height);
  SleeveGeometry geometry;
  geometry.tilt = math::Radians(math::acos(fit.drill_mm / diagonal) - math::atan2(height, bore));
  geometry.tilt_first_order = math::Radians(math::atan((bore - fit.drill_mm) / height));
  const double slope = math::tan(geometry.tilt.value);
  geometry.entry_mm = (0.5 * height + fit.gap_mm) * slope;
  geometry.apex_mm = (0.5 * height + fit.gap_mm + fit.implant_mm) * slope;
  geometry.drill_length_mm = fit.implant_mm + fit.gap_mm + height + fit.key_mm;
  return geometry;
}

}  // namespace driftbench::specimen
