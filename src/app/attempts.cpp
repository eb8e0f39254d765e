// The way of one attempt: briefing, bench, estimate, debrief, and again.
#include "app/app.h"
#include "app/devices.h"
#include "lesson/instruments.h"
#include "platform/host.h"
#include "record/past_attempt.h"
#include "ui/language.h"
#include "ui/plan_figure.h"
#include "ui/strings.h"

#include <algorithm>
#include <utility>

namespace driftbench::app {
namespace {

// A hand that has chosen none begins lightly where everything is shown: usual press is through six
// millimetres of soft foam in a second, before a beginner has read a number.
constexpr int kFirstPressLevel = 1;

std::string stop_sentence(std::uint32_t status) {
  if ((status & session::kStepRunaway) != 0) {
    return std::string(ui::tr(ui::Str::kLeftSpace));
  }
  return std::string(ui::tr(ui::Str::kBadNumber));
}

}  // namespace

const lesson::LocalText* App::find_block_title(const std::string& lesson_id,
                                               const std::string& block_id) const {
  const auto place = library_.find_lesson(lesson_id);
  if (place.has_value()) {
    for (const lesson::LessonBlock& block : library_.lessons()[*place]->blocks) {
      if (block.id == block_id) {
        return &block.title;
      }
    }
  }
  return nullptr;
}

lesson::LocalText App::block_title(const lesson::AttemptSetup& setup) const {
  const lesson::LocalText* title = find_block_title(setup.lesson_id, setup.block_id);
  return title != nullptr ? *title : lesson::LocalText{{"en", setup.block_id}};
}

// In the language of the moment; for the offer to go on.
std::string App::full_title(const lesson::AttemptSetup& setup) const {
  const auto place = library_.find_lesson(setup.lesson_id);
  const std::string block = ui::in_language(block_title(setup));
  return place.has_value() ? ui::in_language(library_.lessons()[*place]->title) + ", " + block
                           : block;
}

void App::refresh_shelf() {
  course_.refresh(library_, saved_, launch_, platform::now_days());
  model_.shelf = course_.shelf();
  if (place_.has_value() && model_.lesson != nullptr) {
    place_ = course_.find(model_.lesson->id, *place_);
  }
  model_.saved.clear();
  for (std::size_t i = saved_.size(); i-- > 0;) {  // newest first
    model_.saved.push_back(saved_[i].shown);
    // A lesson that is gone has left its English words.
    const lesson::PastAttempt& past = saved_[i].past;
    if (const auto* title = find_block_title(past.lesson_id, past.block_id)) {
      model_.saved.back().block_title = *title;
    }
    model_.saved.back().is_hidden = course_.seen(i).now != lesson::Shown::kEverything;
  }
  if (model_.screen == ui::Screen::kLogbook) {
    build_logbook();
  }
}

base::Result<lesson::AttemptSetup> App::resolve_block(const lesson::Lesson& lesson,
                                                      const specimen::Kit& kit,
                                                      std::size_t block_index,
                                                      std::uint64_t attempt_index,
                                                      std::uint64_t seed) const {
  return lesson::resolve(lesson, kit, block_index, attempt_index, seed,
                         library_.find_case(lesson.blocks[block_index].case_id));
}

// The set-up of the attempt to make; nothing, after a notice, when there is none. Says in the model
// which one it is.
std::optional<lesson::AttemptSetup> App::next_setup(std::optional<std::size_t> block) {
  const auto task = place_.has_value() ? course_.task(*place_, block) : std::nullopt;
  if (!task.has_value()) {
    notify(std::string(ui::tr(place_.has_value() ? ui::Str::kTaskNone : ui::Str::kNoLesson)),
           false);
    return std::nullopt;
  }
  const lesson::Lesson& lesson = course_.lesson(*place_);
  const lesson::Step& step = task->step;
  const specimen::Kit* kit = library_.find_kit(lesson.kit_id);
  if (kit == nullptr) {
    notify(std::string(ui::tr(ui::Str::kNoKit)), true);
    return std::nullopt;
  }
  auto setup =
      resolve_block(lesson, *kit, step.block_index, step.attempt_index, course_.seed(*place_));
  if (!setup.has_value()) {
    notify(ui::say(ui::Str::kCannotStart, setup.error().message), true);
    return std::nullopt;
  }
  setup->show = step.show;
  setup->ask_estimate = step.ask_estimate;
  block_index_ = step.block_index;
  model_.attempt_number = static_cast<int>(step.place) + 1;
  model_.planned_attempts = static_cast<int>(std::max(step.planned, step.place + 1));
  return *setup;
}

void App::open_lesson(ui::Place place) {
  go_to_shelf();
  if (place.set < model_.shelf.size() && place.entry < model_.shelf[place.set].lessons.size()) {
    place_ = place;
    model_.screen = ui::Screen::kLesson;
  }
}

// What the address names: a lesson, in the named set where it has it, or the first lesson of a set
// that is locked.
void App::open_lesson_of_address() {
  const auto& sets = library_.sets();
  const bool has_set = std::any_of(sets.begin(), sets.end(),
                                   [this](const auto& set) { return set->id == launch_.set_id; });
  if (!launch_.set_id.empty() && !has_set) {
    notify(ui::say(ui::Str::kNoSuchSet, launch_.set_id), false);
    launch_.set_id.clear();
    launch_.is_locked = launch_.is_locked && !launch_.lesson_id.empty();
  }
  if (!launch_.lesson_id.empty() && !library_.find_lesson(launch_.lesson_id).has_value()) {
    notify(ui::say(ui::Str::kNoSuchLesson, launch_.lesson_id), false);
    launch_.lesson_id.clear();
    launch_.is_locked = launch_.is_locked && !launch_.set_id.empty();
  }
  launch_.is_locked = launch_.is_locked && !(launch_.set_id.empty() && launch_.lesson_id.empty());
  model_.is_locked = launch_.is_locked;
  refresh_shelf();
  if (!launch_.lesson_id.empty()) {
    // Without a set it stands on its own, in the last row of the shelf.
    const ui::Place own{launch_.set_id.empty() ? model_.shelf.size() - 1 : 0, 0};
    ui::Place preferred = own;
    const auto& row = model_.shelf[own.set].lessons;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].lesson->id == launch_.lesson_id) {
        preferred.entry = i;
      }
    }
    if (const auto place = course_.find(launch_.lesson_id, preferred); place.has_value()) {
      open_lesson(*place);
      if (launch_.trial_block.has_value()) {
        carry_out(ui::OpenBriefing{launch_.trial_block});
      }
    }
  }
}

