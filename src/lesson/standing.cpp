#include "lesson/standing.h"

#include <algorithm>

namespace driftbench::lesson {
namespace {

bool is_under_way(const EntryProgress& entry) {
  return entry.lesson.done > 0 && !entry.lesson.is_round_done;
}

}  // namespace

LessonState lesson_state(const EntryProgress& entry) {
  const LessonProgress& lesson = entry.lesson;
  if (is_under_way(entry)) {
    return LessonState::kGoingOn;
  }
  if (entry.retention.next.has_value()) {
    return LessonState::kDueAgain;
  }
  if (lesson.is_passed) {
    return LessonState::kPassed;
  }
  if (lesson.complete_days.has_value()) {
    return LessonState::kFinished;
  }
  if (lesson.finished_days.has_value()) {
    return LessonState::kNotPassed;
  }
  return entry.is_open ? LessonState::kNotBegun : LessonState::kWaiting;
}

std::optional<LessonTask> next_in_lesson(const EntryProgress& entry) {
  if (entry.retention.next.has_value() && !is_under_way(entry)) {
    return LessonTask{*entry.retention.next, true};
  }
  if (entry.is_open && entry.lesson.next.has_value()) {
    return LessonTask{*entry.lesson.next, false};
  }
  return std::nullopt;
}

EntryProgress entry_on_its_own(const Lesson& lesson, std::uint64_t seed,
                               std::span<const PastAttempt> history) {
  EntryProgress entry;
  entry.lesson = lesson_progress(lesson, seed, history);
  entry.is_open = true;
  entry.opens_days = 0.0;
  return entry;
}

std::size_t done_in_round(const Lesson& lesson, const EntryProgress& entry, std::size_t block_index,
                          std::span<const PastAttempt> history) {
  if (!is_under_way(entry)) {
    return 0;
  }
  const std::vector<SeenAttempt>& attempts = entry.lesson.attempts;
  return static_cast<std::size_t>(
      std::count_if(attempts.begin(), attempts.end(), [&](const SeenAttempt& attempt) {
        return attempt.round == entry.lesson.round &&
               history[attempt.history_index].block_id == lesson.blocks[block_index].id;
      }));
}

bool is_choice_free(const Lesson& lesson, const EntryProgress& entry) {
  const bool is_practice = entry.lesson.complete_days.has_value();
  return entry.is_open && !entry.retention.next.has_value() &&
         (is_practice || lesson.order.kind == OrderKind::kFixed);
}

Step chosen_step(const Lesson& lesson, const EntryProgress& entry, std::size_t block_index,
                 std::span<const PastAttempt> history) {
  const auto planned = static_cast<std::size_t>(lesson.blocks[block_index].attempts);
  const std::size_t place = done_in_round(lesson, entry, block_index, history);
  Step step = step_in_block(lesson, block_index, place, planned, history);
  step.is_extra = place >= planned;
  return step;
}

Seen seen_of(const EntryProgress& entry, std::size_t retention_attempts,
             std::size_t history_index) {
  const std::vector<SeenAttempt>& attempts = entry.lesson.attempts;
  const auto found = std::find_if(
      attempts.begin(), attempts.end(),
      [&](const SeenAttempt& attempt) { return attempt.history_index == history_index; });
  if (found != attempts.end()) {
    return {found->at_once, found->now};
  }
  const std::vector<std::size_t>& kept = entry.retention.attempts;
  const auto again = std::find(kept.begin(), kept.end(), history_index);
  if (again == kept.end()) {
    return {};
  }
  const Shown at_once =
      shown_after_retention(static_cast<std::size_t>(again - kept.begin()), retention_attempts);
  return {at_once, kept.size() >= retention_attempts ? Shown::kEverything : at_once};
}

}  // namespace driftbench::lesson
