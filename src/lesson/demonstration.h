// What virtual operators show in a lesson: the set-ups of their attempts, and what is right about
// their holes.
#pragma once

#include "lesson/lesson.h"
#include "lesson/own_record.h"

#include <cstddef>
#include <span>
#include <vector>

namespace driftbench::lesson {

/// The set-up of the worked example of a block.
///
/// Errors: as resolve(); kOutOfRange when the block has none
[[nodiscard]] base::Result<AttemptSetup> example_setup(const Lesson& lesson,
                                                       const specimen::Kit& kit,
                                                       std::size_t block_index,
                                                       const specimen::JawSite* jaw);

/// Position of the block that a group of the lesson's prediction names.
[[nodiscard]] std::size_t block_of_group(const Lesson& lesson, std::size_t group);

/// The set-up of one hole of a group. No two holes of a prediction draw the same.
///
/// Errors: as resolve(); kOutOfRange when the lesson has no such group
[[nodiscard]] base::Result<AttemptSetup> prediction_setup(const Lesson& lesson,
                                                          const specimen::Kit& kit,
                                                          std::size_t group, std::size_t hole,
                                                          const specimen::JawSite* jaw);

/// One hole of a group, from the plan. Unit: mm, degrees
struct ShownHole {
  math::Vec2 entry_mm{0.0};
  math::Vec2 apex_mm{0.0};
  double angle_deg = 0.0;
};

/// What the holes of a group say.
struct GroupFindings {
  OwnCloud entry;
  OwnCloud apex;
  double apex_rms_mm = 0.0;  ///< root mean square distance from the plan
  double mean_angle_deg = 0.0;
  bool is_bias = false;  ///< at the entry the middle lies farther off than the holes scatter
};

/// Source: own definition, as lessons/AUTHORING.md states it
[[nodiscard]] GroupFindings findings_of(std::span<const ShownHole> holes);

/// The group whose holes end farthest from the plan; 0 without groups.
[[nodiscard]] std::size_t widest_of(std::span<const GroupFindings> groups);

}  // namespace driftbench::lesson
