// Draws one frame of the interface and returns what the person asked for.
#pragma once

#include "ui/action.h"
#include "ui/look_turn.h"
#include "ui/model.h"

#include <cstdint>
#include <memory>
#include <string>

namespace driftbench::ui {

/// Rectangle in logical pixels, origin top left.
struct Rect {
  float x = 0, y = 0, width = 0, height = 0;

  friend bool operator==(const Rect&, const Rect&) = default;
};

/// Scale of both sections; the panels draw their overlays with it, app/ renders with the same.
struct SectionFrame {
  double centre_u_mm = 0.0;   ///< md or bl in the picture's centre
  double centre_v_mm = -5.0;  ///< height there, + out of the bone
  double mm_per_px = 0.05;    ///< per logical px; a renderer divides it by the pixel ratio
};

/// Sizes the panels want their pictures in, known after a frame; app/ renders to them next frame.
/// A rectangle without width: the picture is not shown.
struct PictureRects {
  Rect front, side, section_md, section_bl;
  Rect film;  ///< check film, in the scale of `film_mm_per_px`
  double film_mm_per_px = 0.1;
  LookTurn front_turn, side_turn;
  SectionFrame section;
  Rect section_across;
  double across_mm_per_px = 0.05;
  double across_depth_mm = 0.0;
  std::array<Rect, kSliceCount> slices;  ///< by SliceKind
  StudyPictures study;
};

/// Interface state that is nobody else's business (open folds, drags in progress).
class Ui {
 public:
  Ui();
  ~Ui();
  Ui(const Ui&) = delete;
  Ui& operator=(const Ui&) = delete;

  /// Loads fonts and style into the current ImGui context; again when scale or theme changes. The
  /// caller then uploads the font atlas anew.
  void apply_style(Theme theme, float scale, float pixel_ratio);

  /// To be called between ImGui::NewFrame() and ImGui::Render().
  [[nodiscard]] Actions draw(const Model& model);

  [[nodiscard]] const PictureRects& rects() const;

  /// What the last frame showed, as JSON (see item_tree.h); for tests and for assistive tools.
  [[nodiscard]] std::string items_json() const;

  /// From the page's mirror: press, focus, or move a slider by arrow steps.
  void activate(std::uint32_t item_id);
  void focus(std::uint32_t item_id);
  void adjust(std::uint32_t item_id, int steps);

  /// The page lost the focus or the pointer was cancelled: the hand lets go.
  void release();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace driftbench::ui
