// The guide that a person plans on the study screen: how much it guides, what it rests on, its gap.
#pragma once

#include "specimen/kit.h"
#include "specimen/plan.h"

#include <optional>

namespace driftbench::lesson {

/// What a person may set.
///
/// Source: gap: the range of the kit's sleeve (2 to 6); mouth: as in lesson files; own assumption
inline constexpr double kGuideGapLow_mm = 2.0;
inline constexpr double kGuideGapHigh_mm = 6.0;
inline constexpr int kMostGuidePins = 4;
inline constexpr double kMouthLow_mm = 15.0;
inline constexpr double kMouthHigh_mm = 70.0;

struct GuidePlan {
  specimen::Approach approach = specimen::Approach::kFreehand;  ///< free-hand: no guide
  bool implant_through_guide = false;                           ///< of the sleeve approach only
  specimen::GuideSupport support;
  double gap_mm = 3.5;                     ///< planned platform to the sleeve's lower edge
  std::optional<double> mouth_opening_mm;  ///< of the patient, between the incisors

  friend bool operator==(const GuidePlan&, const GuidePlan&) = default;
};

/// The plan inside those limits, in steps of 0.1 mm (mouth: 1 mm), without what its support or its
/// approach does not have: pins on teeth, a bite index off the gum, an implant through a guide that
/// leads the pilot only.
[[nodiscard]] GuidePlan clamped(const GuidePlan& plan);

/// The guide as a lesson has it: what its support is worth, with the kit's first sleeve.
///
/// Contract: kit.sleeves is not empty
[[nodiscard]] specimen::Guide guide_of(const GuidePlan& plan, const specimen::Kit& kit);

}  // namespace driftbench::lesson
