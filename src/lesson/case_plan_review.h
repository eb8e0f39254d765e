// What a plan in a piece of jaw means: clearances of implant and deepest drill, drills, density.
#pragma once

#include "lesson/specimen_case.h"
#include "specimen/kit.h"
#include "volume/volume.h"

#include <optional>
#include <string>
#include <vector>

namespace driftbench::lesson {

/// Distance that is commonly taught to keep from a structure; nothing where there is none.
///
/// Unit:   mm
/// Source: canal 2: Greenstein and Tarnow 2006, J Periodontol 77:1933; foramen 2 beyond the loop:
///         the same; root 1.5: Esposito et al. 1993; facial plate 2: Spray et al. 2000, Ann
///         Periodontol 5:119 (a minimum could not be confirmed: Albeshri and Greenstein 2021);
///         implants 3: Tarnow, Cho and Wallace 2000, J Periodontol 71:546; lingual plate 1, sinus
///         floor 1, nasal floor 1.5: common teaching practice
[[nodiscard]] std::optional<double> common_margin_mm(specimen::Structure structure);

/// One structure near the plan.
struct PlanClearance {
  specimen::Structure structure = specimen::Structure::kCanal;
  double implant_mm = 0.0;
  double drill_mm = 0.0;      ///< of the deepest drill with its point
  double keep_mm = 0.0;       ///< the case's margin, else the common one
  specimen::Clearance worse;  ///< of the two; body 0 the implant, 1 the drill. Frame: jaw frame

  [[nodiscard]] double least_mm() const { return worse.distance_mm; }

  [[nodiscard]] bool is_kept() const { return worse.distance_mm >= keep_mm; }
};

/// One drill of the suggestion.
struct DrillStep {
  const specimen::Drill* drill = nullptr;  ///< of the kit
  double depth_mm = 0.0;                   ///< platform to the full-diameter shoulder
};

/// The twist drills of a kit that are narrower than the implant, narrow to wide; in the softest
/// bone the last is left out.
///
/// Source: common teaching practice
[[nodiscard]] std::vector<DrillStep> suggested_steps(const specimen::Kit& kit, const CasePlan& plan,
                                                     specimen::DensityClass density);

/// The deepest drill of the steps as a solid, with its point. Frame: jaw frame.
[[nodiscard]] specimen::RevolvedBody deepest_drill(const CasePlan& plan,
                                                   const std::vector<DrillStep>& steps);

struct PlanReview {
  std::vector<PlanClearance> clearances;  ///< those with a margin; the most wanting first
  std::optional<std::string> problem;     ///< why no implant can be meant there
  double bone_mm = 0.0;                   ///< below the platform along the axis
  std::string bone_ends_at;
};

/// Cost: two clearance searches, some milliseconds.
[[nodiscard]] PlanReview review_plan(const specimen::Jaw& jaw, const CasePlan& plan,
                                     const std::vector<Margin>& margins,
                                     const specimen::RevolvedBody& drill);

/// Model density that the implant's surface meets.
struct DensityAlong {
  static constexpr double kStep_mm = 0.5;

  std::vector<double> mg_per_cm3;  ///< mean of each step from the platform down
  double mean = 0.0;
  specimen::DensityClass density_class = specimen::DensityClass::kD4;
};

/// Mean over rings on the body's surface of density times coverage.
///
/// Frame:  that of the volume. Source of the classes: Misch (D1 above 1,250, D2 above 850, D3 above
///         350), on the model's own scale
[[nodiscard]] DensityAlong density_along(const volume::Volume& volume,
                                         const specimen::RevolvedBody& body);

/// The implant of a plan as a solid. Frame: jaw frame.
[[nodiscard]] specimen::RevolvedBody implant_body(const CasePlan& plan);

}  // namespace driftbench::lesson
