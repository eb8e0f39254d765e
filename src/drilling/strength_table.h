// Strength of the material by density, tabulated once so that the step never computes a power.
#pragma once

#include <vector>

namespace driftbench::drilling {

/// Highest density that a table covers: more than cortical bone, mg/cm^3.
inline constexpr int kLargestDensity_mg_per_cm3 = 2200;

/// sigma(rho) at every whole mg/cm^3.
///
/// Unit: MPa. Source: specimen::foam_strength_mpa
class StrengthTable {
 public:
  StrengthTable();

  /// Strength at a density, rounded to whole mg/cm^3 and clamped to the table.
  [[nodiscard]] double at(double density_mg_per_cm3) const;

 private:
  std::vector<double> strength_mpa_;
};

}  // namespace driftbench::drilling
