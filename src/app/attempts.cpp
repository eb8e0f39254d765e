// The way of one attempt: briefing, bench, estimate, debrief, and again.
#include "app/app.h"
#include "platform/host.h"
#include "platform/input.h"
#include "ui/strings.h"

#include <algorithm>
#include <utility>

namespace driftbench::app {
namespace {

constexpr std::string_view kLanguage = "en";

std::string device_name() {
  switch (platform::pointer_state().device) {
    case platform::PointerDevice::kTouch:
      return "touch";
    case platform::PointerDevice::kPen:
      return "pen";
    case platform::PointerDevice::kMouse:
      break;
  }
  return "mouse";
}

std::string stop_sentence(std::uint32_t status) {
  if ((status & session::kStepRunaway) != 0) {
    return std::string(ui::tr(ui::Str::kLeftSpace));
  }
  return std::string(ui::tr(ui::Str::kBadNumber));
}

}  // namespace

std::uint64_t App::finished_count(const std::string& lesson_id, const std::string& block_id) const {
  return static_cast<std::uint64_t>(
      std::count_if(saved_.begin(), saved_.end(), [&](const SavedEntry& entry) {
        return entry.shown.lesson_id == lesson_id && entry.block_id == block_id;
      }));
}

std::string App::block_title(const lesson::AttemptSetup& setup) const {
  const auto place = library_.find_lesson(setup.lesson_id);
  if (place.has_value()) {
    for (const lesson::LessonBlock& block : library_.lessons()[*place]->blocks) {
      if (block.id == setup.block_id) {
        return lesson::text_in(block.title, std::string(kLanguage));
      }
    }
  }
  return setup.block_id;
}

void App::refresh_shelf() {
  model_.shelf.clear();
  for (const auto& lesson : library_.lessons()) {
    ui::ShelfLesson row;
    row.lesson = lesson.get();
    for (const lesson::LessonBlock& block : lesson->blocks) {
      row.finished_per_block.push_back(static_cast<int>(finished_count(lesson->id, block.id)));
    }
    model_.shelf.push_back(std::move(row));
  }
  model_.saved.clear();
  for (auto entry = saved_.rbegin(); entry != saved_.rend(); ++entry) {
    model_.saved.push_back(entry->shown);  // newest first
  }
}

// The set-up of the next attempt of the chosen block; nothing, after a notice, when there is none.
std::optional<lesson::AttemptSetup> App::next_setup() {
  if (lesson_index_ >= library_.lessons().size()) {
    notify(std::string(ui::tr(ui::Str::kNoLesson)), false);
    return std::nullopt;
  }
  const lesson::Lesson& lesson = *library_.lessons()[lesson_index_];
  const specimen::Kit* kit = library_.find_kit(lesson.kit_id);
  if (kit == nullptr || block_index_ >= lesson.blocks.size()) {
    notify(std::string(ui::tr(ui::Str::kNoKit)), true);
    return std::nullopt;
  }
  const std::uint64_t index = finished_count(lesson.id, lesson.blocks[block_index_].id);
  const auto setup = lesson::resolve(lesson, *kit, block_index_, index, launch_.seed,
                                     library_.find_case(lesson.blocks[block_index_].case_id));
  if (!setup.has_value()) {
    notify(ui::say(ui::Str::kCannotStart, setup.error().message), true);
    return std::nullopt;
  }
  return *setup;
}

void App::brief(std::size_t lesson_index, std::size_t block_index) {
  if (lesson_index >= library_.lessons().size() ||
      block_index >= library_.lessons()[lesson_index]->blocks.size()) {
    return;
  }
  go_to_shelf();
  lesson_index_ = lesson_index;
  block_index_ = block_index;
  briefed_ = next_setup();
  if (!briefed_.has_value()) {
    return;
  }
  model_.attempt_number =
      1 + static_cast<int>(finished_count(briefed_->lesson_id, briefed_->block_id));
  model_.screen = ui::Screen::kBriefing;
}

void App::start_attempt() {
  const double asked_s = platform::now_s();
  const auto setup = next_setup();
  if (!setup.has_value()) {
    return;
  }
  auto session = session::Session::create(*setup);
  if (!session.has_value()) {
    notify(ui::say(ui::Str::kCannotStart, session.error().message), true);
    return;
  }
  record::Attempt about;
  about.attempt_id = platform::random_hex(16);
  about.operator_name = launch_.code_name;
  about.device = device_name();
  about.period = 1 + static_cast<int>(
                         std::count_if(saved_.begin(), saved_.end(), [&](const SavedEntry& entry) {
                           return entry.shown.lesson_id == setup->lesson_id;
                         }));
  model_.attempt_number = 1 + static_cast<int>(finished_count(setup->lesson_id, setup->block_id));
  adopt(std::move(*session), about);
  journal_.begin(current_record(), block_title(session_->setup()));
  model_.screen = ui::Screen::kBench;
  meters_.fresh_specimen_ms = (platform::now_s() - asked_s) * 1000.0;
}

// Makes a session the one on the bench; `about` gives the names of its record.
void App::adopt(session::Session session, const record::Attempt& about) {
  debrief_.reset();
  bench_.reset();
  session_ = std::make_unique<session::Session>(std::move(session));
  bench_ = std::make_unique<Bench>(*session_);
  about_ = record::Attempt();
  about_.attempt_id = about.attempt_id;
  about_.operator_name = about.operator_name;
  about_.cohort = about.cohort;
  about_.device = about.device;
  about_.period = about.period;
  estimate_.reset();
  verification_.clear();
  recorded_text_.clear();
  pictures_.replace_material();
  pictures_.reset_looks(session_->setup().guide.has_value());
}

void App::again() {
  if (model_.screen == ui::Screen::kBench && bench_ != nullptr) {
    journal_.discard();
  }
  start_attempt();
}

void App::next_block() {
  if (lesson_index_ >= library_.lessons().size()) {
    go_to_shelf();
    return;
  }
  const lesson::Lesson& lesson = *library_.lessons()[lesson_index_];
  const std::size_t count = lesson.blocks.size();
  // The next block with attempts left; the one after this when all are done.
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t block = (block_index_ + i) % count;
    const auto done = finished_count(lesson.id, lesson.blocks[block].id);
    if (done < static_cast<std::uint64_t>(lesson.blocks[block].attempts)) {
      brief(lesson_index_, block);
      return;
    }
  }
  brief(lesson_index_, (block_index_ + 1) % count);
}

