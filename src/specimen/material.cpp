#include "specimen/material.h"

#include "math/elementary.h"
#include "specimen/tissue.h"

#include <algorithm>
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

double jaw_strength_mpa(double density_g_per_cm3) {
  constexpr double kMgPerG = 1000.0;
  const double cortical = facts_of(Tissue::kCortical).density_mg_per_cm3 / kMgPerG;
  const double dentine = facts_of(Tissue::kDentine).density_mg_per_cm3 / kMgPerG;
  const double enamel = facts_of(Tissue::kEnamel).density_mg_per_cm3 / kMgPerG;
  const double titanium = facts_of(Tissue::kTitanium).density_mg_per_cm3 / kMgPerG;
  const double scale_mpa = kBoneScale_mpa * math::pow(kBoneRate_per_s, kBoneRateExponent);
  const double as_bone = std::clamp(density_g_per_cm3, 0.0, cortical);
  const double bone_mpa = scale_mpa * as_bone * as_bone;
  const double to_dentine =
      std::clamp((density_g_per_cm3 - cortical) / (dentine - cortical), 0.0, 1.0);
  const double to_enamel = std::clamp((density_g_per_cm3 - dentine) / (enamel - dentine), 0.0, 1.0);
  const double to_titanium =
      std::clamp((density_g_per_cm3 - enamel) / (titanium - enamel), 0.0, 1.0);
  return bone_mpa + to_dentine * (kDentineStrength_mpa - bone_mpa) +
         to_enamel * (kEnamelStrength_mpa - kDentineStrength_mpa) +
         to_titanium * (kTitaniumStrength_mpa - kEnamelStrength_mpa);
}

}  // namespace driftbench::specimen
