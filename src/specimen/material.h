// Foam grades that stand for the bone classes D1 to D4.
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

}  // namespace driftbench::specimen