void App::brief(std::optional<std::size_t> block) {
  if (!place_.has_value()) {
    return;
  }
  if (!takes_device()) {
    open_lesson(ui::Place(*place_));
    return;
  }
  const ui::Place place = *place_;
  go_to_shelf();
  place_ = place;
  briefed_ = next_setup(block);
  model_.screen = briefed_.has_value() ? ui::Screen::kBriefing : ui::Screen::kLesson;
  look_at_briefed();
}

void App::look_at_briefed() {
  model_.sketch.reset();
  if (const specimen::JawSite* jaw =
          briefed_.has_value() ? specimen::jaw_in(briefed_->specimen) : nullptr) {
    model_.sketch = specimen::sketch_of(*jaw, ui::plan_window(*briefed_));
  }
  model_.room = briefed_.has_value() ? lesson::guide_room(*briefed_) : std::nullopt;
  reckon_guide();
}

void App::reckon_guide() {
  model_.budget.reset();
  if (briefed_.has_value() && briefed_->guide.has_value() &&
      lesson::check_drilling_instruments(*briefed_).has_value()) {
    model_.budget =
        session::guide_budget(*briefed_, session::OperatorProfile{}, model_.seat_gap_left_mm);
  }
}

void App::start_attempt() {
  start(block_index_);
}

void App::start(std::optional<std::size_t> block) {
  const double asked_s = platform::now_s();
  if (!takes_device()) {
    return;
  }
  const auto setup = next_setup(block);
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
  about.cohort = launch_.class_code.empty() ? course_.class_code(*place_)
                                            : std::string_view(launch_.class_code);
  about.device = device_name();
  about.period = 1 + static_cast<int>(
                         std::count_if(saved_.begin(), saved_.end(), [&](const SavedEntry& entry) {
                           return entry.shown.lesson_id == setup->lesson_id;
                         }));
  adopt(std::move(*session), about);
  journal_.begin(current_record(), full_title(session_->setup()));
  if (!is_press_chosen_ && setup->show.plan && setup->show.numbers) {
    model_.press_level_n = ui::press_of_level_n(kFirstPressLevel);
  }
  model_.screen = ui::Screen::kBench;
  meters_.fresh_specimen_ms = (platform::now_s() - asked_s) * 1000.0;
}

// Makes a session the one on the bench; `about` gives the names of its record.
void App::adopt(session::Session session, const record::Attempt& about) {
  end_showing();
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
  // Crowns stand high above the bone, as a guide does.
  pictures_.reset_looks(session_->setup().guide.has_value() ||
                        specimen::jaw_in(session_->setup().specimen) != nullptr);
}

void App::end_showing() {
  practice_.reset();
  example_.reset();
  prediction_.reset();
}

void App::again() {
  if (model_.screen == ui::Screen::kBench && bench_ != nullptr) {
    journal_.discard();
  }
  refresh_shelf();
  start_attempt();
}

