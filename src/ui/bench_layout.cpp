#include "ui/bench_layout.h"

#include "ui/layout.h"
#include "ui/theme.h"

namespace driftbench::ui {

BenchLayout bench_layout(const Rect& page, const BenchParts& parts, float scale) {
  const float gap = 12.0F * scale;
  BenchLayout layout;
  Rect rest = page;
  layout.top_bar = cut_top(rest, kTopBar_px * scale);
  layout.bottom_line = cut_bottom(rest, 76.0F * scale);
  rest = inset(rest, gap, gap);

  // One third for the small views, but never so wide that they dwarf the front look.
  Rect column = cut_right(rest, std::clamp(rest.width / 3.0F, 320.0F * scale, 470.0F * scale));
  cut_right(rest, gap);
  if (parts.has_guide) {
    layout.seating = cut_bottom(rest, 148.0F * scale);
    cut_bottom(rest, gap);
  }
  layout.front = rest;

  const float rack_px = std::clamp(0.32F * column.height, 180.0F * scale, 270.0F * scale);
  layout.gauge = cut_bottom(column, 66.0F * scale);
  cut_bottom(column, gap);
  layout.rack = cut_bottom(column, rack_px + (parts.has_guide ? 60.0F * scale : 0.0F));
  cut_bottom(column, gap);
  if (parts.has_section) {
    layout.section = cut_bottom(column, 0.5F * (column.height - gap));
    cut_bottom(column, gap);
  }
  layout.side = column;
  return layout;
}

}  // namespace driftbench::ui
