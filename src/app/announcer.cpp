#include "app/announcer.h"

#include "platform/host.h"
#include "ui/words.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::app {
namespace {

std::string result_sentence(const ui::Model& model) {
  if (model.results == nullptr || model.setup == nullptr) {
    return "Debrief.";
  }
  if (!model.results->hole.has_value()) {
    return "There is no hole that could be measured.";
  }
  const scoring::HoleMeasures& hole = *model.results->hole;
  const ui::SiteWords words = ui::site_words(*model.setup);
  return fmt::format(
      "{} The entry is {}, the floor {}.",
      model.results->inside_tolerance ? "Inside the tolerance." : "Outside the tolerance.",
      ui::along_md(words, hole.deviation.entry_md_mm), ui::depth_words(hole.depth_error_mm));
}

std::string screen_sentence(const ui::Model& model) {
  switch (model.screen) {
    case ui::Screen::kShelf:
      return "Shelf: choose a lesson.";
    case ui::Screen::kBriefing:
      return "Briefing.";
    case ui::Screen::kBench:
      return fmt::format("Bench, attempt {}. Take a drill.", model.attempt_number);
    case ui::Screen::kEstimate:
      return "Estimate your own error before it is shown.";
    case ui::Screen::kDebrief:
      return result_sentence(model);
  }
  return {};
}

}  // namespace

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
    say("The stop rests on the guide.");
  } else if (at_depth && !at_depth_) {
    say("Planned depth reached.");
  } else if (in_contact && !in_contact_ && view.shoulder_depth_mm < 0.5) {
    say("Contact.");
  } else if (!in_contact && in_contact_ && view.is_out) {
    say("The drill is out.");
  }
  in_contact_ = in_contact;
  at_depth_ = at_depth;
  at_stop_ = view.at_stop;
}

void Announcer::frame(const ui::Model& model) {
  if (!has_screen_ || model.screen != screen_) {
    has_screen_ = true;
    screen_ = model.screen;
    in_contact_ = at_depth_ = at_stop_ = false;
    say(screen_sentence(model));
  }
  if (model.screen == ui::Screen::kBench && model.view != nullptr && model.setup != nullptr) {
    bench(model);
  }
  if (model.notice != notice_) {
    notice_ = model.notice;
    say(notice_);
  }
}

}  // namespace driftbench::app
