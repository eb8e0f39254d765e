#include "specimen/material.h"

#include "math/elementary.h"

#include <array>

namespace driftbench::specimen {
namespace {

constexpr std::array<FoamGrade, 4> kGrades{{{DensityClass::kD1, "D1", 40, 641},
                                            {DensityClass::kD2, "D2", 30, 481},
                                            {DensityClass::kD3, "D3", 20, 320},
                                            {DensityClass::kD4, "D4", 10, 160}}};

constexpr double kReferenceStrength_mpa = 8.36;  // foam of 0.32 g/cm^3
constexpr double kReferenceDensity_g_per_cm3 = 0.32;
constexpr double kStrengthExponent = 1.90;

}  // namespace

const FoamGrade& foam_grade(DensityClass density_class) {
  return kGrades[static_cast<std::size_t>(density_class)];
}

double foam_strength_mpa(double density_g_per_cm3) {
  if (!(density_g_per_cm3 > 0.0)) {
    return 0.0;
  }
  return kReferenceStrength_mpa *
         math::pow(density_g_per_cm3 / kReferenceDensity_g_per_cm3, kStrengthExponent);
}

}  // namespace driftbench::specimen
