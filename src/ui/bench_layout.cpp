#include "ui/bench_layout.h"

#include "ui/layout.h"
#include "ui/theme.h"

namespace driftbench::ui {
namespace {

constexpr float kLowBench_px = 560.0F;

}  // namespace

BenchLayout bench_layout(const Rect& page, const BenchParts& parts, float scale) {
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
    layout.seating = cut_bottom(rest, (parts.touch ? 170.0F : 148.0F) * scale);
    cut_bottom(rest, gap);
  }
  if (is_low) {
    layout.side = cut_right(rest, 0.5F * (rest.width - gap));
    cut_right(rest, gap);
  }
  layout.front = rest;

  const float rack_px = std::clamp(0.32F * column.height, 180.0F * scale, 270.0F * scale);
  layout.gauge = cut_bottom(column, (parts.touch ? 104.0F : 66.0F) * scale);
  if (parts.touch) {
    layout.lean = cut_left(layout.gauge, 104.0F * scale);
    cut_left(layout.gauge, gap);
  }
  cut_bottom(column, gap);
  if (is_low) {
    layout.rack = column;
  } else {
    const float chooser_px = parts.touch ? 116.0F : 60.0F;
    layout.rack = cut_bottom(column, rack_px + (parts.has_guide ? chooser_px * scale : 0.0F));
    cut_bottom(column, gap);
    if (parts.has_section) {
      layout.section = cut_bottom(column, 0.5F * (column.height - gap));
      cut_bottom(column, gap);
    }
    layout.side = column;
  }
  if (parts.left_handed) {
    for (Rect* part : {&layout.front, &layout.seating, &layout.side, &layout.section, &layout.rack,
                       &layout.gauge, &layout.lean}) {
      part->x = 2.0F * page.x + page.width - part->x - part->width;
    }
  }
  return layout;
}

}  // namespace driftbench::ui