// The next attempt of the same block begins at once; another block is briefed first.
void App::go_on() {
  if (!place_.has_value()) {
    go_to_shelf();
    return;
  }
  refresh_shelf();
  const auto task = course_.task(*place_, std::nullopt);
  if (!task.has_value()) {
    open_lesson(*place_);
  } else if (task->step.block_index == block_index_ && !task->is_retention) {
    start(block_index_);
  } else {
    brief(std::nullopt);
  }
}

void App::go_to_shelf() {
  if (model_.screen == ui::Screen::kBench && session_ != nullptr && bench_ != nullptr &&
      !session_->trace().empty()) {
    // Leaving is a break, not an end: the attempt can be resumed from the shelf.
    journal_.keep(*session_, platform::now_s(), true);
    ui::Unfinished left;
    left.id = about_.attempt_id;
    left.title = full_title(session_->setup());
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
  model_.front = {};  // the next screen has its own pictures
  model_.side = {};
  model_.slices = {};
  end_showing();
  pictures_.replace_material();
  estimate_.reset();
  verification_.clear();
  model_.screen = ui::Screen::kShelf;
  refresh_shelf();
}

void App::submit(const record::Command& command) {
  if (bench_ == nullptr || model_.screen != ui::Screen::kBench) {
    return;
  }
  if (command.op == record::Op::kFinish && session_->view().is_out) {
    const std::string question = bench_->open_question();
    if (!question.empty() && model_.notice != question) {
      notify(question, false);
      return;
    }
  }
  if (const auto taken = bench_->submit(command); !taken.has_value()) {
    notify(taken.error().message, false);
  } else if (command.op != record::Op::kHand && !model_.notice_is_error) {
    model_.notice.clear();  // what was refused is behind
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
  const bool is_known = same != saved_.end();
  const std::string when = is_known ? same->shown.when : platform::local_time();
  const double days = is_known ? same->past.finished_days : platform::now_days();
  const SavedEntry entry = summary_of(
      attempt,
      record::past_attempt(attempt, session_->view().used_drills, debrief_->moments(), days),
      block_title(attempt.setup), when);
  if (is_known) {
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
  if (!model_.notice_is_error) {
    model_.notice.clear();  // what the bench refused ends with it
  }
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
  const auto own = std::find_if(saved_.begin(), saved_.end(), [this](const SavedEntry& entry) {
    return entry.shown.id == about_.attempt_id;
  });
  const bool is_fresh =
      model_.screen == ui::Screen::kBench || model_.screen == ui::Screen::kEstimate;
  model_.shown = lesson::Shown::kEverything;
  reveal_at_s_ = 0.0;
  if (own != saved_.end()) {
    const auto index = static_cast<std::size_t>(own - saved_.begin());
    const lesson::Seen seen = course_.seen(index);
    model_.shown = is_fresh ? seen.at_once : seen.now;
    if (is_fresh && place_.has_value()) {
      reveal_at_s_ =
          platform::now_s() + course_.lesson(*place_).blocks[block_index_].feedback.delay_s;
    }
    if (is_fresh && model_.shown == lesson::Shown::kEverything) {
      compare_block(index);
    }
  }
  const record::Trace& trace = session_->trace();
  model_.missing_drills = lesson::missing_drills(
      session_->setup(),
      recorded_text_.empty() ? session_->view().used_drills : record::drills_taken(trace));
  model_.wrong_lengths = record::wrong_lengths(session_->setup(), trace);
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

// After the last attempt of a block that is summed up, the others of the block lie beside it.
void App::compare_block(std::size_t saved_index) {
  if (!place_.has_value() || course_.lesson(*place_).blocks[block_index_].feedback.kind !=
                                 lesson::FeedbackKind::kSummary) {
    return;
  }
  for (const std::size_t other : course_.same_block_before(saved_index)) {
    request_load(saved_[other].shown.id, LoadPurpose::kCompare);
  }
}

// The lesson and block of a record, where the shelf has them.
void App::find_place(const lesson::AttemptSetup& setup) {
  place_ = course_.find(setup.lesson_id, place_.value_or(ui::Place{}));
  block_index_ = 0;
  if (!place_.has_value()) {
    return;
  }
  const lesson::Lesson& lesson = course_.lesson(*place_);
  const auto block =
      std::find_if(lesson.blocks.begin(), lesson.blocks.end(),
                   [&](const lesson::LessonBlock& one) { return one.id == setup.block_id; });
  if (block != lesson.blocks.end()) {
    block_index_ = static_cast<std::size_t>(block - lesson.blocks.begin());
  }
  const auto index = setup.attempt_index;
  model_.attempt_number = static_cast<int>(index) + 1;
  model_.planned_attempts = lesson.blocks[block_index_].attempts;
  if (const auto task = course_.task(*place_, block_index_); task.has_value()) {
    model_.attempt_number = static_cast<int>(task->step.place) + 1;
    model_.planned_attempts = static_cast<int>(std::max(task->step.planned, task->step.place + 1));
  }
}

}  // namespace driftbench::app
