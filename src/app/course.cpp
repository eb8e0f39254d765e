#include "app/course.h"

#include "lesson/device_check.h"

#include <algorithm>
#include <utility>

namespace driftbench::app {
namespace {

std::optional<double> wait_of(const lesson::EntryProgress& entry, double now_days) {
  const std::optional<double>& at_days =
      entry.is_open ? entry.retention.due_days : entry.opens_days;
  return at_days.has_value() && *at_days > now_days ? std::optional(*at_days - now_days)
                                                    : std::nullopt;
}

}  // namespace

void Course::refresh(const Library& library, const std::vector<SavedEntry>& saved,
                     const Launch& launch, double now_days) {
  is_trial_ = launch.trial_block.has_value();
  history_.clear();
  for (const SavedEntry& entry : saved) {
    history_.push_back(entry.past);
  }
  rows_.clear();
  shelf_.clear();
  // The set that the address names comes first; locked, it comes alone.
  for (const bool is_named : {true, false}) {
    for (const auto& set : library.sets()) {
      const bool is_wanted =
          is_named ? set->id == launch.set_id : set->id != launch.set_id && !launch.is_locked;
      if (is_wanted) {
        add_set(library, *set, launch, now_days);
      }
    }
  }
  add_rest(library, launch);
  for (const Row& row : rows_) {
    show(row, now_days);
  }
}

void Course::add_set(const Library& library, const lesson::LessonSet& set, const Launch& launch,
                     double now_days) {
  Row row;
  row.set = &set;
  lesson::LessonSet seeded = set;
  if (launch.seed.has_value()) {
    seeded.seed = launch.seed;
  }
  std::vector<lesson::Lesson> lessons;
  for (const lesson::SetEntry& entry : set.lessons) {
    const auto place = library.find_lesson(entry.lesson_id);
    if (!place.has_value()) {
      return;
    }
    row.lessons.push_back(library.lessons()[*place].get());
    row.seeds.push_back(lesson::seed_in_set(seeded, *row.lessons.back()));
    lessons.push_back(*row.lessons.back());
  }
  auto progress = lesson::set_progress(seeded, lessons, history_, now_days);
  if (!progress.has_value()) {
    return;
  }
  ui::ShelfSet shown;
  shown.set = &set;
  if (progress->next.has_value()) {
    shown.next = progress->next->entry;
  }
  if (progress->next_days.has_value() && *progress->next_days > now_days) {
    shown.wait_days = *progress->next_days - now_days;
  }
  shown.is_finished = progress->is_finished;
  shelf_.push_back(std::move(shown));
  row.progress = std::move(progress->entries);
  rows_.push_back(std::move(row));
}

// Lessons that no set has, and the one that the address names without a set.
void Course::add_rest(const Library& library, const Launch& launch) {
  Row row;
  const auto asks_check = [](const lesson::Lesson* lesson) {
    return lesson->device.check != lesson::DeviceCheck::kNone;
  };
  bool is_check_wanted = std::any_of(rows_.begin(), rows_.end(), [&](const Row& other) {
    return std::any_of(other.lessons.begin(), other.lessons.end(), asks_check);
  });
  if (const auto named = library.find_lesson(launch.lesson_id); named.has_value()) {
    is_check_wanted = is_check_wanted || asks_check(library.lessons()[*named].get());
  }
  for (const auto& lesson : library.lessons()) {
    const bool is_named = launch.set_id.empty() && lesson->id == launch.lesson_id;
    // What checks a device is there wherever a lesson asks for it.
    const bool is_check = is_check_wanted && lesson->id == lesson::kDeviceCheckLesson;
    const bool is_wanted =
        is_named || ((!launch.is_locked || is_check) && !find(lesson->id, {}).has_value());
    if (is_wanted) {
      row.lessons.push_back(lesson.get());
      row.seeds.push_back(launch.seed.value_or(lesson->seed));
      row.progress.push_back(lesson::entry_on_its_own(*lesson, row.seeds.back(), history_));
    }
  }
  if (!row.lessons.empty()) {
    rows_.push_back(std::move(row));
    shelf_.emplace_back();
  }
}

void Course::show(const Row& row, double now_days) {
  ui::ShelfSet& shown = shelf_[static_cast<std::size_t>(&row - rows_.data())];
  for (std::size_t i = 0; i < row.lessons.size(); ++i) {
    const lesson::Lesson& lesson = *row.lessons[i];
    const lesson::EntryProgress& entry = row.progress[i];
    ui::ShelfLesson card;
    card.lesson = &lesson;
    card.state = lesson::lesson_state(entry);
    card.next = lesson::next_in_lesson(entry);
    card.wait_days = wait_of(entry, now_days);
    card.is_choice_free = lesson::is_choice_free(lesson, entry);
    card.evidence = entry.lesson.evidence.level.empty() ? 0.0 : entry.lesson.evidence.level.back();
    for (const lesson::LessonBlock& block : lesson.blocks) {
      const auto& attempts = entry.lesson.attempts;
      card.done_per_block.push_back(static_cast<int>(
          std::count_if(attempts.begin(), attempts.end(), [&](const lesson::SeenAttempt& attempt) {
            return attempt.round == entry.lesson.round &&
                   history_[attempt.history_index].block_id == block.id;
          })));
    }
    shown.lessons.push_back(std::move(card));
  }
}

std::optional<ui::Place> Course::find(std::string_view lesson_id, ui::Place preferred) const {
  const auto is_at = [&](ui::Place place) {
    return place.set < rows_.size() && place.entry < rows_[place.set].lessons.size() &&
           rows_[place.set].lessons[place.entry]->id == lesson_id;
  };
  if (is_at(preferred)) {
    return preferred;
  }
  for (std::size_t set = 0; set < rows_.size(); ++set) {
    for (std::size_t entry = 0; entry < rows_[set].lessons.size(); ++entry) {
      if (is_at({set, entry})) {
        return ui::Place{set, entry};
      }
    }
  }
  return std::nullopt;
}

std::optional<lesson::LessonTask> Course::task(ui::Place place,
                                               std::optional<std::size_t> block) const {
  if (place.set >= rows_.size() || place.entry >= rows_[place.set].lessons.size()) {
    return std::nullopt;
  }
  const lesson::EntryProgress& entry = progress(place);
  const std::optional<lesson::LessonTask> next = lesson::next_in_lesson(entry);
  if (!block.has_value() || (next.has_value() && next->step.block_index == *block)) {
    return next;
  }
  if (*block >= lesson(place).blocks.size() ||
      !(is_trial_ || lesson::is_choice_free(lesson(place), entry))) {
    return std::nullopt;
  }
  return lesson::LessonTask{lesson::chosen_step(lesson(place), entry, *block, history_), false};
}

const lesson::Lesson& Course::lesson(ui::Place place) const {
  return *rows_[place.set].lessons[place.entry];
}

std::uint64_t Course::seed(ui::Place place) const {
  return rows_[place.set].seeds[place.entry];
}

std::string_view Course::class_code(ui::Place place) const {
  const lesson::LessonSet* set = rows_[place.set].set;
  return set != nullptr ? std::string_view(set->class_code) : std::string_view();
}

const lesson::EntryProgress& Course::progress(ui::Place place) const {
  return rows_[place.set].progress[place.entry];
}

std::size_t Course::retention_attempts(ui::Place place) const {
  const lesson::LessonSet* set = rows_[place.set].set;
  return set != nullptr && set->lessons[place.entry].retention.has_value()
             ? static_cast<std::size_t>(set->lessons[place.entry].retention->attempts)
             : 0;
}

lesson::Seen Course::seen(std::size_t saved_index) const {
  const auto place = find(history_[saved_index].lesson_id, {});
  return place.has_value()
             ? lesson::seen_of(progress(*place), retention_attempts(*place), saved_index)
             : lesson::Seen{};
}

std::vector<std::size_t> Course::same_block_before(std::size_t saved_index) const {
  std::vector<std::size_t> before;
  const auto place = find(history_[saved_index].lesson_id, {});
  if (!place.has_value()) {
    return before;
  }
  const std::vector<lesson::SeenAttempt>& attempts = progress(*place).lesson.attempts;
  const auto own = std::find_if(attempts.begin(), attempts.end(), [&](const auto& attempt) {
    return attempt.history_index == saved_index;
  });
  for (auto other = attempts.begin(); other != own && own != attempts.end(); ++other) {
    if (other->round == own->round &&
        history_[other->history_index].block_id == history_[saved_index].block_id) {
      before.push_back(other->history_index);
    }
  }
  return before;
}

}  // namespace driftbench::app
