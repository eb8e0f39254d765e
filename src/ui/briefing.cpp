// The briefing: what to do, the plan's figures, and for a guided site the sheet with its sums.
#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/bench_layout.h"
#include "ui/budget_panel.h"
#include "ui/guide_panel.h"
#include "ui/guide_words.h"
#include "ui/panels.h"
#include "ui/plan_figure.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <array>
#include <span>
#include <vector>

namespace driftbench::ui {

namespace {

std::string mm(double value) {
  return base::fixed(value, 1);
}

// Numbered steps, one line or two each.
float steps(Frame& frame, Rect column, std::span<const Str> sentences) {
  const float start = column.y;
  int number = 1;
  for (const Str sentence : sentences) {
    const float indent = frame.px(34.0F);
    const float wrap = column.width - indent;
    const float height = text_size(frame.fonts.body, tr(sentence), wrap).y;
    ImDrawList* list = ImGui::GetWindowDrawList();
    const ImVec2 centre{column.x + frame.px(12.0F), column.y + frame.px(11.0F)};
    list->AddCircleFilled(centre, frame.px(12.0F), color_of(frame.colors.raised));
    const std::string label = std::to_string(number);
    const ImVec2 size = text_size(frame.fonts.caption_strong, label);
    draw_text(frame.fonts.caption_strong, frame.colors.text,
              {centre.x - 0.5F * size.x, centre.y - 0.5F * size.y}, label);
    text(frame, {column.x + indent, column.y, wrap, height}, body(frame), tr(sentence));
    cut_top(column, height + frame.px(12.0F));
    ++number;
  }
  return column.y - start;
}

/// One figure of the plan.
struct Figure {
  Str name;
  std::string value;
};

std::string drill_list(const lesson::AttemptSetup& setup) {
  std::vector<std::string> names;
  for (const std::string& id : setup.plan.drill_ids) {
    const std::int32_t index = drill_index_of(setup, id);
    if (index >= 0) {
      names.push_back(mm(setup.kit.drills[static_cast<std::size_t>(index)].diameter_mm));
    }
  }
  return say(Str::kMmText, base::join(names, " \xE2\x86\x92 "));
}

std::vector<Figure> plan_figures(const lesson::AttemptSetup& setup) {
  std::vector<Figure> figures{
      {specimen::jaw_in(setup.specimen) != nullptr ? Str::kFigureJaw : Str::kFigureBlock,
       specimen_words(setup.specimen)},
      {Str::kFigureDepth, say(Str::kDepthToShoulder, mm(setup.plan.depth_mm))},
      {Str::kFigureDrills, drill_list(setup)}};
  if (const specimen::Implant* implant = implant_of(setup)) {
    figures.push_back({Str::kFigureImplant,
                       say(Str::kImplantSize, mm(implant->diameter_mm), mm(implant->length_mm))});
  }
  const scoring::Tolerance& t = setup.tolerance;
  figures.push_back({Str::kFigureTolerance,
                     say(Str::kToleranceWords, mm(t.entry_mm), mm(t.apex_mm), mm(t.angle_deg),
                         amount(t.depth_low_mm, 1), mm(t.depth_high_mm))});
  return figures;
}

// One row of the site sheet: the sum that the learner works out. Gives its height.
float sheet_row(Frame& frame, const Rect& at, const std::array<std::string, 4>& cells, bool head) {
  constexpr std::array kShares{0.15F, 0.18F, 0.50F, 0.17F};
  const TextStyle style = head ? caption(frame) : body(frame);
  const auto wrap = [&](std::size_t i) { return kShares[i] * at.width - frame.px(6.0F); };
  float height = frame.px(head ? 26.0F : 34.0F);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    height = std::max(height, text_size(style.face, cells[i], wrap(i)).y + frame.px(6.0F));
  }
  float x = at.x;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    text_middle(frame, {x, at.y, wrap(i), height}, style, cells[i]);
    x += kShares[i] * at.width;
  }
  ImGui::GetWindowDrawList()->AddLine({at.x, at.y + height}, {at.x + at.width, at.y + height},
                                      color_of(frame.colors.line));
  return height;
}

float site_sheet(Frame& frame, Rect column, const lesson::AttemptSetup& setup) {
  const float start = column.y;
  const specimen::Sleeve* sleeve = sleeve_of(setup);
  if (sleeve == nullptr) {
    return 0.0F;
  }
  text(frame, cut_top(column, frame.px(32.0F)), lead(frame), tr(Str::kSheetTitle));
  cut_top(column, text(frame, column, body(frame),
                       say(Str::kSheetOffset, mm(setup.guide->gap_mm), mm(sleeve->height_mm),
                           mm(setup.guide->gap_mm + sleeve->height_mm))) +
                      frame.px(6.0F));
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, muted, tr(Str::kSheetSum)) + frame.px(8.0F));
  cut_top(column, sheet_row(frame, column,
                            {std::string(tr(Str::kSheetDrill)), std::string(tr(Str::kSheetSpeed)),
                             std::string(tr(Str::kSheetParts)), std::string(tr(Str::kSheetLength))},
                            true));
  for (const lesson::GuidedLength& length : lesson::guided_lengths(setup)) {
    const std::array<std::string, 3> sum = sum_words(setup, length);
    cut_top(column, sheet_row(frame, column,
                              {sum[0], sum[1], sum[2], std::string(tr(Str::kSheetBlank))}, false));
  }
  cut_top(column, frame.px(8.0F));
  cut_top(column, text(frame, column, caption(frame), tr(Str::kSheetNote)));
  return column.y - start;
}

