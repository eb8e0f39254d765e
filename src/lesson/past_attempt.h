// What the sequencing engine knows of an attempt that was made: a plain row, given by the caller.
#pragma once

#include "lesson/lesson_rules.h"
#include "specimen/plan.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::lesson {

/// Measured errors; sideways ones and the angle are not negative.
struct AttemptErrors {
  double entry_mm = 0.0;
  double apex_mm = 0.0;
  double angle_deg = 0.0;
  double depth_mm = 0.0;  ///< + deeper
};

/// One finished attempt. A history is a list of them, oldest first, of any lessons.
struct PastAttempt {
  std::string lesson_id;
  std::string block_id;
  specimen::Approach approach = specimen::Approach::kFreehand;
  std::uint64_t attempt_index = 0;      ///< within the approach
  double finished_days = 0.0;           ///< on any clock that the caller keeps to
  std::optional<AttemptErrors> errors;  ///< none: it could not be measured
  std::vector<CriticalEvent> events;
  bool is_complete = true;  ///< every planned drill has cut; otherwise it is not good
};

}  // namespace driftbench::lesson
