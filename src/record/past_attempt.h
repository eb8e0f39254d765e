// What a recorded attempt says to the sequencing engine.
#pragma once

#include "lesson/past_attempt.h"
#include "record/attempt.h"
#include "scoring/explain.h"

#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::record {

/// Critical events of an attempt: past-depth, when the full diameter went deeper than the plan and
/// its tolerance; plunge, when the trace shows one.
[[nodiscard]] std::vector<lesson::CriticalEvent> critical_events(
    const Attempt& attempt, std::span<const scoring::Moment> moments);

/// Kit indices of the drills that the trace takes in hand, each once.
[[nodiscard]] std::vector<std::int32_t> drills_taken(const Trace& trace);

/// A guided drill that was taken at another length than implant, gap, sleeve and collar add up to.
/// Unit: mm from stop to shoulder
struct WrongLength {
  std::int32_t drill_index = -1;
  double taken_mm = 0.0;
  double right_mm = 0.0;  ///< that the kit has, nearest to the sum
};

/// Guided drills in the order of the plan whose last length was wrong; none without a guide.
[[nodiscard]] std::vector<WrongLength> wrong_lengths(const lesson::AttemptSetup& setup,
                                                     const Trace& trace);

/// The row of a history: the implant counts where one was placed, else the hole; without the
/// implant that was wanted there are no errors. `used_drills`: that have cut.
[[nodiscard]] lesson::PastAttempt past_attempt(const Attempt& attempt,
                                               std::span<const std::int32_t> used_drills,
                                               std::span<const scoring::Moment> moments,
                                               double finished_days);

}  // namespace driftbench::record
