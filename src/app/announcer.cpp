#include "app/announcer.h"

#include "platform/host.h"
#include "ui/hand_words.h"
#include "ui/remark_words.h"
#include "ui/words.h"

#include <utility>

namespace driftbench::app {
namespace {

using ui::Str;
using ui::tr;

std::string result_sentence(const ui::Model& model) {
  if (model.results == nullptr || model.setup == nullptr) {
    return std::string(tr(Str::kSayDebrief));
  }
  if (model.reveal_in_s > 0.0) {
    return std::string(tr(Str::kThinkFirst));
  }
  if (model.shown != lesson::Shown::kEverything) {
    return std::string(tr(model.shown == lesson::Shown::kNothing ? Str::kKept
                          : !model.missing_drills.empty()        ? Str::kIncomplete
                          : model.results->inside_tolerance      ? Str::kInside
                                                                 : Str::kOutside));
  }
  if (!model.results->hole.has_value()) {
    return std::string(tr(Str::kNoHole));
  }
  const scoring::HoleMeasures& hole = *model.results->hole;
  const ui::SiteWords words = ui::site_words(*model.setup);
  return ui::say(!model.missing_drills.empty()     ? Str::kSayIncomplete
                 : model.results->inside_tolerance ? Str::kSayInside
                                                   : Str::kSayOutside,
                 ui::along_md(words, hole.deviation.entry_md_mm),
                 ui::depth_words(hole.depth_error_mm));
}

std::string screen_sentence(const ui::Model& model) {
  switch (model.screen) {
    case ui::Screen::kShelf:
      return std::string(tr(Str::kSayShelf));
    case ui::Screen::kLesson:
      return std::string(tr(Str::kSayLesson));
    case ui::Screen::kLogbook:
      return std::string(tr(Str::kSayLogbook));
    case ui::Screen::kBriefing:
      return std::string(tr(Str::kSayBriefing));
    case ui::Screen::kBench:
      return ui::say(Str::kSayBench, model.attempt_number);
    case ui::Screen::kEstimate:
      return std::string(tr(Str::kSayEstimate));
    case ui::Screen::kDebrief:
      return result_sentence(model);
    case ui::Screen::kStudy:
      return std::string(tr(Str::kSayStudy));
    case ui::Screen::kExample:
      return std::string(tr(Str::kSayExample));
    case ui::Screen::kPrediction:
      return std::string(tr(Str::kSayPrediction));
  }
  return {};
}

}  // namespace

void Announcer::say(Str sentence) {
  say(std::string(tr(sentence)));
}

void Announcer::say(std::string sentence) {
  if (!sentence.empty() && sentence != said_) {
    platform::announce(sentence);
    said_ = std::move(sentence);
  }
}

void Announcer::bench(const ui::Model& model) {
  const session::SessionView& view = *model.view;
  const bool in_contact = view.load.in_contact;
  const bool at_depth = !view.is_out && view.shoulder_depth_mm >= model.setup->plan.depth_mm - 0.05;
  if (view.at_stop && !at_stop_) {
    say(Str::kSayStop);
  } else if (at_depth && !at_depth_ && model.setup->show.numbers) {
    say(Str::kSayDepth);
  } else if (in_contact && !in_contact_ && view.shoulder_depth_mm < 0.5) {
    say(Str::kSayContact);
  } else if (!in_contact && in_contact_ && view.is_out) {
    say(Str::kSayOut);
  }
  if (const auto heard = listener_.hear(ui::motor_sound(view, *model.setup))) {
    say(*heard);
  }
  if (model.step_by_step && was_running_ && !model.is_running) {
    say(ui::hand_words(view, model.setup->kit));
  }
  was_running_ = model.is_running;
  in_contact_ = in_contact;
  at_depth_ = at_depth;
  at_stop_ = view.at_stop;
}

// A remark is said when the replay reaches it for the first time.
void Announcer::example(const ui::Model& model) {
  const auto& remarks = model.example->remarks;
  while (remarks_said_ < remarks.size() &&
         remarks[remarks_said_].step <= model.example->reached_step) {
    say(ui::remark_words(remarks[remarks_said_], *model.setup, *model.results));
    ++remarks_said_;
  }
}

void Announcer::frame(const ui::Model& model) {
  const bool waits = model.reveal_in_s > 0.0;
  if (!has_screen_ || model.screen != screen_ || waits != waits_) {
    waits_ = waits;
    has_screen_ = true;
    screen_ = model.screen;
    in_contact_ = at_depth_ = at_stop_ = false;
    remarks_said_ = 0;
    say(screen_sentence(model));
  }
  if (model.screen == ui::Screen::kBench && model.view != nullptr && model.setup != nullptr) {
    bench(model);
  }
  if (model.example != nullptr && model.results != nullptr) {
    example(model);
  }
  if (model.notice != notice_) {
    notice_ = model.notice;
    say(notice_);
  }
}

}  // namespace driftbench::app
