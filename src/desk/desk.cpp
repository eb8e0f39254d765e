#include "desk/desk.h"

#include "classroom_ui/strings.h"
#include "desk/host.h"
#include "embedded/demo.h"

#include "classroom/compile.h"
#include "classroom/foreign_table.h"
#include "classroom/outputs.h"
#include "classroom/summary_json.h"
#include "platform/host.h"
#include "platform/input.h"
#include "ui/language.h"
#include "ui/theme.h"

#include <algorithm>
#include <type_traits>
#include <utility>
#include <variant>

namespace driftbench::desk {
namespace {

using classroom::Standing;
using classroom_ui::say;
using classroom_ui::Str;
using classroom_ui::tr;

constexpr int kSettle_frames = 3;
/// While attempts are repeated, the class is compiled anew at most this often.
constexpr double kCompileEvery_s = 2.0;
constexpr std::string_view kTableEnding = ".csv";
constexpr std::string_view kDemoFile = "assets/classroom/invented-class.csv";

/// A list of names has the column "code"; a table of holes does not.
bool is_names_table(std::string_view bytes, const std::string& name) {
  std::string_view header = bytes.substr(0, std::min(bytes.find('\n'), bytes.size()));
  constexpr std::size_t kLongestHeader = 4096;
  header = header.substr(0, kLongestHeader);
  return name.ends_with(kTableEnding) && header.find("code") != std::string_view::npos &&
         header.find("name") != std::string_view::npos &&
         header.find("operator") == std::string_view::npos;
}

template <class... Handlers>
struct Overloaded : Handlers... {
  using Handlers::operator()...;
};
template <class... Handlers>
Overloaded(Handlers...) -> Overloaded<Handlers...>;

}  // namespace

Desk::Desk(platform::Window& window, std::span<const char* const> arguments) : window_(window) {
  bool prefers_light = false;
  std::string theme;
  for (const std::string_view argument : arguments) {
    prefers_light = prefers_light || argument == "--prefers-light=1";
    for (const std::string_view name : {"--kept-theme=", "--theme="}) {
      if (argument.starts_with(name)) {
        theme = argument.substr(name.size());
      }
    }
  }
  model_.theme = ui::theme_of(theme).value_or(prefers_light ? ui::Theme::kLight : ui::Theme::kDark);
  platform::announce(tr(Str::kSayEmpty));
}

bool is_known_table(std::string_view bytes, const std::string& name) {
  return is_names_table(bytes, name) || classroom::is_own_table(bytes);
}

void Desk::keep_awake() {
  frames_due_ = kSettle_frames;
  platform::request_tick();
}

void Desk::notify(const std::string& sentence, bool is_error) {
  model_.notice = ui::in_language(sentence);
  platform::announce(model_.notice);
  model_.notice_is_error = is_error;
  keep_awake();
}

void Desk::begin_reading(std::size_t count) {
  if (model_.is_demo) {
    forget();
    notify(std::string(tr(Str::kDemoFirst)), false);
  }
  model_.reading = {0, count, true};
  keep_awake();
}

void Desk::take_file(const std::string& name, std::string_view bytes) {
  model_.reading.done = std::min(model_.reading.done + 1, model_.reading.total);
  keep_awake();
  if (!is_names_table(bytes, name)) {
    collector_.add(bytes, name);
    return;
  }
  base::Result<classroom::Names> names = classroom::read_names(bytes, name);
  if (!names) {
    refuse_file(names.error().message);
    return;
  }
  notify(say(Str::kNamesTaken, names->size(), name), false);
  names_ = std::move(*names);
}

void Desk::refuse_file(std::string sentence) {
  refused_.push_back(std::move(sentence));
}

void Desk::end_reading() {
  model_.reading.is_running = false;
  collect();
  if (roster_->entries.empty() && roster_->experiment.has_value()) {
    // A plan alone waits for the attempts.
    experiment_ = std::move(roster_->experiment);
    roster_.reset();
    collector_ = {};
    forget_files();
    notify(say(Str::kPlanTaken, experiment_->places.size()), false);
    return;
  }
  if (roster_->entries.empty()) {
    const std::string why =
        roster_->refused.items.empty() ? std::string() : " " + roster_->refused.items.front();
    roster_.reset();
    whole_.reset();
    collector_ = {};
    refused_.clear();
    forget_files();
    notify(std::string(tr(Str::kNothingFound)) + why, true);
    return;
  }
  compile();
  std::size_t left_out = roster_->refused.count;
  for (const classroom::Entry& entry : roster_->entries) {
    left_out += entry.counts() ? 0 : 1;
  }
  platform::announce(say(Str::kSayRead, roster_->entries.size(), left_out));
  check_rest();
}

/// The roster anew from all files so far.
void Desk::collect() {
  classroom::Collector copy = collector_;
  roster_ = copy.finish();
  for (const std::string& sentence : refused_) {
    roster_->refused.add(sentence);
  }
  if (experiment_.has_value()) {
    roster_->experiment = experiment_;
  }
  classroom::apply_verdicts(*roster_, verdicts_);
  devices_ = classroom::devices_of(*roster_);
}

void Desk::compile() {
  // On this screen small groups are shown, unless names are hidden: then others look on.
  std::optional<classroom::Names> names;
  if (!disguise_.has_value()) {
    names = names_.value_or(classroom::Names());
  }
  whole_ = classroom::compile(classroom::filtered(*roster_, model_.filters), std::move(names),
                              disguise_);
  compiled_s_ = platform::now_s();
  are_verdicts_new_ = false;
  screen_.renew();
  keep_awake();
}

void Desk::check_rest() {
  const std::vector<classroom::FileToVerify> files = classroom::verification_order(*roster_);
  model_.checking = {0, files.size(), !files.empty()};
  if (!files.empty()) {
    start_checking(files);
  }
  keep_awake();
}

void Desk::take_verdict(const std::string& sha256, classroom::Verdict verdict) {
  if (!roster_.has_value()) {
    return;
  }
  const classroom::Verdicts one{{sha256, verdict}};
  verdicts_[sha256] = std::move(verdict);
  classroom::apply_verdicts(*roster_, one);
  are_verdicts_new_ = true;
  classroom_ui::Task& checking = model_.checking;
  checking.done = std::min(checking.done + 1, checking.total);
  if (checking.is_complete() && checking.is_running) {
    checking.is_running = false;
    const classroom::Counts counts = classroom::counts_of(*roster_);
    platform::announce(
        say(Str::kSayChecked, counts.of(Standing::kEqual), counts.of(Standing::kDiffers)));
  }
  keep_awake();
}

void Desk::open_demo() {
  wants_demo_ = !is_whole_;
  if (!is_whole_) {
    return;
  }
  forget();
  model_.is_demo = true;
  collector_.add(embedded::demo(kDemoFile),
                 std::string(kDemoFile.substr(kDemoFile.rfind('/') + 1)));
  collect();
  compile();
  check_rest();
}

void Desk::forget() {
  stop_checking();
  forget_files();
  collector_ = {};
  refused_.clear();
  verdicts_.clear();
  names_.reset();
  experiment_.reset();
  whole_.reset();
  roster_.reset();
  devices_.clear();
  disguise_.reset();
  model_.filters = {};
  model_.is_demo = false;
  model_.reading = {};
  model_.checking = {};
  model_.notice.clear();
  keep_awake();
}

/// The same bytes as `driftbench class` writes for the same files.
void Desk::save(std::size_t output) {
  const classroom::Output& file = classroom::kOutputs.at(output);
  const classroom::Class all =
      classroom::compile(*roster_, disguise_.has_value() ? std::nullopt : names_, std::nullopt);
  platform::save_file(std::string(file.name), file.content(all));
}

void Desk::carry_out(const classroom_ui::Action& action) {
  namespace cu = classroom_ui;
  std::visit(
      Overloaded{
          [](const cu::PickFiles&) { pick_files(); }, [](const cu::PickFolder&) { pick_folder(); },
          [this](const cu::OpenDemo&) { open_demo(); },
          [this](const cu::SetFilters& wanted) {
            model_.filters = wanted.filters;
            compile();
          },
          [this](const cu::ToggleNames&) {
            if (disguise_.has_value()) {
              disguise_.reset();
            } else {
              disguise_ = std::stoull(platform::random_hex(8), nullptr, 16);
            }
            compile();
          },
          [this](const cu::NextTheme&) {
            model_.theme = ui::next_theme(model_.theme);
            platform::remember("theme", std::string(ui::code_of(model_.theme)));
            needs_style_ = true;
          },
          [](const cu::ChangeLanguage&) { platform::choose_language(ui::next_language().code); },
          [this](const cu::SaveOutput& wanted) { save(wanted.index); },
          [this](const cu::PlanExperiment&) { dialog("experiment"); },
          [this](const cu::PasteCode&) { dialog("paste"); },
          [this](const cu::MeasureBlock&) { dialog("photo"); },
          [this](const cu::MakeRecord&) { dialog("record"); },
          [this](const cu::ReplayTogether&) { dialog("replay"); },
          [this](const cu::StopChecking&) {
            stop_checking();
            model_.checking.is_running = false;
            compile();
          },
          [this](const cu::GoOnChecking&) { check_rest(); },
          [this](const cu::StartOver&) { forget(); },
          [](const cu::GoToBench&) { platform::open_page("./"); },
          [this](const cu::DismissNotice&) { model_.notice.clear(); }},
      action);
}

void Desk::receive(const platform::Message& message) {
  if (const auto* visibility = std::get_if<platform::VisibilityChanged>(&message)) {
    is_hidden_ = visibility->is_hidden;
  } else if (std::get_if<platform::LanguageChanged>(&message) != nullptr) {
    ui::set_language(platform::language_texts());
    model_.notice.clear();
  } else if (std::get_if<platform::ProgramWhole>(&message) != nullptr) {
    is_whole_ = true;
    if (wants_demo_) {
      open_demo();
    }
  } else if (std::get_if<platform::GraphicsLost>(&message) != nullptr) {
    has_graphics_ = false;
  } else if (std::get_if<platform::GraphicsRestored>(&message) != nullptr) {
    has_graphics_ = true;
    window_.restore_graphics();
  }
  keep_awake();
}

bool Desk::tick() {
  if (window_.pump() || window_.has_queued_input()) {
    frames_due_ = kSettle_frames;
  }
  const bool is_time =
      !model_.checking.is_running || platform::now_s() - compiled_s_ > kCompileEvery_s;
  if (are_verdicts_new_ && is_time) {
    compile();
  }
  if (!has_graphics_ || is_hidden_ || frames_due_ <= 0) {
    return false;
  }
  --frames_due_;
  frame();
  return frames_due_ > 0 || window_.has_queued_input();
}

void Desk::frame() {
  const platform::WindowSize size = window_.size();
  if (needs_style_ || size.pixel_ratio != styled_for_.pixel_ratio) {
    screen_.apply_style(model_.theme, ui::scale_of(model_.theme), size.pixel_ratio);
    window_.renew_fonts();
    styled_for_ = size;
    needs_style_ = false;
  }
  model_.roster = roster_.has_value() && whole_.has_value() ? &*roster_ : nullptr;
  model_.whole = whole_.has_value() ? &*whole_ : nullptr;
  model_.devices = &devices_;
  model_.has_names = names_.has_value();
  model_.are_names_hidden = disguise_.has_value();
  model_.is_touch = platform::pointer_state().device == platform::PointerDevice::kTouch;
  static_cast<void>(platform::take_pointer_track());

  window_.begin_frame();
  const classroom_ui::Actions actions = screen_.draw(model_);
  const ui::Rgb page = ui::palette(model_.theme).page;
  constexpr float kFull = 255.0F;
  window_.end_frame(static_cast<float>(page.red) / kFull, static_cast<float>(page.green) / kFull,
                    static_cast<float>(page.blue) / kFull);
  ++frames_;
  for (const classroom_ui::Action& action : actions) {
    carry_out(action);
  }
  if (!actions.empty()) {
    keep_awake();
  }
}

void Desk::activate_item(std::uint32_t item_id) {
  screen_.activate(item_id);
  keep_awake();
}

void Desk::focus_item(std::uint32_t item_id) {
  screen_.focus(item_id);
  keep_awake();
}

}  // namespace driftbench::desk
