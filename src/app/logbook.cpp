// The own record: what the logbook shows, and taking all attempts out and in.
#include "app/app.h"
#include "base/json_reader.h"
#include "platform/host.h"
#include "record/past_attempt.h"
#include "ui/strings.h"

#include <algorithm>

namespace driftbench::app {
namespace {

constexpr std::string_view kFormat = "driftbench-logbook";
constexpr base::JsonLimits kLimits{std::size_t{256} << 20U, 4};
constexpr std::size_t kLongestWhen = 200;
constexpr std::size_t kLongestAttempt = std::size_t{32} << 20U;
constexpr base::NumberRange kAnyDay{0.0, 1e7};
constexpr std::int64_t kMostAttempts = 100'000;

}  // namespace

void App::open_logbook(const std::string& lesson_id) {
  logbook_lesson_ =
      lesson_id.empty() && !saved_.empty() ? saved_.back().shown.lesson_id : lesson_id;
  if (model_.screen != ui::Screen::kLogbook) {
    go_to_shelf();
    model_.screen = ui::Screen::kLogbook;
  }
  build_logbook();
}

void App::build_logbook() {
  ui::LogbookView view;
  for (const auto& lesson : library_.lessons()) {
    const bool has_attempts = std::any_of(saved_.begin(), saved_.end(), [&](const SavedEntry& one) {
      return one.shown.lesson_id == lesson->id;
    });
    if (has_attempts) {
      if (lesson->id == logbook_lesson_) {
        view.chosen = view.lessons.size();
      }
      view.lessons.push_back({lesson->id, ui::in_language(lesson->title)});
    }
  }
  if (!view.lessons.empty()) {
    fill_logbook(view);
  }
  model_.logbook = std::move(view);
}

void App::fill_logbook(ui::LogbookView& view) {
  const std::string& id = view.lessons[view.chosen].id;
  const lesson::Lesson& lesson = *library_.lessons()[*library_.find_lesson(id)];
  if (const specimen::Kit* kit = library_.find_kit(lesson.kit_id); kit != nullptr) {
    if (auto setup = resolve_block(lesson, *kit, 0, 0, lesson.seed); setup.has_value()) {
      logbook_site_ = std::move(*setup);
      view.site = &*logbook_site_;
    }
  }
  if (const auto place = course_.find(id, model_.place); place.has_value()) {
    view.evidence = course_.progress(*place).lesson.evidence.level;
  }
  std::vector<lesson::AttemptErrors> errors;
  specimen::Approach approach = specimen::Approach::kFreehand;  // of the newest that counts
  for (std::size_t i = 0; i < saved_.size(); ++i) {
    const SavedEntry& entry = saved_[i];
    if (entry.shown.lesson_id == id && entry.past.errors.has_value() &&
        course_.seen(i).now == lesson::Shown::kEverything) {
      errors.push_back(*entry.past.errors);
      approach = entry.shown.approach;
    }
  }
  view.weakness = lesson::weakest_part(errors, lesson.tolerance);
  if (view.weakness.has_value()) {
    std::vector<const lesson::Lesson*> lessons;
    for (const auto& known : library_.lessons()) {
      lessons.push_back(known.get());
    }
    if (const auto trainer = lesson::trainer_of(view.weakness->measure, approach, lessons)) {
      view.trainer = course_.find(lessons[*trainer]->id, {});
    }
  }
}

// A file of all attempts: every record stands in it as the text that was kept.
void App::import_logbook(const std::string& name, const std::string& text) {
  const auto document = base::read_json(text, kLimits);
  base::ProblemList problems;
  std::size_t taken = 0;
  std::size_t left = 0;
  const auto read_one = [&](const base::JsonValue& item, const std::string& path,
                            base::ProblemList& all) {
    base::ObjectReader in(item, path, all);
    const std::string when = in.required_string("when", kLongestWhen);
    const double days = in.required_double("finished_days", kAnyDay, "d");
    const bool is_taken =
        import_attempt(in.required_string("attempt", kLongestAttempt), when, days);
    (is_taken ? taken : left) += 1U;
    return is_taken;
  };
  if (document.has_value()) {
    base::ObjectReader in(*document, "", problems);
    in.require_format(kFormat);
    static_cast<void>(in.require_version(1));
    if (!problems.has_errors()) {
      static_cast<void>(in.required_array("attempts", {0, kMostAttempts}, read_one));
    }
  }
  if (taken + left == 0) {
    notify(ui::say(ui::Str::kNoLogbook, name), true);
    return;
  }
  refresh_shelf();
  notify(ui::say(ui::Str::kImported, name, std::to_string(taken), std::to_string(left)), false);
}

bool App::import_attempt(const std::string& text, const std::string& when, double finished_days) {
  auto read = record::read_attempt(text, ui::tr(ui::Str::kSavedAttempt));
  if (!read.value.has_value() || !record::check_chain(*read.value).broken.empty()) {
    return false;
  }
  const record::Attempt& attempt = read.value->attempt;
  const bool is_here = std::any_of(saved_.begin(), saved_.end(), [&](const SavedEntry& entry) {
    return entry.shown.id == attempt.attempt_id;
  });
  if (is_here) {
    return false;
  }
  const SavedEntry entry = summary_of(
      attempt,
      record::past_attempt(attempt, record::drills_taken(attempt.trace), {}, finished_days),
      block_title(attempt.setup), when);
  saved_.push_back(entry);
  platform::store_attempt(attempt.attempt_id, write_summary(entry), text);
  return true;
}

}  // namespace driftbench::app
