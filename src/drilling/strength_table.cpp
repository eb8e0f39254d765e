#include "drilling/strength_table.h"

#include <algorithm>

namespace driftbench::drilling {

StrengthTable::StrengthTable(specimen::Material material)
    : strength_mpa_(static_cast<std::size_t>(specimen::largest_density_mg_per_cm3(material)) + 1) {
  constexpr double kMgPerG = 1000.0;
  for (std::size_t i = 0; i < strength_mpa_.size(); ++i) {
    strength_mpa_[i] = specimen::strength_mpa(material, static_cast<double>(i) / kMgPerG);
  }
}

double StrengthTable::at(double density_mg_per_cm3) const {
  const double limit = static_cast<double>(strength_mpa_.size() - 1);
  const double clamped = std::clamp(density_mg_per_cm3, 0.0, limit);
  return strength_mpa_[static_cast<std::size_t>(static_cast<int>(clamped + 0.5))];
}

}  // namespace driftbench::drilling
