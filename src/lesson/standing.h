// How a lesson stands, what is to do in it, and what may be seen of an attempt: what shelf, bench
// and debrief ask of the sequencing engine.
#pragma once

#include "lesson/set_sequence.h"

#include <cstddef>
#include <optional>
#include <span>

namespace driftbench::lesson {

enum class LessonState {
  kNotBegun,
  kWaiting,    ///< opens later, or after the lesson before
  kGoingOn,    ///< in the middle of a round
  kFinished,   ///< worked through; there is no criterion
  kNotPassed,  ///< a round ended without a pass
  kPassed,
  kDueAgain,  ///< a few attempts come back now
};

[[nodiscard]] LessonState lesson_state(const EntryProgress& entry);

/// What to do next in this lesson.
struct LessonTask {
  Step step;
  bool is_retention = false;
};

/// A round that was begun comes first, then attempts that are due again, then the first or another
/// round. None: done, or not open yet.
[[nodiscard]] std::optional<LessonTask> next_in_lesson(const EntryProgress& entry);

/// A lesson on its own, outside any set.
[[nodiscard]] EntryProgress entry_on_its_own(const Lesson& lesson, std::uint64_t seed,
                                             std::span<const PastAttempt> history);

/// Attempts of the block in the round that runs; 0 when none runs.
[[nodiscard]] std::size_t done_in_round(const Lesson& lesson, const EntryProgress& entry,
                                        std::size_t block_index,
                                        std::span<const PastAttempt> history);

/// Whether somebody may take any block of the lesson instead of what comes next: where the order
/// means nothing, and in practice after its end.
[[nodiscard]] bool is_choice_free(const Lesson& lesson, const EntryProgress& entry);

/// The attempt of a freely chosen block.
[[nodiscard]] Step chosen_step(const Lesson& lesson, const EntryProgress& entry,
                               std::size_t block_index, std::span<const PastAttempt> history);

/// What is shown of an attempt of the history: right after it, and now. Practice shows everything.
struct Seen {
  Shown at_once = Shown::kEverything;
  Shown now = Shown::kEverything;
};

/// `retention_attempts`: how many come back in all; 0 without retention.
[[nodiscard]] Seen seen_of(const EntryProgress& entry, std::size_t retention_attempts,
                           std::size_t history_index);

}  // namespace driftbench::lesson
