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

constexpr float kDepthPart_px = 300.0F;  // where it stands below the target

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

void where_part(Frame& frame, Rect part, const SiteWords& words, bool is_beside) {
  scoring::SelfEstimate& value = frame.state.estimate.value;
  const float gap = frame.px(kGap_px);
  Rect depth = is_beside ? cut_right(part, std::max(frame.px(170.0F), 0.28F * part.width))
                         : cut_bottom(part, frame.px(kDepthPart_px));
  is_beside ? cut_right(part, gap) : cut_bottom(part, gap);
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

void lean_part(Frame& frame, Rect part, const SiteWords& words, bool is_beside) {
  scoring::SelfEstimate& value = frame.state.estimate.value;
  const float gap = frame.px(kGapLarge_px);
  Rect left = is_beside ? cut_left(part, 0.5F * (part.width - gap))
                        : cut_top(part, 0.5F * (part.height - gap));
  is_beside ? cut_left(part, gap) : cut_top(part, gap);
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
  const Rect label = row.height > frame.px(kButton_px) ? cut_top(row, 0.4F * row.height)
                                                       : cut_left(row, label_width);
  text_middle(frame, label, strong(frame), tr(Str::kConfidence));
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

void covered_look(Frame& frame, Rect box) {
  const Rect under = cut_bottom(box, frame.px(28.0F));
  frame.rects.front = box;
  picture(frame, box, frame.model.front, tr(Str::kFrozenLook), tr(Str::kFrozenLookHelp));
  text_middle(frame, under, caption(frame), tr(Str::kFrozenLookHelp));
}

// The ways on: what was judged is given, or skipped.
struct Ways {
  Button show{std::string(tr(Str::kShowMe)), {}, ButtonKind::kPrimary};
  Button skip = quiet_button(Str::kSkip);
  float show_width = 0.0F;
  float skip_width = 0.0F;
};

Ways ways_on(const Frame& frame) {
  Ways ways;
  ways.show_width = std::max(frame.px(150.0F), button_width(frame, ways.show));
  ways.skip_width = button_width(frame, ways.skip);
  return ways;
}

void draw_ways(Frame& frame, const Ways& ways, const Rect& show_at, const Rect& skip_at) {
  if (button(frame, show_at, ways.show)) {
    frame.emit(GiveEstimate{frame.state.estimate.value});
  }
  if (button(frame, skip_at, ways.skip)) {
    frame.emit(SkipEstimate{});
  }
}

// One column that scrolls: the look, then every part where a finger has room for it.
void narrow_estimate(Frame& frame, Rect rest) {
  const Ways ways = ways_on(frame);
  std::vector<Rect> foot = page_foot(frame, rest, {ways.show_width, ways.skip_width});
  foot[1].width = ways.skip_width;
  draw_ways(frame, ways, foot[0], foot[1]);
  const SiteWords words = site_words(*frame.model.setup);
  const ScrolledPage scrolled = begin_page(frame, "estimate", rest);
  Rect column = scrolled.column;
  const float gap = frame.px(kGap_px);
  cut_top(column, text(frame, column, heading(frame), tr(Str::kEstimateTitle)) + frame.px(2.0F));
  const TextStyle muted{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, muted, tr(Str::kEstimateLead)) + gap);
  const bool is_beside = column.width >= frame.px(560.0F);
  covered_look(frame, cut_top(column, std::min(0.6F * column.width, frame.px(230.0F))));
  cut_top(column, gap);
  constexpr float kTitles_px = 44.0F;
  const float target = std::min(column.width, frame.px(340.0F)) + frame.px(kTitles_px);
  where_part(frame, cut_top(column, target + (is_beside ? 0.0F : frame.px(kDepthPart_px) + gap)),
             words, is_beside);
  cut_top(column, gap);
  const float lean = frame.px(190.0F);
  lean_part(frame, cut_top(column, is_beside ? lean : 2.0F * lean + frame.px(kGapLarge_px)), words,
            is_beside);
  cut_top(column, gap);
  confidence_part(frame,
                  cut_top(column, frame.px(is_beside ? kButtonSmall_px : 2.0F * kButton_px)));
  end_page(frame, scrolled, column.y + frame.px(kGapLarge_px));
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

  if (page.width < frame.px(kNarrow_px)) {
    narrow_estimate(frame, rest);
    return;
  }
  rest = inset(rest, frame.px(kGapLarge_px), frame.px(kGap_px));
  // The look stays as it was left, the hole covered.
  covered_look(frame, cut_left(rest, 0.42F * rest.width));
  cut_left(rest, frame.px(kGapLarge_px));

  TextStyle title = heading(frame);
  text(frame, cut_top(rest, frame.px(kHeading_px + 2.0F)), title, tr(Str::kEstimateTitle));
  const float lead_height = text_size(frame.fonts.body, tr(Str::kEstimateLead), rest.width).y;
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  text(frame, cut_top(rest, lead_height + frame.px(10.0F)), muted, tr(Str::kEstimateLead));

  // One row for confidence and the way on where there is room, else two.
  const Ways ways = ways_on(frame);
  Rect buttons = cut_bottom(rest, frame.px(kButton_px));
  cut_bottom(rest, frame.px(kGap_px));
  Rect confidence = buttons;
  if (rest.width >= frame.px(640.0F)) {
    cut_right(confidence, ways.show_width + ways.skip_width + frame.px(12.0F + kGapLarge_px));
    cut_left(buttons, confidence.width + frame.px(kGapLarge_px));
  } else {
    confidence = cut_bottom(rest, frame.px(kButtonSmall_px));
    cut_bottom(rest, frame.px(kGap_px));
  }
  const Rect lean = cut_bottom(rest, 0.34F * rest.height);
  cut_bottom(rest, frame.px(12.0F));

  where_part(frame, rest, words, true);
  lean_part(frame, lean, words, true);
  confidence_part(frame, confidence);

  const Rect show_at = cut_left(buttons, ways.show_width);
  cut_left(buttons, frame.px(12.0F));
  draw_ways(frame, ways, show_at, cut_left(buttons, ways.skip_width));
}

}  // namespace driftbench::ui