float left_column(Frame& frame, const Rect& column) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  Rect inner = column;
  text(frame, cut_top(inner, frame.px(34.0F)), lead(frame), tr(Str::kWhatToDo));
  const bool touch = frame.model.touch;
  std::vector<Str> wanted;
  if (setup.guide.has_value()) {
    wanted = {Str::kStepGuide, Str::kStepLength, Str::kStepKey, Str::kStepStop};
  } else {
    wanted = {touch ? Str::kStepPlaceTouch : Str::kStepPlace,
              touch ? Str::kStepPressTouch : Str::kStepPress, Str::kStepLean, Str::kStepLines};
  }
  if (setup.plan.drill_ids.size() > 1) {
    wanted.push_back(setup.guide.has_value() ? Str::kStepCheck : Str::kStepWiden);
  }
  wanted.push_back(Str::kStepFinish);
  const float used = steps(frame, inner, wanted);
  cut_top(inner, used);
  if (!setup.show.numbers && !setup.show.section) {
    TextStyle muted{frame.fonts.body, frame.colors.muted};
    cut_top(inner, text(frame, inner, muted, tr(Str::kNoNumbersNote)));
  }
  return inner.y - column.y;
}

}  // namespace

void briefing(Frame& frame, const Rect& page) {
  if (frame.model.setup == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  const lesson::AttemptSetup& setup = *frame.model.setup;
  Rect rest = page;
  briefing_bar(frame, rest);

  // The way on stays in sight; what is above scrolls where the window is low.
  Button start{std::string(tr(setup.guide.has_value() ? Str::kConfirmStart : Str::kStart))};
  start.kind = ButtonKind::kPrimary;
  const Button back{std::string(tr(Str::kBack)), {}, ButtonKind::kQuiet};
  Button watch{std::string(tr(Str::kWatch))};
  watch.description = tr(Str::kWatchHelp);
  std::vector<float> widths{std::max(frame.px(200.0F), button_width(frame, start)),
                            button_width(frame, back)};
  const lesson::Lesson* lesson = frame.model.lesson;
  const bool has_example =
      lesson != nullptr && lesson->blocks[frame.model.block_index].example.has_value();
  if (has_example) {
    widths.push_back(button_width(frame, watch));
  }
  std::vector<Rect> slots = page_foot(frame, rest, widths);
  slots.back().width = widths.back();
  if (button(frame, slots[0], start)) {
    frame.emit(StartAttempt{});
  }
  if (button(frame, slots[1], back)) {
    frame.emit(OpenLesson{frame.model.place});
  }
  if (has_example && button(frame, slots[2], watch)) {
    frame.emit(WatchExample{frame.model.block_index});
  }

  const ScrolledPage scrolled = begin_page(frame, "briefing", rest);
  Rect column = scrolled.column;
  TextStyle title{frame.fonts.title, frame.colors.text, Align::kLeft, Role::kHeading};
  cut_top(column,
          text(frame, column, title, approach_words(setup.approach, setup.implant_through_guide)) +
              frame.px(kGapSmall_px));
  if (!has_bench_room(page, frame.scale)) {
    const TextStyle warning{frame.fonts.strong, frame.colors.warn, Align::kLeft, Role::kStatus};
    cut_top(column, text(frame, column, warning, tr(Str::kBenchTooSmall)) + frame.px(kGap_px));
  }
  // Side by side where both columns have room for their words, else one below the other.
  const bool is_narrow = column.width < frame.px(760.0F);
  const float gap = frame.px(kGapPage_px);
  const Rect left = is_narrow ? column : cut_left(column, 0.44F * (column.width - gap));
  float left_used = left_column(frame, left);
  cut_left(column, is_narrow ? 0.0F : gap);
  const float right_start = column.y;
  if (is_narrow) {
    cut_top(column, left_used + frame.px(kGapLarge_px));
  }
  // The drawing goes where room is left: below the steps, or below the plan's figures.
  const float bottom = scrolled.origin.y + rest.height - frame.px(kGapLarge_px);
  const auto drawing = [&](Rect place) {
    cut_top(place, frame.px(kGapLarge_px));
    constexpr float kLeast_px = 230.0F;
    constexpr float kMost_px = 340.0F;
    const Rect box =
        cut_top(place, std::clamp(bottom - place.y, frame.px(kLeast_px), frame.px(kMost_px)));
    plan_figure(frame, box, setup);
    return frame.px(kGapLarge_px) + box.height;
  };

  Rect right = column;
  if (setup.guide.has_value()) {
    cut_top(right, site_sheet(frame, right, setup) + frame.px(kGapLarge_px));
  }
  text(frame, cut_top(right, frame.px(34.0F)), lead(frame), tr(Str::kPlanTitle));
  for (const Figure& figure : plan_figures(setup)) {
    cut_top(right, named_row(frame, right, tr(figure.name), strong(frame), figure.value));
  }
  cut_top(right, frame.px(kGapLarge_px));
  cut_top(right, guide_panel(frame, right));
  cut_top(right, budget_panel(frame, right));
  if (setup.guide.has_value() && !is_narrow) {
    left_used += drawing({left.x, left.y + left_used, left.width, 10000.0F});
  } else {
    cut_top(right, drawing(right));
  }
  const float used = std::max(left_used, right.y - right_start);
  end_page(frame, scrolled, right_start + used + frame.px(kGapLarge_px));
}

}  // namespace driftbench::ui
