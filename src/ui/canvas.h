// What every widget works with in one frame: colours, type, scale, and the list of what is shown.
#pragma once

#include "ui/fonts.h"
#include "ui/item_tree.h"
#include "ui/theme.h"

namespace driftbench::ui {

struct Canvas {
  const Palette& colors;
  const Fonts& fonts;
  float scale = 1.0F;
  ItemTree& items;
  bool is_touch = false;  ///< a finger touched last: keys are not shown on buttons

  /// Logical px of a size of the design system.
  [[nodiscard]] float px(float size) const { return size * scale; }
};

}  // namespace driftbench::ui
