// Draws one frame of the interface and returns what the person asked for.
#pragma once

#include "ui/action.h"
#include "ui/model.h"

#include <memory>

namespace driftbench::ui {

/// Rectangle in logical pixels, origin top left.
struct Rect {
  float x = 0, y = 0, width = 0, height = 0;
};

/// Sizes the panels want their pictures in, known after a frame; app/ renders to them next frame.
struct PictureRects {
  Rect front, side, section_md, section_bl;
};

/// Interface state that is nobody else's business (open folds, drags in progress).
class Ui {
 public:
  Ui();
  ~Ui();
  Ui(const Ui&) = delete;
  Ui& operator=(const Ui&) = delete;

  /// Loads fonts and style into the current ImGui context; again when scale or theme changes.
  void apply_style(Theme theme, float scale, float pixel_ratio);

  /// To be called between ImGui::NewFrame() and ImGui::Render().
  [[nodiscard]] Actions draw(const Model& model);

  [[nodiscard]] const PictureRects& rects() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace driftbench::ui
