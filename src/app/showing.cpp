// What virtual operators show before the first own attempt: a worked example, holes to judge.
#include "embedded/operators.h"

#include "app/app.h"
#include "platform/host.h"
#include "ui/strings.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::app {
namespace {

constexpr double kSimulationBudget_s = 0.060;  // between two pictures of the progress

/// The operator that came with the app under this id.
std::optional<session::OperatorProfile> operator_of(const std::string& id) {
  const std::string path = fmt::format("assets/operators/{}.json", id);
  const std::string_view text = embedded::operators(path);
  return text.data() != nullptr ? session::read_operator(text, path).value : std::nullopt;
}

}  // namespace

// Goes to the place anew, with nothing on the bench; gives its lesson.
const lesson::Lesson* App::clear_for_showing() {
  if (!place_.has_value()) {
    return nullptr;
  }
  open_lesson(ui::Place(*place_));
  return place_.has_value() ? &course_.lesson(*place_) : nullptr;
}

void App::watch_example(std::size_t block) {
  const lesson::Lesson* lesson = clear_for_showing();
  const specimen::Kit* kit = lesson != nullptr ? library_.find_kit(lesson->kit_id) : nullptr;
  if (kit == nullptr || block >= lesson->blocks.size()) {
    return;
  }
  const lesson::LessonBlock& shown = lesson->blocks[block];
  const auto setup = lesson::example_setup(*lesson, *kit, block, library_.find_case(shown.case_id));
  if (!setup.has_value()) {
    notify(ui::say(ui::Str::kCannotStart, setup.error().message), true);
    return;
  }
  const auto profile = operator_of(shown.example->operator_id);
  if (!profile.has_value()) {
    notify(ui::say(ui::Str::kWatchGone, shown.example->operator_id), true);
    return;
  }
  auto practice = session::Practice::start(*setup, *profile, setup->seed);
  if (!practice.has_value()) {
    notify(ui::say(ui::Str::kCannotStart, practice.error().message), true);
    return;
  }
  practice_ = std::make_unique<session::Practice>(std::move(*practice));
  example_ = std::make_unique<ui::ExampleView>();
  example_->operator_name = profile->name;
  block_index_ = block;
  model_.seen_shown.push_back(lesson->id + "/" + shown.id);
  model_.screen = ui::Screen::kExample;
}

void App::finish_example() {
  session_ = std::make_unique<session::Session>(practice_->take_session());
  practice_.reset();
  if (session_->view().phase == session::Phase::kDrilling) {
    notify(std::string(ui::tr(ui::Str::kNoHole)), true);
    open_lesson(*place_);
    return;
  }
  recorded_text_.clear();
  model_.shown = lesson::Shown::kEverything;
  reveal_at_s_ = 0.0;
  example_->remarks = session::comment(*session_);
  example_->is_ready = true;
  debrief_ = std::make_unique<Debrief>(*session_);
  debrief_->reveal();
  debrief_->scrub_to(0);
  debrief_->play(true);
  pictures_.replace_material();
  pictures_.reset_looks(session_->setup().guide.has_value() ||
                        specimen::jaw_in(session_->setup().specimen) != nullptr);
}

void App::open_prediction() {
  const lesson::Lesson* lesson = clear_for_showing();
  const specimen::Kit* kit = lesson != nullptr ? library_.find_kit(lesson->kit_id) : nullptr;
  if (kit == nullptr || !lesson->prediction.has_value()) {
    return;
  }
  std::vector<session::OperatorProfile> profiles;
  std::vector<std::optional<specimen::JawSite>> jaws;
  for (std::size_t i = 0; i < lesson->prediction->groups.size(); ++i) {
    const std::string& id = lesson->prediction->groups[i].operator_id;
    auto profile = operator_of(id);
    if (!profile.has_value()) {
      notify(ui::say(ui::Str::kWatchGone, id), true);
      return;
    }
    profiles.push_back(std::move(*profile));
    const specimen::JawSite* jaw =
        library_.find_case(lesson->blocks[lesson::block_of_group(*lesson, i)].case_id);
    jaws.push_back(jaw != nullptr ? std::optional(*jaw) : std::nullopt);
  }
  prediction_ =
      std::make_unique<PredictionRun>(*lesson, *kit, std::move(profiles), std::move(jaws));
  model_.seen_shown.push_back(lesson->id);
  model_.screen = ui::Screen::kPrediction;
}

// Simulates for a while; true while there is more to do.
bool App::simulate() {
  if (practice_ != nullptr) {
    const bool more = work_for(*practice_, kSimulationBudget_s);
    example_->progress = practice_->progress();
    if (!more) {
      finish_example();
    }
    return true;
  }
  const base::Result<bool> more = prediction_->work(kSimulationBudget_s);
  if (!more.has_value()) {
    notify(ui::say(ui::Str::kCannotStart, more.error().message), true);
    open_lesson(*place_);
    return true;
  }
  if (*more) {
    return true;
  }
  keep_awake(1);
  return false;
}

void App::judge(const ui::JudgeGroup& said) {
  if (prediction_ != nullptr) {
    prediction_->judge(said.group, said.is_bias);
  }
}

void App::reveal_prediction() {
  if (prediction_ != nullptr) {
    prediction_->reveal();
  }
}

}  // namespace driftbench::app
