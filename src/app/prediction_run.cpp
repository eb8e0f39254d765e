#include "app/prediction_run.h"

#include "platform/host.h"

#include <utility>

namespace driftbench::app {
namespace {

// Between two looks at the clock; a step takes some ten microseconds.
constexpr std::int64_t kPortion_steps = 100;

}  // namespace

bool work_for(session::Practice& practice, double budget_s) {
  const double until_s = platform::now_s() + budget_s;
  bool more = true;
  while (more && platform::now_s() < until_s) {
    more = practice.advance(kPortion_steps);
  }
  return more;
}

PredictionRun::PredictionRun(lesson::Lesson lesson, specimen::Kit kit,
                             std::vector<session::OperatorProfile> profiles,
                             std::vector<std::optional<specimen::JawSite>> jaws)
    : lesson_(std::move(lesson)),
      kit_(std::move(kit)),
      profiles_(std::move(profiles)),
      jaws_(std::move(jaws)) {
  view_.groups.resize(profiles_.size());
  wanted_ = profiles_.size() * static_cast<std::size_t>(lesson_.prediction->holes);
}

base::Result<lesson::AttemptSetup> PredictionRun::next_setup() const {
  const std::size_t group = group_in_hand();
  const auto& jaw = jaws_[group];
  return lesson::prediction_setup(lesson_, kit_, group, made_ / view_.groups.size(),
                                  jaw.has_value() ? &*jaw : nullptr);
}

base::Result<bool> PredictionRun::work(double budget_s) {
  if (view_.is_ready) {
    return false;
  }
  if (!practice_.has_value()) {
    const auto setup = next_setup();
    if (!setup.has_value()) {
      return tl::unexpected<base::Error>(setup.error());
    }
    if (made_ == 0) {
      view_.site = *setup;
    }
    // Each group is one person; without practice, so that all holes are alike.
    auto started = session::Practice::start(*setup, profiles_[group_in_hand()], setup->seed,
                                            {group_in_hand(), 0});
    if (!started.has_value()) {
      return tl::unexpected<base::Error>(started.error());
    }
    practice_.emplace(std::move(*started));
    return true;
  }
  if (!work_for(*practice_, budget_s)) {
    take_hole();
  }
  const double of_this = practice_.has_value() ? practice_->progress() : 0.0;
  view_.progress = (static_cast<double>(made_) + of_this) / static_cast<double>(wanted_);
  return !view_.is_ready;
}

void PredictionRun::take_hole() {
  const scoring::Results results = practice_->session().measure();
  practice_.reset();
  if (results.hole.has_value()) {
    const scoring::Deviation& d = results.hole->deviation;
    view_.groups[group_in_hand()].holes.push_back(
        {{d.entry_md_mm, d.entry_bl_mm}, {d.apex_md_mm, d.apex_bl_mm}, d.angle_deg});
  }
  ++made_;
  if (made_ < wanted_) {
    return;
  }
  std::vector<lesson::GroupFindings> all;
  for (ui::PredictionGroupView& group : view_.groups) {
    group.findings = lesson::findings_of(group.holes);
    all.push_back(group.findings);
  }
  view_.widest = lesson::widest_of(all);
  view_.is_ready = true;
}

void PredictionRun::judge(std::size_t group, bool is_bias) {
  if (group >= view_.groups.size() || view_.is_revealed) {
    return;
  }
  view_.groups[group].said_bias = is_bias;
  view_.said_widest = group;
}

void PredictionRun::reveal() {
  view_.is_revealed = view_.is_ready;
}

}  // namespace driftbench::app
