#include "ui/study_guide.h"

#include "base/text.h"
#include "ui/budget_panel.h"
#include "ui/guide_panel.h"
#include "ui/strings.h"
#include "ui/study_rows.h"
#include "ui/words.h"

#include <algorithm>
#include <array>
#include <span>

namespace driftbench::ui {
namespace {

using specimen::Approach;
using specimen::SupportKind;

/// Titled choices of equal width in rows of two or three, or of one where that is too narrow for
/// their words; gives the one pressed.
std::optional<std::size_t> choices(Frame& frame, Rect& column, Str title,
                                   std::span<const std::string> words, std::size_t chosen,
                                   std::size_t per_row) {
  text_middle(frame, cut_top(column, frame.px(26.0F)), caption(frame), tr(title));
  std::optional<std::size_t> pressed;
  const float gap = frame.px(6.0F);
  const auto shared = [&](std::size_t parts) {
    return (column.width - static_cast<float>(parts - 1) * gap) / static_cast<float>(parts);
  };
  const auto fits = [&](const std::string& word) {
    return text_size(frame.fonts.strong, word).x + frame.px(12.0F) <= shared(per_row);
  };
  if (!std::all_of(words.begin(), words.end(), fits)) {
    per_row = 1;
  }
  const float width = shared(per_row);
  Rect row;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i % per_row == 0) {
      row = cut_top(column, frame.px(kButtonSmall_px));
      cut_top(column, gap);
    }
    const std::string name = std::string(tr(title)) + ": " + words[i];
    if (choice(frame, cut_left(row, width), words[i], i == chosen, tr(title), name)) {
      pressed = i;
    }
    cut_left(row, gap);
  }
  return pressed;
}

// How much is guided: four words for three approaches and the implant.
void approach_choices(Frame& frame, Rect& column, lesson::GuidePlan& next) {
  struct Way {
    Approach approach;
    bool implant;
  };

  constexpr std::array kWays{Way{Approach::kFreehand, false}, Way{Approach::kPilot, false},
                             Way{Approach::kSleeve, false}, Way{Approach::kSleeve, true}};
  std::vector<std::string> words;
  std::size_t chosen = 0;
  for (std::size_t i = 0; i < kWays.size(); ++i) {
    words.push_back(approach_words(kWays[i].approach, kWays[i].implant));
    if (kWays[i].approach == next.approach && kWays[i].implant == next.implant_through_guide) {
      chosen = i;
    }
  }
  if (const auto pressed = choices(frame, column, Str::kGuideWhat, words, chosen, 2)) {
    next.approach = kWays[*pressed].approach;
    next.implant_through_guide = kWays[*pressed].implant;
  }
}

void support_choices(Frame& frame, Rect& column, lesson::GuidePlan& next) {
  const std::array<std::string, 3> words{std::string(tr(Str::kGuideOnTeeth)),
                                         std::string(tr(Str::kGuideOnGum)),
                                         std::string(tr(Str::kGuideOnBone))};
  if (const auto pressed = choices(frame, column, Str::kGuideOn, words,
                                   static_cast<std::size_t>(next.support.on), 3)) {
    next.support.on = static_cast<SupportKind>(*pressed);
  }
  if (next.support.on == SupportKind::kTeeth) {
    return;
  }
  next.support.pins +=
      static_cast<int>(number_row(frame, column, Str::kGuidePins, std::to_string(next.support.pins),
                                  Str::kGuidePinsHelp, {1.0, 1.0}));
  if (next.support.on == SupportKind::kMucosa) {
    switch_row(frame, column, Str::kGuideBite, Str::kGuideBiteHelp, next.support.bite_index);
  }
}

// Without a measurement the mouth is as wide as usual.
void mouth_row(Frame& frame, Rect& column, lesson::GuidePlan& next) {
  const double now_mm = next.mouth_opening_mm.value_or(lesson::kMeanOpening_mm);
  const double change =
      number_row(frame, column, Str::kGuideMouth,
                 next.mouth_opening_mm.has_value() ? say(Str::kMm, amount(now_mm, 0)) : "\u2013",
                 Str::kGuideMouthHelp, {1.0, 1.0});
  if (change != 0.0) {
    next.mouth_opening_mm = now_mm + change;
  }
}

}  // namespace

void guide_choices(Frame& frame, Rect& column) {
  const lesson::GuidePlan& guide = frame.model.study->plan->guide();
  lesson::GuidePlan next = guide;
  approach_choices(frame, column, next);
  if (guide.approach != Approach::kFreehand) {
    support_choices(frame, column, next);
    next.gap_mm += number_row(frame, column, Str::kGuideGap, say(Str::kMm, amount(guide.gap_mm, 1)),
                              Str::kGuideGapHelp, {0.5, 0.1});
    mouth_row(frame, column, next);
  }
  if (!(next == guide)) {
    frame.emit(EditGuide{next});
  }
}

void guide_findings(Frame& frame, Rect& column) {
  const StudyView& study = *frame.model.study;
  cut_top(column, frame.px(kGap_px));
  if (study.plan->guide().approach == Approach::kFreehand) {
    cut_top(column, text(frame, column, body(frame), tr(Str::kGuideNone)));
    return;
  }
  // Thousands of draws: when the drag has ended.
  if (!study.is_guide_reckoned) {
    if (!ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
      frame.emit(ReckonGuide{});
    }
    return;
  }
  if (!study.guide_problem.empty()) {
    TextStyle style = body(frame);
    style.color = frame.colors.danger;
    style.role = Role::kStatus;
    cut_top(column, text(frame, column, style, in_language(study.guide_problem)));
    return;
  }
  cut_top(column, guide_panel(frame, column));
  cut_top(column, budget_panel(frame, column));
}

}  // namespace driftbench::ui