void App::go_to_shelf() {
  if (model_.screen == ui::Screen::kBench && session_ != nullptr && bench_ != nullptr &&
      !session_->trace().empty()) {
    // Leaving is a break, not an end: the attempt can be resumed from the shelf.
    journal_.keep(*session_, platform::now_s(), true);
    ui::Unfinished left;
    left.id = about_.attempt_id;
    left.title = block_title(session_->setup());
    left.when = platform::local_time();
    left.seconds = session_->view().time_s;
    unfinished_ = left;
  }
  journal_.end();
  platform::play_sound(platform::Sound{});
  debrief_.reset();
  bench_.reset();
  session_.reset();
  study_.reset();
  pictures_.replace_material();
  estimate_.reset();
  verification_.clear();
  model_.screen = ui::Screen::kShelf;
}

void App::submit(const record::Command& command) {
  if (bench_ == nullptr || model_.screen != ui::Screen::kBench) {
    return;
  }
  if (const auto taken = bench_->submit(command); !taken.has_value()) {
    notify(taken.error().message, false);
  }
}

record::Attempt App::current_record() const {
  record::Attempt attempt = session_->record();
  attempt.attempt_id = about_.attempt_id;
  attempt.operator_name = about_.operator_name;
  attempt.cohort = about_.cohort;
  attempt.device = about_.device;
  attempt.period = about_.period;
  attempt.estimate = estimate_;
  return attempt;
}

void App::store_current() {
  const record::Attempt attempt = current_record();
  const auto same = std::find_if(saved_.begin(), saved_.end(), [&attempt](const SavedEntry& entry) {
    return entry.shown.id == attempt.attempt_id;
  });
  const std::string when = same != saved_.end() ? same->shown.when : platform::local_time();
  const SavedEntry entry = summary_of(attempt, block_title(attempt.setup), when);
  if (same != saved_.end()) {
    *same = entry;
  } else {
    saved_.push_back(entry);
  }
  refresh_shelf();
  platform::store_attempt(attempt.attempt_id, write_summary(entry), record::write_attempt(attempt));
}

void App::end_attempt() {
  platform::play_sound(platform::Sound{});
  const std::uint32_t status = session_->view().status;
  const bool is_stopped = session_->view().phase == session::Phase::kStopped;
  bench_.reset();
  journal_.end();
  debrief_ = std::make_unique<Debrief>(*session_);
  store_current();
  if (is_stopped) {
    notify(stop_sentence(status), true);
  }
  if (session_->setup().ask_estimate) {
    model_.screen = ui::Screen::kEstimate;
    pictures_.touch();
  } else {
    show_debrief();
  }
  keep_awake(3);
}

void App::give_estimate(const scoring::SelfEstimate& estimate) {
  if (model_.screen != ui::Screen::kEstimate) {
    return;
  }
  estimate_ = estimate;
  store_current();
  show_debrief();
}

void App::show_debrief() {
  if (debrief_ == nullptr) {
    return;
  }
  debrief_->reveal();
  ui::Compared current;
  current.id = about_.attempt_id;
  current.approach = session_->setup().approach;
  current.is_current = true;
  current.results = debrief_->results();
  current.estimate = estimate_;
  debrief_->add_compared(std::move(current));
  model_.screen = ui::Screen::kDebrief;
  pictures_.reset_looks(session_->setup().guide.has_value());
}

}  // namespace driftbench::app
