// Where the parts of the bench lie, for every window size. Pure.
#pragma once

#include "ui/ui.h"

namespace driftbench::ui {

struct BenchParts {
  bool has_section = false;  ///< the lesson shows a live section
  bool has_guide = false;    ///< seating panel and length chooser
  bool touch = false;        ///< a finger is at work: a pad to lean, and everything big enough
  bool left_handed = false;  ///< what the right hand has is at the left
};

struct BenchLayout {
  Rect top_bar, front, seating, side, section, rack, gauge, bottom_line;
  Rect lean;  ///< only for a finger
};

/// A low page has the looks side by side and no live section.
///
/// Contract: page at least 700 x 440 logical px at scale 1.
[[nodiscard]] BenchLayout bench_layout(const Rect& page, const BenchParts& parts, float scale);

}  // namespace driftbench::ui
