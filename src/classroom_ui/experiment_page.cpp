// The planned experiment: what came out, whether the drawn order was followed, what it cannot say.
#include "classroom_ui/frame.h"
#include "classroom_ui/scroll.h"
#include "classroom_ui/strings.h"

#include "classroom/experiment_outcome.h"
#include "classroom/words.h"

#include <algorithm>

namespace driftbench::classroom_ui {
namespace {

using classroom::Experiment;
using classroom::ExperimentOutcome;
using classroom::Following;
using classroom::PlaceOutcome;
using ui::Button;
using ui::Rect;

constexpr std::size_t kMaxRows = 100;

bool plan_button(Frame& frame, Column& column, Str label, bool is_primary) {
  Button spec{std::string(tr(label)), "E"};
  spec.kind = is_primary ? ui::ButtonKind::kPrimary : ui::ButtonKind::kNormal;
  spec.description = tr(Str::kPlanHelp);
  const Rect row = column.cut(frame.px(ui::kButton_px));
  const float width = std::min(row.width, ui::button_width(frame, spec));
  const bool is_pressed = ui::button(frame, {row.x, row.y, width, row.height}, spec);
  column.gap(ui::kGap_px);
  return is_pressed || ui::key_hit(ImGuiKey_E);
}

/// Number, who, drawn order, what was done: a line a place, one text for assistive tools.
void place_row(Frame& frame, Column& column, const Experiment& experiment, std::size_t i,
               const PlaceOutcome& outcome) {
  const classroom::ExperimentPlace& place = experiment.places[i];
  const std::string who =
      outcome.learner.has_value() ? classroom::label_of(*frame.model.whole, *outcome.learner)
      : place.code.empty() || frame.model.are_names_hidden ? std::string("\u2013")
                                                           : place.code;
  const bool is_good =
      outcome.following == Following::kFollowed || outcome.following == Following::kNoCode;
  const ui::TextStyle style{frame.fonts.body, is_good ? frame.colors.text : frame.colors.warn};
  column.words(style,
               say(Str::kPlaceLine, i + 1, who, classroom::order_words(place),
                   classroom::following_words(outcome)),
               2.0F);
}

void outcome_words(Frame& frame, Column& column, const ExperimentOutcome& outcome) {
  const ui::TextStyle answer = ui::lead(frame);
  for (std::size_t i = 0; i < outcome.results.size(); ++i) {
    column.words(i == 0 ? answer : ui::body(frame), outcome.results[i], i == 0 ? 12.0F : 8.0F);
  }
  column.words({frame.fonts.strong, outcome.is_followed ? frame.colors.good : frame.colors.warn},
               outcome.followed, ui::kGap_px);
}

void list_of(Frame& frame, Column& column, Str heading, const std::vector<std::string>& sentences) {
  column.words(ui::strong(frame), tr(heading), 4.0F);
  for (const std::string& sentence : sentences) {
    column.words(ui::body(frame), sentence, 6.0F);
  }
  column.gap(ui::kGap_px);
}

void planned(Frame& frame, Column& column, const Experiment& experiment) {
  if (!experiment.design.title.empty()) {
    column.words(ui::strong(frame), experiment.design.title);
  }
  const classroom::Part* part = shown_part(frame);
  const ExperimentOutcome* outcome =
      part != nullptr && part->experiment.has_value() ? &*part->experiment : nullptr;
  if (outcome != nullptr) {
    outcome_words(frame, column, *outcome);
    list_of(frame, column, Str::kCannotSay, outcome->limits);
    column.words(ui::strong(frame), tr(Str::kPlaces), 4.0F);
    for (std::size_t i = 0; i < std::min(experiment.places.size(), kMaxRows); ++i) {
      place_row(frame, column, experiment, i, outcome->places[i]);
    }
    column.gap(ui::kGap_px);
  }
  list_of(frame, column, Str::kThePlan, classroom::plan_sentences(experiment.design));
  column.words(ui::caption(frame), say(Str::kDrawnBy, experiment.design.seed), ui::kGap_px);
}

}  // namespace

void experiment_page(Frame& frame, const Rect& room) {
  Column column(frame, "experiment", room);
  column.words(ui::heading(frame), tr(Str::kPageExperiment), 12.0F);
  const auto& collected = frame.model.roster->experiment;
  if (!collected.has_value()) {
    column.words(ui::body(frame), tr(Str::kExperimentNone));
    column.words(ui::body(frame), tr(Str::kExperimentHow), ui::kGap_px);
    if (plan_button(frame, column, Str::kPlanExperiment, true)) {
      frame.emit(PlanExperiment{});
    }
    return;
  }
  if (!frame.model.whole->roster.experiment.has_value()) {
    column.words(ui::body(frame), tr(Str::kExperimentFiltered), ui::kGap_px);
    const Rect row = column.cut(frame.px(ui::kButton_px));
    const Button all{std::string(tr(Str::kNoFilters))};
    if (ui::button(frame, {row.x, row.y, ui::button_width(frame, all), row.height}, all)) {
      frame.emit(SetFilters{});
    }
    return;
  }
  planned(frame, column, *collected);
  if (plan_button(frame, column, Str::kChangePlan, false)) {
    frame.emit(PlanExperiment{});
  }
}

}  // namespace driftbench::classroom_ui
