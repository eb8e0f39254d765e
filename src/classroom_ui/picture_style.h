// How the styles of a chart look on the screen; the report's style sheet says the same for paper.
#pragma once

#include "ui/theme.h"

#include <string_view>

namespace driftbench::classroom_ui {

struct Paint {
  ui::Rgb fill;
  float fill_alpha = 0.0F;  ///< 0: not filled
  ui::Rgb stroke;
  float stroke_alpha = 0.0F;  ///< 0: no line
  float width = 1.0F;         ///< picture units
  float dash = 0.0F;          ///< 0: solid
  float gap = 0.0F;
};

/// Paint of a shape with these styles, separated by spaces; later ones add to earlier ones.
[[nodiscard]] Paint paint_of(std::string_view styles, const ui::Palette& colors);

}  // namespace driftbench::classroom_ui
