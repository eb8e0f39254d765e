#include "app/study.h"

#include "platform/host.h"

#include <utility>

namespace driftbench::app {

Study::Study(lesson::SpecimenCase specimen, const specimen::Kit& kit, std::uint32_t serial)
    : specimen_(std::move(specimen)),
      kit_(&kit),
      serial_(serial),
      pose_(specimen::pose_of(specimen_.jaw.site_fdi)),
      jaw_(specimen_.jaw),
      history_(specimen_.plan) {
  // Closed gum: the section as it is before anything is opened.
  builder_.emplace(jaw_, pose_, specimen::GumOpening{});
}

bool Study::work(double seconds) {
  if (!builder_.has_value()) {
    return false;
  }
  constexpr std::int64_t kPortion = 20'000;
  const double end_s = platform::now_s() + seconds;
  while (built_ < 1.0 && platform::now_s() < end_s) {
    built_ = builder_->advance(kPortion);
  }
  if (built_ >= 1.0) {
    volume_ = builder_->take();
    builder_.reset();
    look_again();
  }
  return true;
}

specimen::RevolvedBody Study::in_core(specimen::RevolvedBody body) const {
  body.top_mm = pose_.to_core(body.top_mm);
  body.down_unit = pose_.direction_to_core(body.down_unit);
  return body;
}

std::vector<specimen::RevolvedBody> Study::bodies() const {
  std::vector<specimen::RevolvedBody> all{in_core(lesson::implant_body(plan())),
                                          in_core(lesson::deepest_drill(plan(), steps_))};
  if (guide().approach != specimen::Approach::kFreehand && !kit_->sleeves.empty()) {
    const specimen::Sleeve& sleeve = kit_->sleeves.front();
    const math::Vec3 out = lesson::axis_out_of(plan());
    all.push_back(in_core({plan().entry_mm + (guide().gap_mm + sleeve.height_mm) * out, -out,
                           0.5 * sleeve.outer_diameter_mm, sleeve.height_mm, 0.0}));
  }
  return all;
}

void Study::reckoned(std::string problem) {
  is_guide_reckoned_ = true;
  guide_problem_ = std::move(problem);
}

void Study::look_again() {
  is_guide_reckoned_ = false;
  density_ = lesson::density_along(*volume_, in_core(lesson::implant_body(plan())));
  steps_ = lesson::suggested_steps(*kit_, plan(), density_.density_class);
  review_ =
      lesson::review_plan(jaw_, plan(), specimen_.margins, lesson::deepest_drill(plan(), steps_));
}

void Study::edit(const ui::EditPlan& edit) {
  const lesson::CasePlan before = plan();
  history_.change(edit.plan, edit.gesture);
  if (volume_.has_value() && !(before == plan())) {
    look_again();
  }
}

void Study::edit(const ui::EditGuide& edit) {
  history_.change(edit.guide);
  is_guide_reckoned_ = false;
}

void Study::step(bool forward) {
  if (forward) {
    history_.redo();
  } else {
    history_.undo();
  }
  if (volume_.has_value()) {
    look_again();
  }
}

ui::StudyView Study::view() const {
  ui::StudyView view;
  view.serial = serial_;
  view.specimen = &specimen_;
  view.pose = &pose_;
  view.volume = volume();
  view.built_share = built_;
  view.plan = &history_;
  view.review = &review_;
  view.steps = &steps_;
  view.density = &density_;
  view.is_guide_reckoned = is_guide_reckoned_;
  view.guide_problem = guide_problem_;
  return view;
}

}  // namespace driftbench::app
