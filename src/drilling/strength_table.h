// Strength of the material by density, tabulated once so that the step never computes a power.
#pragma once

#include "specimen/material.h"

#include <vector>

namespace driftbench::drilling {

/// Highest density that a table of foam covers: more than cortical bone, mg/cm^3.
inline constexpr int kLargestDensity_mg_per_cm3 =
    specimen::largest_density_mg_per_cm3(specimen::Material::kFoam);

/// sigma(rho) at every whole mg/cm^3.
///
/// Unit: MPa. Source: specimen::strength_mpa
class StrengthTable {
 public:
  explicit StrengthTable(specimen::Material material = specimen::Material::kFoam);

  /// Strength at a density, rounded to whole mg/cm^3 and clamped to the table.
  [[nodiscard]] double at(double density_mg_per_cm3) const;

 private:
  std::vector<double> strength_mpa_;
};

}  // namespace driftbench::drilling
