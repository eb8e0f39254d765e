// The holes of a lesson's prediction, made by virtual operators in portions between frames.
#pragma once

#include "lesson/demonstration.h"
#include "session/virtual_operator.h"
#include "ui/showing_model.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace driftbench::app {

/// Lets a virtual operator work for about `budget_s`. Returns true while there is more to do.
[[nodiscard]] bool work_for(session::Practice& practice, double budget_s);

class PredictionRun {
 public:
  /// Works on copies, so that files may be opened meanwhile; `profiles` and `jaws` are those of the
  /// groups.
  PredictionRun(lesson::Lesson lesson, specimen::Kit kit,
                std::vector<session::OperatorProfile> profiles,
                std::vector<std::optional<specimen::JawSite>> jaws);

  /// Works for about `budget_s`. Returns true while there is more to do.
  ///
  /// Errors: as prediction_setup() and Practice::start()
  [[nodiscard]] base::Result<bool> work(double budget_s);

  void judge(std::size_t group, bool is_bias);

  /// Shows the numbers, once all holes are made.
  void reveal();

  [[nodiscard]] const ui::PredictionView& view() const { return view_; }

 private:
  [[nodiscard]] std::size_t group_in_hand() const { return made_ % view_.groups.size(); }

  [[nodiscard]] base::Result<lesson::AttemptSetup> next_setup() const;
  void take_hole();

  lesson::Lesson lesson_;
  specimen::Kit kit_;
  std::vector<session::OperatorProfile> profiles_;
  std::vector<std::optional<specimen::JawSite>> jaws_;
  std::optional<session::Practice> practice_;
  std::size_t made_ = 0;  ///< holes, of all groups in turn
  std::size_t wanted_ = 0;
  ui::PredictionView view_;
};

}  // namespace driftbench::app
