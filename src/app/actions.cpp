// Carries out what the person asked for, and what reached the program from outside.
#include "embedded/cases.h"

#include "app/app.h"
#include "platform/host.h"
#include "ui/site_sheet.h"
#include "ui/strings.h"
#include "ui/theme.h"

#include <algorithm>
#include <type_traits>
#include <utility>
#include <variant>

namespace driftbench::app {
namespace {

constexpr int kSettle_frames = 3;

template <class T, class... Kinds>
constexpr bool is_one_of = (std::is_same_v<T, Kinds> || ...);

}  // namespace

bool App::must_wait(const ui::Action& action) const {
  return !is_whole_ &&
         std::visit(
             [](const auto& wish) {
               return !is_one_of<std::decay_t<decltype(wish)>, ui::OpenLesson, ui::GoToShelf,
                                 ui::ToggleMute, ui::NextTheme, ui::ChangeLanguage, ui::OpenFile,
                                 ui::OpenClassroom, ui::OpenLessonDesk, ui::ForgetOpened,
                                 ui::DismissNotice>;
             },
             action);
}

void App::become_whole() {
  is_whole_ = true;
  list_cases();
  if (const std::string trouble = library_.load_cases(); !trouble.empty()) {
    notify(trouble, true);
  }
  if (!waiting_actions_.empty()) {
    model_.notice.clear();
  }
  // Pieces of jaw that were kept come before what may drill them.
  for (platform::Message& message : std::exchange(waiting_messages_, {})) {
    receive(std::move(message));
  }
  for (const ui::Action& action : std::exchange(waiting_actions_, {})) {
    carry_out(action);
  }
}

void App::change_language() {
  ui::set_language(platform::language_texts());
  model_.notice.clear();
  if (is_whole_) {
    list_cases();
  }
  if (model_.logbook.has_value()) {
    build_logbook();
  }
}

void App::carry_out(const ui::Action& action) {
  if (must_wait(action)) {
    waiting_actions_.push_back(action);
    notify(std::string(ui::tr(ui::Str::kStillComing)), false);
    return;
  }
  std::visit(
      [this](const auto& wish) {
        using T = std::decay_t<decltype(wish)>;
        if constexpr (std::is_same_v<T, ui::OpenLesson>) {
          open_lesson(wish.place);
        } else if constexpr (std::is_same_v<T, ui::OpenBriefing>) {
          brief(wish.block_index);
        } else if constexpr (std::is_same_v<T, ui::SetSeatGap>) {
          model_.seat_gap_left_mm = wish.mm;
          reckon_guide();
        } else if constexpr (std::is_same_v<T, ui::SaveSiteSheet>) {
          if (model_.room.has_value() && briefed_.has_value()) {
            platform::save_file(ui::site_sheet_name(model_), ui::site_sheet_html(model_));
          }
        } else if constexpr (std::is_same_v<T, ui::StartAttempt>) {
          start_attempt();
        } else if constexpr (std::is_same_v<T, ui::Again>) {
          again();
        } else if constexpr (std::is_same_v<T, ui::GoOn>) {
          go_on();
        } else if constexpr (std::is_same_v<T, ui::GoToShelf>) {
          place_.reset();
          go_to_shelf();
        } else if constexpr (std::is_same_v<T, ui::OpenLogbook>) {
          open_logbook(wish.lesson_id);
        } else if constexpr (std::is_same_v<T, ui::DeleteAll>) {
          platform::delete_all_attempts();
        } else if constexpr (std::is_same_v<T, ui::ExportAll>) {
          platform::export_all_attempts();
        } else if constexpr (std::is_same_v<T, ui::OpenTakeaway>) {
          open_takeaway({}, {});
        } else if constexpr (std::is_same_v<T, ui::Send>) {
          submit(wish.command);
        } else if constexpr (std::is_same_v<T, ui::SetPressLevel>) {
          model_.press_level_n = wish.newton;
          is_press_chosen_ = true;
        } else if constexpr (std::is_same_v<T, ui::GiveEstimate>) {
          give_estimate(wish.estimate);
        } else if constexpr (std::is_same_v<T, ui::SkipEstimate>) {
          show_debrief();
        } else if constexpr (std::is_same_v<T, ui::ScrubTo>) {
          if (debrief_ != nullptr) {
            debrief_->scrub_to(wish.step);
            pictures_.touch();
          }
        } else if constexpr (std::is_same_v<T, ui::PlayReplay>) {
          if (debrief_ != nullptr) {
            debrief_->play(wish.play);
          }
        } else if constexpr (std::is_same_v<T, ui::ToggleMute>) {
          model_.muted = !model_.muted;
          platform::remember("mute", model_.muted ? "1" : "0");
        } else if constexpr (std::is_same_v<T, ui::NextTheme>) {
          model_.theme = ui::next_theme(model_.theme);
          platform::remember("theme", std::string(ui::code_of(model_.theme)));
          needs_style_ = true;
        } else if constexpr (std::is_same_v<T, ui::ToggleLeftHand>) {
          toggle_left_hand();
        } else if constexpr (std::is_same_v<T, ui::ToggleSteps>) {
          toggle_steps();
        } else if constexpr (std::is_same_v<T, ui::Peck>) {
          if (bench_ != nullptr) {
            bench_->peck(wish.is_short);
          }
        } else if constexpr (std::is_same_v<T, ui::ChangeLanguage>) {
          platform::choose_language(ui::next_language().code);
        } else if constexpr (std::is_same_v<T, ui::OpenFile>) {
          platform::pick_file();
        } else if constexpr (std::is_same_v<T, ui::OpenClassroom>) {
          platform::open_page("classroom.html");
        } else if constexpr (std::is_same_v<T, ui::OpenLessonDesk>) {
          platform::open_page("lesson-desk.html");
        } else if constexpr (std::is_same_v<T, ui::ForgetOpened>) {
          forget_opened(wish.name);
        } else if constexpr (std::is_same_v<T, ui::OpenSaved>) {
          const auto hidden = std::find_if(
              model_.saved.begin(), model_.saved.end(),
              [&](const auto& saved) { return saved.id == wish.id && saved.is_hidden; });
          if (hidden != model_.saved.end()) {
            notify(std::string(ui::tr(ui::Str::kStillHidden)), false);
          } else {
            request_load(wish.id, LoadPurpose::kOpen);
          }
        } else if constexpr (std::is_same_v<T, ui::DeleteSaved>) {
          platform::delete_attempt(wish.id);
        } else if constexpr (std::is_same_v<T, ui::ExportAttempt>) {
          export_attempt(wish.id);
        } else if constexpr (std::is_same_v<T, ui::ResumeUnfinished>) {
          if (unfinished_.has_value()) {
            platform::load_journal(unfinished_->id);
          }
        } else if constexpr (std::is_same_v<T, ui::DiscardUnfinished>) {
          if (unfinished_.has_value()) {
            platform::drop_journal(unfinished_->id);
            unfinished_.reset();
          }
        } else if constexpr (std::is_same_v<T, ui::SetCompared>) {
          compare(wish.id, wish.shown);
        } else if constexpr (std::is_same_v<T, ui::OpenStudy>) {
          const auto cases = embedded::cases();
          if (wish.case_index < cases.size()) {
            open_study(cases[wish.case_index].bytes, cases[wish.case_index].path);
          }
        } else if constexpr (std::is_same_v<T, ui::EditPlan>) {
          edit_study(wish);
        } else if constexpr (std::is_same_v<T, ui::EditGuide>) {
          edit_study(wish);
        } else if constexpr (std::is_same_v<T, ui::ReckonGuide>) {
          reckon_study_guide();
        } else if constexpr (std::is_same_v<T, ui::StepPlan>) {
          step_study(wish.forward);
        } else if constexpr (std::is_same_v<T, ui::SavePlan>) {
          save_study(wish.as_lesson);
        } else if constexpr (std::is_same_v<T, ui::WatchExample>) {
          watch_example(wish.block_index);
        } else if constexpr (std::is_same_v<T, ui::OpenPrediction>) {
          open_prediction();
        } else if constexpr (std::is_same_v<T, ui::JudgeGroup>) {
          judge(wish);
        } else if constexpr (std::is_same_v<T, ui::RevealPrediction>) {
          reveal_prediction();
        } else {
          static_assert(std::is_same_v<T, ui::DismissNotice>);
          model_.notice.clear();
        }
      },
      action);
}

void App::receive(platform::Message message) {
  keep_awake(kSettle_frames);
  std::visit(
      [this](auto& news) {
        using T = std::decay_t<decltype(news)>;
        if constexpr (is_one_of<T, platform::FileOpened, platform::AttemptLoaded,
                                platform::JournalLoaded>) {
          if (!is_whole_) {
            waiting_messages_.push_back(std::move(news));
            return;
          }
        }
        if constexpr (std::is_same_v<T, platform::FileKept>) {
          if (!is_whole_ && news.name.ends_with(".specimen.json")) {
            waiting_messages_.push_back(std::move(news));
          } else {
            take_kept(news);
          }
        } else if constexpr (std::is_same_v<T, platform::FileOpened>) {
          open_text(news.name, news.text);
        } else if constexpr (std::is_same_v<T, platform::StorageFailed>) {
          notify(news.sentence, true);
        } else if constexpr (std::is_same_v<T, platform::StoredIndex>) {
          saved_ = read_summaries(news.json);
          refresh_shelf();
        } else if constexpr (std::is_same_v<T, platform::AttemptLoaded>) {
          loaded(news.id, news.text);
        } else if constexpr (std::is_same_v<T, platform::JournalFound>) {
          found_journal(news);
        } else if constexpr (std::is_same_v<T, platform::JournalLoaded>) {
          resume(news);
        } else if constexpr (std::is_same_v<T, platform::VisibilityChanged>) {
          is_hidden_ = news.is_hidden;
          stop_hands();
          if (bench_ != nullptr) {
            bench_->rebase();
          }
          last_tick_s_ = platform::now_s();
        } else if constexpr (std::is_same_v<T, platform::ProgramWhole>) {
          become_whole();
        } else if constexpr (std::is_same_v<T, platform::LanguageChanged>) {
          change_language();
        } else if constexpr (std::is_same_v<T, platform::FocusLost>) {
          stop_hands();
        } else if constexpr (std::is_same_v<T, platform::KeepNow>) {
          if (session_ != nullptr && bench_ != nullptr) {
            journal_.keep(*session_, platform::now_s(), true);
          }
        } else if constexpr (std::is_same_v<T, platform::GraphicsLost>) {
          has_graphics_ = false;
          pictures_.forget();
          stop_hands();
          platform::announce(ui::tr(ui::Str::kSayGraphicsGone));
        } else {
          static_assert(std::is_same_v<T, platform::GraphicsRestored>);
          window_.restore_graphics();
          has_graphics_ = true;
          last_tick_s_ = platform::now_s();
          platform::announce(ui::tr(ui::Str::kSayGraphicsBack));
        }
      },
      message);
}

}  // namespace driftbench::app
