// A lesson, its kit and an attempt as the app would show them, read from the project's own files.
#pragma once

#include "lesson/lesson.h"
#include "scoring/explain.h"
#include "scoring/results.h"
#include "session/view.h"
#include "ui/model.h"
#include "volume/volume.h"

#include <vector>

namespace driftbench::ui_test {

/// Everything that a Model points into.
struct Example {
  lesson::Lesson lesson;
  specimen::Kit kit;
  lesson::AttemptSetup freehand;
  lesson::AttemptSetup sleeve;
  lesson::AttemptSetup implant;
  volume::Volume volume;
  std::vector<drilling::LoadSample> samples;
  std::vector<scoring::Moment> moments;
  scoring::Results results;
  session::SessionView view;
  ui::ExampleView watched;
  lesson::Lesson judging;  ///< the lesson of the prediction
  ui::PredictionView judged;

  /// A model of this screen with the given set-up.
  [[nodiscard]] ui::Model model(ui::Screen screen, const lesson::AttemptSetup& setup);

  /// A worked example: being simulated, or replayed up to `reached_step`.
  [[nodiscard]] ui::Model example_model(bool is_ready, std::int64_t reached_step);

  /// Two groups of six holes; the second one is biased.
  [[nodiscard]] ui::Model prediction_model(bool is_ready, bool is_revealed);
};

/// Reads lessons/find-the-centre and its kit; the attempt in it is made up: pushed 1.1 mm toward
/// the soft half at first contact, 0.4 mm too deep, leaning 3.1 degrees.
[[nodiscard]] Example make_example();

}  // namespace driftbench::ui_test
