// Where somebody stands in a set: what is open, what comes next, what is due again and when.
#pragma once

#include "base/result.h"
#include "lesson/lesson_set.h"
#include "lesson/sequence.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace driftbench::lesson {

/// Attempts of a lesson that come back. Only what was learnt can be kept: there are none before the
/// lesson is passed (worked through, where it has no criterion).
struct RetentionProgress {
  std::optional<double> due_days;
  std::size_t done = 0;
  std::vector<std::size_t> attempts;  ///< indices in the history
  std::optional<Step> next;           ///< once due; everything is shown after the last one only
};

struct EntryProgress {
  LessonProgress lesson;
  bool is_open = false;
  std::optional<double> opens_days;  ///< none: not known yet, the lesson before comes first
  RetentionProgress retention;
};

struct SetTask {
  std::size_t entry = 0;
  Step step;
  bool is_retention = false;

  friend bool operator==(const SetTask&, const SetTask&) = default;
};

struct SetProgress {
  std::vector<EntryProgress> entries;
  std::optional<SetTask> next;      ///< what to do now
  std::optional<double> next_days;  ///< with nothing to do now: when there will be
  bool is_finished = false;
};

/// Progress at `now_days`, on the clock of the history. First comes a lesson that was begun, then
/// what is due again, then the first open lesson, then another round of a lesson whose pass opens
/// the next one. Each lesson uses seed_in_set().
///
/// Errors: kMismatch unless `lessons` are those of the set, in its order
[[nodiscard]] base::Result<SetProgress> set_progress(const LessonSet& set,
                                                     std::span<const Lesson> lessons,
                                                     std::span<const PastAttempt> history,
                                                     double now_days);

/// What is shown after retention attempt `place` of `planned`: everything after the last.
[[nodiscard]] Shown shown_after_retention(std::size_t place, std::size_t planned);

}  // namespace driftbench::lesson
