// Where somebody stands in a lesson and what comes next: a function of lesson, seed and history.
#pragma once

#include "lesson/lesson.h"
#include "lesson/past_attempt.h"
#include "lesson/sequence_evidence.h"
#include "lesson/sequence_feedback.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace driftbench::lesson {

/// The next attempt.
struct Step {
  std::size_t block_index = 0;
  std::uint64_t attempt_index = 0;  ///< within the approach, for resolve(); never used before
  std::size_t place = 0;            ///< within the block, from 0
  std::size_t planned = 0;          ///< attempts of the block
  Visibility show;                  ///< while drilling
  bool ask_estimate = true;         ///< instead of what resolve() says
  bool is_extra = false;            ///< beyond the planned ones, to pass

  friend bool operator==(const Step&, const Step&) = default;
};

/// What may be seen of an attempt of the lesson.
struct SeenAttempt {
  std::size_t history_index = 0;
  std::uint64_t round = 0;
  std::size_t place = 0;
  Shown at_once = Shown::kEverything;  ///< right after it
  Shown now = Shown::kEverything;      ///< everything when its block or round is done
};

/// A round is the lesson worked through once: the planned attempts and, where the criterion goes by
/// the last ones, extra ones until it is met or its cap is reached. A round without a pass may be
/// followed by another one; after a pass, or without a criterion, attempts are practice.
struct LessonProgress {
  std::uint64_t round = 0;
  std::size_t done = 0;     ///< in this round
  std::size_t planned = 0;  ///< in every round
  bool is_round_done = false;
  bool is_passed = false;
  std::optional<Step> next;             ///< none: done; a round without a pass: first of the next
  Evidence evidence;                    ///< of this round
  std::optional<double> finished_days;  ///< end of the first round
  std::optional<double> complete_days;  ///< end of the round with a pass, or without a criterion
  std::vector<SeenAttempt> attempts;    ///< of all rounds
  std::vector<std::size_t> practice;    ///< indices in the history, after completion
};

/// Attempts of other lessons and of blocks that the lesson does not have are passed over. A lesson
/// that is taken up again goes on exactly where it would have gone on without a break.
[[nodiscard]] LessonProgress lesson_progress(const Lesson& lesson, std::uint64_t seed,
                                             std::span<const PastAttempt> history);

/// Number of the next attempt of an approach: one above the highest of this lesson in the history.
[[nodiscard]] std::uint64_t next_attempt_index(const Lesson& lesson, specimen::Approach approach,
                                               std::span<const PastAttempt> history);

/// The attempt at `place` of `planned` ones of a block, not an extra one.
[[nodiscard]] Step step_in_block(const Lesson& lesson, std::size_t block_index, std::size_t place,
                                 std::size_t planned, std::span<const PastAttempt> history);

}  // namespace driftbench::lesson
