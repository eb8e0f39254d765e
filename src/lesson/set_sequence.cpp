#include "lesson/set_sequence.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace driftbench::lesson {
namespace {

std::size_t retention_block(const Retention& retention, const Lesson& lesson) {
  const auto found =
      std::find_if(lesson.blocks.begin(), lesson.blocks.end(),
                   [&](const LessonBlock& block) { return block.id == retention.block_id; });
  return found != lesson.blocks.end() ? static_cast<std::size_t>(found - lesson.blocks.begin()) : 0;
}

RetentionProgress retention_progress(const Retention& retention, const Lesson& lesson,
                                     const LessonProgress& progress,
                                     std::span<const PastAttempt> history, double now_days) {
  RetentionProgress kept;
  if (!progress.complete_days.has_value()) {
    return kept;
  }
  const double due = *progress.complete_days + retention.after_days;
  kept.due_days = due;
  const std::size_t index = retention_block(retention, lesson);
  const std::string& block_id = lesson.blocks[index].id;
  const auto planned = static_cast<std::size_t>(retention.attempts);
  for (const std::size_t i : progress.practice) {
    if (history[i].block_id == block_id && history[i].finished_days >= due &&
        kept.attempts.size() < planned) {
      kept.attempts.push_back(i);
    }
  }
  kept.done = kept.attempts.size();
  if (now_days >= due && kept.done < planned) {
    kept.next = step_in_block(lesson, index, kept.done, planned, history);
  }
  return kept;
}

/// When an entry opens: from the start, or so many days after the lesson before.
std::optional<double> opening(const LessonSet& set, const std::vector<EntryProgress>& before) {
  const SetEntry& entry = set.lessons[before.size()];
  if (before.empty() || entry.opens == Opens::kAlways) {
    return 0.0;
  }
  const LessonProgress& last = before.back().lesson;
  const std::optional<double> end =
      entry.opens == Opens::kAfterPassed ? last.complete_days : last.finished_days;
  return end.has_value() ? std::optional(*end + entry.after_days) : std::nullopt;
}

/// Somebody is in the middle of a round.
bool is_under_way(const EntryProgress& entry) {
  return entry.lesson.done > 0 && !entry.lesson.is_round_done;
}

/// The pass of this entry is what the next one waits for.
bool is_pass_missing(const LessonSet& set, std::size_t entry, const LessonProgress& lesson) {
  return entry + 1 < set.lessons.size() && set.lessons[entry + 1].opens == Opens::kAfterPassed &&
         !lesson.complete_days.has_value();
}

/// The first entry that `is_wanted`, with its task.
template <class Wanted>
std::optional<SetTask> first_lesson(const std::vector<EntryProgress>& entries, Wanted is_wanted) {
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (entries[i].is_open && entries[i].lesson.next.has_value() && is_wanted(i)) {
      return SetTask{i, *entries[i].lesson.next, false};
    }
  }
  return std::nullopt;
}

std::optional<SetTask> first_retention(const std::vector<EntryProgress>& entries) {
  for (std::size_t i = 0; i < entries.size(); ++i) {
    if (entries[i].retention.next.has_value()) {
      return SetTask{i, *entries[i].retention.next, true};
    }
  }
  return std::nullopt;
}

std::optional<SetTask> next_task(const LessonSet& set, const std::vector<EntryProgress>& entries) {
  std::optional<SetTask> task =
      first_lesson(entries, [&](std::size_t i) { return is_under_way(entries[i]); });
  if (!task.has_value()) {
    task = first_retention(entries);
  }
  if (!task.has_value()) {
    task = first_lesson(entries, [&](std::size_t i) { return entries[i].lesson.done == 0; });
  }
  if (!task.has_value()) {
    task = first_lesson(entries,
                        [&](std::size_t i) { return is_pass_missing(set, i, entries[i].lesson); });
  }
  return task;
}

void sooner(std::optional<double>& earliest, const std::optional<double>& days) {
  if (days.has_value()) {
    earliest = earliest.has_value() ? std::min(*earliest, *days) : *days;
  }
}

}  // namespace

base::Result<SetProgress> set_progress(const LessonSet& set, std::span<const Lesson> lessons,
                                       std::span<const PastAttempt> history, double now_days) {
  const bool is_same = std::equal(set.lessons.begin(), set.lessons.end(), lessons.begin(),
                                  lessons.end(), [](const SetEntry& entry, const Lesson& lesson) {
                                    return entry.lesson_id == lesson.id && !lesson.blocks.empty();
                                  });
  if (!is_same) {
    return base::fail(base::ErrorCode::kMismatch,
                      fmt::format("found lessons that are not those of the set \"{}\", expected "
                                  "its {} lessons in order",
                                  set.id, set.lessons.size()));
  }
  SetProgress progress;
  bool is_all_done = true;
  for (std::size_t i = 0; i < lessons.size(); ++i) {
    EntryProgress entry;
    entry.lesson = lesson_progress(lessons[i], seed_in_set(set, lessons[i]), history);
    entry.opens_days = opening(set, progress.entries);
    const bool is_begun = !entry.lesson.attempts.empty();
    entry.is_open =
        is_begun ||
        (entry.opens_days.has_value() &&
         (i == 0 || set.lessons[i].opens == Opens::kAlways || now_days >= *entry.opens_days));
    is_all_done = is_all_done && entry.lesson.finished_days.has_value() &&
                  !is_pass_missing(set, i, entry.lesson);
    const std::optional<Retention>& retention = set.lessons[i].retention;
    if (retention.has_value()) {
      entry.retention = retention_progress(*retention, lessons[i], entry.lesson, history, now_days);
      const bool is_kept = entry.retention.done == static_cast<std::size_t>(retention->attempts);
      is_all_done = is_all_done && (is_kept || !entry.retention.due_days.has_value());
      if (!is_kept && !entry.retention.next.has_value()) {
        sooner(progress.next_days, entry.retention.due_days);
      }
    }
    if (!entry.is_open) {
      sooner(progress.next_days, entry.opens_days);
    }
    progress.entries.push_back(std::move(entry));
  }
  progress.next = next_task(set, progress.entries);
  progress.is_finished = is_all_done && !progress.next.has_value();
  if (progress.next.has_value()) {
    progress.next_days.reset();
  }
  return progress;
}

Shown shown_after_retention(std::size_t place, std::size_t planned) {
  return place + 1 >= planned ? Shown::kEverything : Shown::kNothing;
}

}  // namespace driftbench::lesson
