#include "ui/bench_layout.h"

#include "ui/layout.h"
#include "ui/theme.h"

namespace driftbench::ui {
namespace {

constexpr float kLowBench_px = 560.0F;
constexpr float kNarrowBench_px = 700.0F;
constexpr float kSeating_px = 148.0F;
constexpr float kSeatingTouch_px = 170.0F;
constexpr float kGauge_px = 66.0F;
constexpr float kGaugeTouch_px = 104.0F;
constexpr float kChooser_px = 60.0F;
constexpr float kChooserTouch_px = 116.0F;

float chooser_px(const BenchParts& parts) {
  return !parts.has_guide ? 0.0F : parts.touch ? kChooserTouch_px : kChooser_px;
}

/// Cut off `column`'s lower edge, with the pad beside it for a finger.
void lay_gauge(BenchLayout& layout, Rect& column, const BenchParts& parts, float gap, float scale) {
  layout.gauge = cut_bottom(column, (parts.touch ? kGaugeTouch_px : kGauge_px) * scale);
  if (parts.touch) {
    layout.lean = cut_left(layout.gauge, kGaugeTouch_px * scale);
    cut_left(layout.gauge, gap);
  }
  cut_bottom(column, gap);
}

/// A phone held upright: looks above, below them either the windows of the guide or the rack.
BenchLayout upright_layout(const Rect& page, const BenchParts& parts, float scale) {
  constexpr float kTwoRows_px = 96.0F;
  constexpr float kThreeRows_px = 146.0F;
  constexpr float kRack_px = 160.0F;
  const float gap = 8.0F * scale;
  BenchLayout layout;
  layout.is_upright = true;
  Rect rest = page;
  layout.top_bar = cut_top(rest, kTwoRows_px * scale);
  layout.bottom_line = cut_bottom(rest, kThreeRows_px * scale);
  rest = inset(rest, gap, gap);
  lay_gauge(layout, rest, parts, gap, scale);
  if (parts.has_guide && !parts.shows_rack) {
    layout.seating = cut_bottom(rest, (parts.touch ? kSeatingTouch_px : kSeating_px) * scale);
  } else {
    layout.rack = cut_bottom(rest, (kRack_px + chooser_px(parts)) * scale);
  }
  cut_bottom(rest, gap);
  layout.side = cut_right(rest, 0.5F * (rest.width - gap));
  cut_right(rest, gap);
  layout.front = rest;
  return layout;
}

BenchLayout wide_layout(const Rect& page, const BenchParts& parts, float scale) {
  // Text at twice its size leaves a low window: the looks side by side, the rack beside them.
  const bool is_low = page.height < kLowBench_px * scale;
  const float gap = (is_low ? 8.0F : 12.0F) * scale;
  BenchLayout layout;
  Rect rest = page;
  layout.top_bar = cut_top(rest, (is_low ? 48.0F : kTopBar_px) * scale);
  layout.bottom_line = cut_bottom(rest, (is_low ? 60.0F : 76.0F) * scale);
  rest = inset(rest, gap, gap);

  // One third for the small views, but never so wide that they dwarf the front look.
  const float widest_px = is_low ? 300.0F : 470.0F;
  const float narrowest_px = is_low ? 240.0F : 320.0F;
  Rect column =
      cut_right(rest, std::clamp(rest.width / 3.0F, narrowest_px * scale, widest_px * scale));
  cut_right(rest, gap);
  if (parts.has_guide) {
    layout.seating = cut_bottom(rest, (parts.touch ? kSeatingTouch_px : kSeating_px) * scale);
    cut_bottom(rest, gap);
  }
  if (is_low) {
    layout.side = cut_right(rest, 0.5F * (rest.width - gap));
    cut_right(rest, gap);
  }
  layout.front = rest;

  const float rack_px = std::clamp(0.32F * column.height, 180.0F * scale, 270.0F * scale);
  lay_gauge(layout, column, parts, gap, scale);
  if (is_low) {
    layout.rack = column;
    return layout;
  }
  layout.rack = cut_bottom(column, rack_px + chooser_px(parts) * scale);
  cut_bottom(column, gap);
  if (parts.has_section) {
    layout.section = cut_bottom(column, 0.5F * (column.height - gap));
    cut_bottom(column, gap);
  }
  layout.side = column;
  return layout;
}

}  // namespace

bool has_bench_room(const Rect& page, float scale) {
  constexpr float kNarrowest_px = 380.0F;
  constexpr float kLowest_px = 440.0F;
  constexpr float kLowestUpright_px = 760.0F;
  const bool is_narrow = page.width < kNarrowBench_px * scale;
  return page.width >= kNarrowest_px * scale &&
         page.height >= (is_narrow ? kLowestUpright_px : kLowest_px) * scale;
}

BenchLayout bench_layout(const Rect& page, const BenchParts& parts, float scale) {
  BenchLayout layout = page.width < kNarrowBench_px * scale ? upright_layout(page, parts, scale)
                                                            : wide_layout(page, parts, scale);
  if (parts.left_handed) {
    for (Rect* part : {&layout.front, &layout.seating, &layout.side, &layout.section, &layout.rack,
                       &layout.gauge, &layout.lean}) {
      part->x = 2.0F * page.x + page.width - part->x - part->width;
    }
  }
  return layout;
}

}  // namespace driftbench::ui
