// Draws the pictures that the panels of a screen ask for, and only when something in them changed.
#pragma once

#include "app/study.h"
#include "render/renderer.h"
#include "session/scrub.h"
#include "session/session.h"
#include "ui/model.h"
#include "ui/ui.h"

#include <memory>
#include <string>

namespace driftbench::app {

/// Which picture of the attempt a screen shows.
enum class Subject {
  kNone,
  kLive,     ///< the running attempt
  kCovered,  ///< the site as it was before; what was drilled stays hidden
  kLookBack  ///< the finished attempt at the step of the scrubber
};

/// A picture's texture and size for the screens.
[[nodiscard]] ui::Image image_of(const render::Picture& picture);

/// Pixels of a length on the page, at least one.
[[nodiscard]] int pixels(float points, double pixels_per_point);

class Pictures {
 public:
  /// Empty, or why there are none.
  [[nodiscard]] const std::string& problem() const { return renderer_.problem(); }

  /// The context is lost: all is made anew in the next one.
  void forget();

  /// Something in the pictures has changed besides the material.
  void touch() { changed_ = true; }

  /// The material belongs to another attempt: it is uploaded whole.
  void replace_material() { uploaded_ = nullptr; }

  void reset_looks(bool is_tall);

  /// Draws what `rects` ask for into the model's pictures. `scrub` is needed for kLookBack only.
  /// `fine`: smooth edges, at several times the cost.
  void draw(Subject subject, session::Session& session, session::Scrub* scrub,
            const ui::PictureRects& rects, double pixels_per_point, bool fine, ui::Model& model);

  /// Draws three sections and a look at a piece of jaw that is built, when something in them is not
  /// as it was. `look_share`: of the resolution, for the look, which costs most.
  void draw_study(const Study& study, const ui::PictureRects& rects, double pixels_per_point,
                  double look_share, ui::Model& model);

 private:
  void draw_study_look(const Study& study, const ui::PictureRects& rects, double pixels_per_point,
                       ui::Model& model);

  void bring_material(Subject subject, session::Session& session, session::Scrub* scrub);
  [[nodiscard]] render::Scene scene_of(Subject subject, const session::Session& session,
                                       const session::Scrub* scrub, const ui::Model& model) const;

  render::Renderer renderer_;
  render::Camera front_;
  render::Camera side_;
  const volume::Volume* uploaded_ = nullptr;
  std::unique_ptr<volume::Volume> covered_;
  ui::PictureRects drawn_rects_;
  ui::StudyPictures drawn_study_;
  double drawn_scale_ = 0.0;
  Subject drawn_subject_ = Subject::kNone;
  bool changed_ = true;
};

}  // namespace driftbench::app
