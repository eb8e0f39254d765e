// A piece of jaw under study: its volume, built in portions, and the plan that is being made.
#pragma once

#include "lesson/case_plan_edit.h"
#include "lesson/case_plan_review.h"
#include "lesson/plan_lesson.h"
#include "specimen/jaw_volume.h"
#include "ui/action.h"
#include "ui/study_model.h"

#include <optional>
#include <string>
#include <vector>

namespace driftbench::app {

class Study {
 public:
  /// `serial` tells this opening from others; `kit` gives the drills of the suggestion and must
  /// outlive the study.
  Study(lesson::SpecimenCase specimen, const specimen::Kit& kit, std::uint32_t serial);

  /// Builds on for about `seconds`. Gives true while there is more to do.
  bool work(double seconds);

  void edit(const ui::EditPlan& edit);
  void edit(const ui::EditGuide& edit);
  void step(bool forward);

  /// The case with the plan as it is now, under its own id.
  [[nodiscard]] lesson::SpecimenCase planned() const {
    return lesson::planned_case(specimen_, plan());
  }

  [[nodiscard]] const specimen::Kit& kit() const { return *kit_; }

  [[nodiscard]] const lesson::GuidePlan& guide() const { return history_.guide(); }

  /// The guide was looked into as it is now; `problem` says why it cannot be made, or is empty.
  void reckoned(std::string problem);

  [[nodiscard]] const std::vector<lesson::DrillStep>& steps() const { return steps_; }

  /// What the screen shows; valid until the next change.
  [[nodiscard]] ui::StudyView view() const;

  [[nodiscard]] const volume::Volume* volume() const {
    return volume_.has_value() ? &*volume_ : nullptr;
  }

  [[nodiscard]] const specimen::JawPose& pose() const { return pose_; }

  [[nodiscard]] const lesson::CasePlan& plan() const { return history_.now(); }

  [[nodiscard]] const lesson::PlanReview& review() const { return review_; }

  /// Implant and deepest drill as they are planned, and the guide's sleeve. Frame: core frame.
  [[nodiscard]] std::vector<specimen::RevolvedBody> bodies() const;

 private:
  void look_again();
  [[nodiscard]] specimen::RevolvedBody in_core(specimen::RevolvedBody body) const;

  lesson::SpecimenCase specimen_;
  const specimen::Kit* kit_;
  std::uint32_t serial_;
  specimen::JawPose pose_;
  specimen::Jaw jaw_;
  std::optional<specimen::JawBuilder> builder_;
  std::optional<volume::Volume> volume_;
  double built_ = 0.0;
  lesson::PlanHistory history_;
  lesson::PlanReview review_;
  std::vector<lesson::DrillStep> steps_;
  lesson::DensityAlong density_;
  bool is_guide_reckoned_ = false;
  std::string guide_problem_;
};

}  // namespace driftbench::app
