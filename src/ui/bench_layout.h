// Where the parts of the bench lie, for every window size. Pure.
#pragma once

#include "ui/ui.h"

namespace driftbench::ui {

struct BenchParts {
  bool has_section = false;  ///< the lesson shows a live section
  bool has_guide = false;    ///< seating panel and length chooser
  bool touch = false;        ///< a finger is at work: a pad to lean, and everything big enough
  bool left_handed = false;  ///< what the right hand has is at the left
  bool shows_rack = false;   ///< upright, with a guide: the rack instead of the windows
};

struct BenchLayout {
  Rect top_bar, front, seating, side, section, rack, gauge, bottom_line;
  Rect lean;                ///< only for a finger
  bool is_upright = false;  ///< bars in rows; rack and windows take turns
};

/// Whether the bench can be used on a page of this size.
[[nodiscard]] bool has_bench_room(const Rect& page, float scale);

/// A low or narrow page has the looks side by side and no live section.
///
/// Contract: has_bench_room().
[[nodiscard]] BenchLayout bench_layout(const Rect& page, const BenchParts& parts, float scale);

}  // namespace driftbench::ui
