// A lesson that drills a plan just made in a piece of jaw.
#pragma once

#include "lesson/case_plan_review.h"
#include "lesson/guide_plan.h"
#include "lesson/lesson.h"
#include "lesson/specimen_case.h"
#include "specimen/kit.h"

#include <vector>

namespace driftbench::lesson {

/// The case with this plan, under an id of its own ("...-plan", once), so that the shipped one
/// stays.
[[nodiscard]] SpecimenCase planned_case(const SpecimenCase& specimen, const CasePlan& plan);

/// A lesson of one free-hand block of three attempts on a planned case, and one through the planned
/// guide where there is one: drills as suggested, the implant's length as depth, the kit's implant
/// that is nearest in size. Where the case has a revision to be told from others, it stands in the
/// case's file.
///
/// Errors: kMismatch when the kit has no implant, no drill for the plan, or no sleeve for the guide
[[nodiscard]] base::Result<Lesson> lesson_of(const SpecimenCase& planned,
                                             const std::vector<DrillStep>& steps,
                                             const specimen::Kit& kit, const GuidePlan& guide);

/// The set-up of the block through the guide, as an attempt would have it.
///
/// Errors: as lesson_of() and resolve(); kInvalidArgument when `guide` is free-hand
[[nodiscard]] base::Result<AttemptSetup> guided_setup(const SpecimenCase& planned,
                                                      const std::vector<DrillStep>& steps,
                                                      const specimen::Kit& kit,
                                                      const GuidePlan& guide);

}  // namespace driftbench::lesson
