// Foam grades that stand for the bone classes D1 to D4; strength of foam and of a jaw's tissues.
#pragma once

#include <string_view>

namespace driftbench::specimen {

/// Bone class that a foam grade stands for. The classes describe bone; the block is always foam.
enum class DensityClass { kD1, kD2, kD3, kD4 };

/// One rigid polyurethane foam grade.
struct FoamGrade {
  DensityClass density_class;
  std::string_view class_name;  ///< "D1"
  int grade_pcf;                ///< nominal density in pounds per cubic foot
  int density_mg_per_cm3;       ///< pcf * 16.018, rounded (1 lb/ft^3 = 16.01846 kg/m^3, definition)
};

/// The grade used for a bone class: 40, 30, 20, 10 pcf for D1..D4.
///
/// Source: frequent mapping in bench studies; no authoritative table exists (studies differ between
///         40 and 50 pcf for D1). Own choice.
[[nodiscard]] const FoamGrade& foam_grade(DensityClass density_class);

/// Compressive strength of rigid foam.
///
/// Unit:   density g/cm^3 >= 0 -> MPa
/// Source: log-log fit through the commonly reproduced foam table (5 to 50 pcf),
///         sigma = 8.36 (rho / 0.32)^1.90
[[nodiscard]] double foam_strength_mpa(double density_g_per_cm3);

/// Bone: scale x rate^0.06 x rho^2. The slow rate gives the cutting energy published for a femur.
inline constexpr double kBoneScale_mpa = 68.0;
inline constexpr double kBoneRate_per_s = 0.01;
inline constexpr double kBoneRateExponent = 0.06;

/// Hard tissues of a tooth.
inline constexpr double kDentineStrength_mpa = 297.0;
inline constexpr double kEnamelStrength_mpa = 384.0;

/// Titanium of a neighbouring implant: drills of a kit for bone skid on it and do not cut. Not its
/// real strength but an obstacle that no hand gets through; own assumption.
inline constexpr double kTitaniumStrength_mpa = 1e5;

/// Compressive strength of the tissues of a jaw by model density, read as apparent density: soft
/// tissue and nerve (60 to 80 mg/cm^3) below 0.5 MPa, spongy bone, cortical bone (1,750), then
/// straight to dentine (1,900), enamel (2,900) and titanium (4,510).
///
/// Unit:   density g/cm^3 >= 0 -> MPa
/// Source: bone: Carter and Hayes 1977, J Bone Joint Surg Am 59:954 (from memory); dentine: Craig
///         and Peyton 1958, J Dent Res 37:710; enamel: Craig, Peyton and Johnson 1961, J Dent Res
///         40:936 (both from memory); soft tissue, and model density as apparent density: own
///         assumptions
[[nodiscard]] double jaw_strength_mpa(double density_g_per_cm3);

/// What a specimen is made of: says which strength belongs to a density.
enum class Material { kFoam, kJaw };

/// Highest density of a material, mg/cm^3: cortical bone and more; titanium.
[[nodiscard]] constexpr int largest_density_mg_per_cm3(Material material) {
  return material == Material::kFoam ? 2200 : 4510;
}

[[nodiscard]] inline double strength_mpa(Material material, double density_g_per_cm3) {
  return material == Material::kFoam ? foam_strength_mpa(density_g_per_cm3)
                                     : jaw_strength_mpa(density_g_per_cm3);
}

}  // namespace driftbench::specimen
