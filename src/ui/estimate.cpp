// Judging one's own hole before anything is shown.
#include "ui/layout.h"
#include "ui/needles.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <array>

namespace driftbench::ui {

namespace {

// Title of a part with the present judgement in words beside it.
void part_title(Frame& frame, Rect& part, Str title, std::string_view value) {
  const Rect row = cut_top(part, frame.px(24.0F));
  TextStyle name = strong(frame);
  text(frame, row, name, tr(title));
  const float used = text_size(name.face, tr(title)).x + frame.px(12.0F);
  TextStyle words = caption(frame);
  words.role = Role::kStatus;
  words.align = Align::kRight;
  text_middle(frame, {row.x + used, row.y, row.width - used, row.height}, words, value);
}

void where_part(Frame& frame, Rect part, const SiteWords& words) {
  scoring::SelfEstimate& value = frame.state.estimate.value;
  Rect depth = cut_right(part, std::max(frame.px(170.0F), 0.28F * part.width));
  cut_right(part, frame.px(kGap_px));
  part_title(frame, part, Str::kEstimateEntry, "");
  TextStyle said = caption(frame);
  said.role = Role::kStatus;
  const std::string where = off_centre(words, value.entry_md_mm, value.entry_bl_mm);
  text(frame, cut_bottom(part, frame.px(20.0F)), said, where);
  target_input(frame, part, words, value.entry_md_mm, value.entry_bl_mm);

  part_title(frame, depth, Str::kEstimateDepth, "");
  said.align = Align::kCentre;
  text(frame, cut_bottom(depth, frame.px(20.0F)), said, depth_words(value.depth_error_mm));
  depth_slider(frame, depth, value.depth_error_mm);
}

void lean_part(Frame& frame, Rect part, const SiteWords& words) {
  scoring::SelfEstimate& value = frame.state.estimate.value;
  const float gap = frame.px(kGapLarge_px);
  Rect left = cut_left(part, 0.5F * (part.width - gap));
  cut_left(part, gap);
  part_title(frame, left, Str::kEstimateLean, lean_md(words, value.tilt_md_deg));
  lean_needle(frame, left,
              {say(Str::kYourLean, words.md_minus, words.md_plus), words.md_minus, words.md_plus,
               lean_md(words, value.tilt_md_deg)},
              value.tilt_md_deg);
  part_title(frame, part, Str::kLeanAcross, lean_bl(words, value.tilt_bl_deg));
  lean_needle(frame, part,
              {say(Str::kYourLean, words.bl_minus, words.bl_plus), words.bl_minus, words.bl_plus,
               lean_bl(words, value.tilt_bl_deg)},
              value.tilt_bl_deg);
}

void confidence_part(Frame& frame, Rect row) {
  EstimateState& state = frame.state.estimate;
  const float label_width =
      text_size(frame.fonts.strong, tr(Str::kConfidence)).x + frame.px(kGap_px);
  text_middle(frame, cut_left(row, label_width), strong(frame), tr(Str::kConfidence));
  constexpr std::array kLevels{Str::kConfidenceLow, Str::kConfidenceMiddle, Str::kConfidenceHigh};
  const float gap = frame.px(kGapSmall_px);
  const float width = (row.width - 2.0F * gap) / 3.0F;
  for (int i = 0; i < 3; ++i) {
    const Rect box = cut_left(row, width);
    cut_left(row, gap);
    if (choice(frame, box, tr(kLevels[static_cast<std::size_t>(i)]), state.value.confidence == i,
               "confidence")) {
      state.value.confidence = i;
    }
  }
}

}  // namespace

void estimate(Frame& frame, const Rect& page) {
  if (frame.model.setup == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  if (frame.state.last_screen != Screen::kEstimate) {
    frame.state.estimate = EstimateState{};
  }
  const SiteWords words = site_words(*frame.model.setup);
  Rect rest = page;
  Rect bar = top_bar(frame, cut_top(rest, frame.px(kTopBar_px)));
  text_middle(frame, bar, strong(frame), place_words(frame));

  rest = inset(rest, frame.px(kGapLarge_px), frame.px(kGap_px));
  Rect left = cut_left(rest, 0.42F * rest.width);
  cut_left(rest, frame.px(kGapLarge_px));

  // The look stays as it was left, the hole covered.
  const Rect under = cut_bottom(left, frame.px(28.0F));
  frame.rects.front = left;
  picture(frame, left, frame.model.front, tr(Str::kFrozenLook), tr(Str::kFrozenLookHelp));
  text_middle(frame, under, caption(frame), tr(Str::kFrozenLookHelp));

  TextStyle title = heading(frame);
  text(frame, cut_top(rest, frame.px(kHeading_px + 2.0F)), title, tr(Str::kEstimateTitle));
  const float lead_height = text_size(frame.fonts.body, tr(Str::kEstimateLead), rest.width).y;
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  text(frame, cut_top(rest, lead_height + frame.px(10.0F)), muted, tr(Str::kEstimateLead));

  // One row for confidence and the way on where there is room, else two.
  Button show{std::string(tr(Str::kShowMe))};
  show.kind = ButtonKind::kPrimary;
  Button skip{std::string(tr(Str::kSkip))};
  skip.kind = ButtonKind::kQuiet;
  const float show_width = std::max(frame.px(150.0F), button_width(frame, show));
  const float skip_width = button_width(frame, skip);
  Rect buttons = cut_bottom(rest, frame.px(kButton_px));
  cut_bottom(rest, frame.px(kGap_px));
  Rect confidence = buttons;
  if (rest.width >= frame.px(640.0F)) {
    cut_right(confidence, show_width + skip_width + frame.px(12.0F + kGapLarge_px));
    cut_left(buttons, confidence.width + frame.px(kGapLarge_px));
  } else {
    confidence = cut_bottom(rest, frame.px(kButtonSmall_px));
    cut_bottom(rest, frame.px(kGap_px));
  }
  const Rect lean = cut_bottom(rest, 0.34F * rest.height);
  cut_bottom(rest, frame.px(12.0F));

  where_part(frame, rest, words);
  lean_part(frame, lean, words);
  confidence_part(frame, confidence);

  if (button(frame, cut_left(buttons, show_width), show)) {
    frame.emit(GiveEstimate{frame.state.estimate.value});
  }
  cut_left(buttons, frame.px(12.0F));
  if (button(frame, cut_left(buttons, skip_width), skip)) {
    frame.emit(SkipEstimate{});
  }
}

}  // namespace driftbench::ui
