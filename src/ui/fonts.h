// The faces of the type scale, built into Dear ImGui's atlas.
#pragma once

#include <imgui.h>

namespace driftbench::ui {

/// A font at the size it is drawn in (logical px).
struct Face {
  ImFont* font = nullptr;
  float size_px = 0.0F;
};

struct Fonts {
  Face caption;
  Face caption_strong;
  Face body;
  Face strong;   ///< body size, semibold
  Face lead;     ///< semibold
  Face heading;  ///< semibold
  Face title;    ///< semibold
};

/// Rebuilds the atlas of the current context. The caller uploads the new font texture.
///
/// Unit: scale 1..2 of the whole interface; pixel_ratio = device px per logical px
[[nodiscard]] Fonts build_fonts(float scale, float pixel_ratio);

}  // namespace driftbench::ui
