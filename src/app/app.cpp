// The frame: input, interface, actions, steps, pictures, picture on the screen.
#include "app/app.h"

#include "app/code_name.h"
#include "app/sound.h"
#include "platform/host.h"
#include "platform/input.h"
#include "ui/strings.h"
#include "ui/theme.h"

#include <algorithm>
#include <string>
#include <utility>

namespace driftbench::app {
namespace {

// After any change this many frames are drawn: Dear ImGui settles its layout in the second one.
constexpr int kSettle_frames = 3;
constexpr double kLongestFrame_s = 0.25;
constexpr double kRerunBudget_s = 0.020;
constexpr double kStudyBudget_s = 0.080;  // between two pictures of the progress bar
// Share of full size at which software draws what stands still: sharp enough, still prompt.
constexpr double kSoftwareStill = 0.7;
// More device pixels than this for one point cost much and show little in the pictures.
constexpr double kMostPictureRatio = 2.0;

float channel(std::uint8_t value) {
  return static_cast<float>(value) / 255.0F;
}

}  // namespace

App::App(platform::Window& window, Launch launch)
    : window_(window), launch_(std::move(launch)), scale_(platform::is_software_rendered()) {
  if (launch_.code_name.empty()) {
    launch_.code_name = code_name(std::stoull(platform::random_hex(8), nullptr, 16));
    platform::remember("codename", launch_.code_name);
  }
  model_.theme = launch_.theme;
  model_.left_handed = launch_.left_handed;
  model_.step_by_step = launch_.step_by_step;
  model_.muted = launch_.muted;
  if (!launch_.notice.empty()) {
    notify(launch_.notice, false);
  }
  if (const std::string trouble = library_.load_own(); !trouble.empty()) {
    notify(trouble, true);
  }
}

void App::keep_awake(int frames) {
  frames_due_ = std::max(frames_due_, frames);
}

void App::notify(const std::string& sentence, bool is_error) {
  model_.notice = ui::in_language(sentence);
  model_.notice_is_error = is_error;
  keep_awake(kSettle_frames);
}

void App::stop_hands() {
  ui_.release();
  keep_awake(kSettle_frames);
}

bool App::tick() {
  const double now_s = platform::now_s();
  const double elapsed_s = std::clamp(now_s - last_tick_s_, 0.0, kLongestFrame_s);
  last_tick_s_ = now_s;
  if (window_.pump() || window_.has_queued_input()) {
    keep_awake(kSettle_frames);
  }
  if (!has_graphics_ || is_hidden_) {
    return false;
  }
  const bool is_busy = work(elapsed_s);
  if (is_busy) {
    keep_awake(1);
  } else if (was_busy_) {
    // Pictures show a frame after they are drawn, and now they are sharp.
    keep_awake(kSettle_frames);
  }
  was_busy_ = is_busy;
  if (frames_due_ <= 0) {
    was_drawing_ = false;
    return false;
  }
  --frames_due_;
  if (was_drawing_) {
    scale_.frame(elapsed_s);
  } else {
    scale_.skip();
  }
  was_drawing_ = true;
  frame(elapsed_s);
  const double spent_ms = (platform::now_s() - now_s) * 1000.0;
  constexpr double kSmoothing = 0.1;
  meters_.frame_ms += kSmoothing * (spent_ms - meters_.frame_ms);
  return frames_due_ > 0 || window_.has_queued_input() || is_busy ||
         (bench_ != nullptr && model_.screen == ui::Screen::kBench && bench_->is_moving());
}

bool App::work(double elapsed_s) {
  if (rerun_ != nullptr) {
    if (!rerun_->work(kRerunBudget_s)) {
      finish_rerun();
    }
    return true;
  }
  if (study_ != nullptr) {
    return study_->work(kStudyBudget_s);
  }
  if ((practice_ != nullptr || prediction_ != nullptr) && simulate()) {
    return true;
  }
  if (model_.screen == ui::Screen::kBench && bench_ != nullptr) {
    return bench_->is_moving();
  }
  if (model_.screen == ui::Screen::kDebrief && reveal_at_s_ > platform::now_s()) {
    return true;
  }
  if (has_look_back() && debrief_->is_playing()) {
    debrief_->advance(elapsed_s);
    pictures_.touch();
    return true;
  }
  return false;
}

bool App::has_look_back() const {
  return debrief_ != nullptr &&
         (model_.screen == ui::Screen::kDebrief || model_.screen == ui::Screen::kExample);
}

Subject App::subject() const {
  if (session_ == nullptr) {
    return Subject::kNone;
  }
  switch (model_.screen) {
    case ui::Screen::kBench:
      return Subject::kLive;
    case ui::Screen::kEstimate:
      return Subject::kCovered;
    case ui::Screen::kDebrief:
    case ui::Screen::kExample:
      return Subject::kLookBack;
    case ui::Screen::kShelf:
    case ui::Screen::kLesson:
    case ui::Screen::kLogbook:
    case ui::Screen::kBriefing:
    case ui::Screen::kStudy:
    case ui::Screen::kPrediction:
      break;
  }
  return Subject::kNone;
}

void App::restyle() {
  const platform::WindowSize size = window_.size();
  if (!needs_style_ && size.pixel_ratio == styled_for_.pixel_ratio) {
    return;
  }
  ui_.apply_style(model_.theme, ui::scale_of(model_.theme), size.pixel_ratio);
  window_.renew_fonts();
  styled_for_ = size;
  needs_style_ = false;
  pictures_.touch();
}

void App::build_model() {
  model_.touch = platform::pointer_state().device == platform::PointerDevice::kTouch;
  model_.has_pointer_readings = platform::has_own_pointer_events();
  if (is_whole_) {
    read_devices();
    read_pad();
    model_.is_hand_kept = is_hand_kept();
  }
  model_.busy = {};
  if (rerun_ != nullptr) {
    model_.busy.label = ui::tr(rerun_->purpose() == Rerun::Purpose::kResume ? ui::Str::kBusyResume
                                                                            : ui::Str::kBusyReplay);
    model_.busy.fraction = rerun_->progress();
  }
  model_.unfinished = unfinished_;
  model_.lesson = place_.has_value() ? &course_.lesson(*place_) : nullptr;
  model_.place = place_.value_or(ui::Place{});
  model_.device = model_.screen == ui::Screen::kLesson ? device_view() : ui::DeviceView{};
  model_.block_index = block_index_;
  if (model_.screen == ui::Screen::kBriefing || model_.screen == ui::Screen::kStudy) {
    model_.setup = briefed_.has_value() ? &*briefed_ : nullptr;
  } else {
    model_.setup = session_ != nullptr ? &session_->setup() : nullptr;
  }
  model_.view = session_ != nullptr ? &session_->view() : nullptr;
  if (bench_ != nullptr) {
    bench_->set_step_by_step(model_.step_by_step);
    model_.is_pecking = bench_->is_pecking();
    model_.is_running = bench_->is_moving();
  }
  model_.real_time_share =
      bench_ != nullptr && bench_->is_moving() ? bench_->real_time_share() : 1.0;
  model_.estimate = estimate_;
  model_.verification = verification_;
  model_.reveal_in_s =
      model_.screen == ui::Screen::kDebrief ? std::max(0.0, reveal_at_s_ - platform::now_s()) : 0.0;
  const bool is_revealed = has_look_back();
  model_.results = is_revealed ? &debrief_->results() : nullptr;
  model_.moments = is_revealed ? &debrief_->moments() : nullptr;
  model_.compared = is_revealed ? debrief_->compared() : std::vector<ui::Compared>();
  model_.scrub_step = is_revealed ? debrief_->step() : 0;
  model_.end_step = is_revealed ? debrief_->end_step() : 0;
  model_.playing = is_revealed && debrief_->is_playing();
  if (example_ != nullptr && is_revealed) {
    example_->reached_step = std::max(example_->reached_step, debrief_->step());
  }
  model_.example = example_.get();
  model_.prediction = prediction_ != nullptr ? &prediction_->view() : nullptr;
  model_.study.reset();
  if (study_ != nullptr) {
    model_.study = study_->view();
  }
  model_.scrub_sample =
      is_revealed && debrief_->scrub() != nullptr ? debrief_->scrub()->sample() : nullptr;
}

void App::frame(double elapsed_s) {
  restyle();
  window_.begin_frame();
  build_model();
  const ui::Actions actions = ui_.draw(model_);
  announcer_.frame(model_);
  for (const ui::Action& action : actions) {
    carry_out(action);
  }
  if (!actions.empty()) {
    keep_awake(kSettle_frames);
  }

  if (model_.screen == ui::Screen::kBench && bench_ != nullptr) {
    if (bench_->advance(elapsed_s) > 0) {
      pictures_.touch();
    }
    journal_.keep(*session_, platform::now_s(), false);
    platform::play_sound(sound_of(session_->view(), session_->setup(), model_.muted));
    if (session_->view().phase != session::Phase::kDrilling) {
      end_attempt();
    }
  }
  const double ratio = std::min(static_cast<double>(window_.size().pixel_ratio), kMostPictureRatio);
  if (study_ != nullptr) {
    draw_study(ratio);
  }
  if (session_ != nullptr) {
    // What stands still is drawn once, so it may be sharp.
    const bool is_live =
        (model_.screen == ui::Screen::kBench && bench_ != nullptr && bench_->is_moving()) ||
        model_.playing;
    const bool is_software = platform::is_software_rendered();
    const double still = is_software ? kSoftwareStill : PictureScale::kHighest;
    const double share = is_live ? scale_.value() : std::max(scale_.value(), still);
    const bool fine = !is_software && share == PictureScale::kHighest;
    pictures_.draw(subject(), *session_, debrief_ != nullptr ? debrief_->scrub() : nullptr,
                   ui_.rects(), ratio * share, fine, model_);
  }
  tell_of_pictures();

  const ui::Rgb page = ui::palette(model_.theme).page;
  window_.end_frame(channel(page.red), channel(page.green), channel(page.blue));
  ++meters_.frames;
}

void App::tell_of_pictures() {
  if (pictures_.problem() == told_problem_) {
    return;
  }
  told_problem_ = pictures_.problem();
  if (!told_problem_.empty()) {
    notify(ui::say(ui::Str::kNoPictures, told_problem_), true);
  }
}

void App::activate_item(std::uint32_t item_id) {
  ui_.activate(item_id);
  keep_awake(kSettle_frames);
}

void App::focus_item(std::uint32_t item_id) {
  ui_.focus(item_id);
  keep_awake(kSettle_frames);
}

void App::adjust_item(std::uint32_t item_id, int steps) {
  ui_.adjust(item_id, steps);
  keep_awake(kSettle_frames);
}

void App::found_journal(const platform::JournalFound& found) {
  if (found.id.empty()) {  // another tab goes on with it, or has discarded it
    unfinished_.reset();
    return;
  }
  if (bench_ != nullptr && found.id == about_.attempt_id) {
    return;
  }
  ui::Unfinished offer;
  offer.id = found.id;
  offer.title = found.title;
  offer.when = found.when;
  offer.seconds = static_cast<double>(found.step) / 1000.0;
  unfinished_ = offer;
}

}  // namespace driftbench::app
