#include "app/debrief.h"

#include "drilling/params.h"

#include <algorithm>
#include <utility>

namespace driftbench::app {

Debrief::Debrief(const session::Session& session, const std::optional<scoring::Results>& recorded)
    : session_(&session),
      results_(recorded.has_value() ? *recorded : session.measure()),
      moments_(session.explain()),
      end_step_(session.view().step) {}

void Debrief::reveal() {
  if (scrub_ == nullptr) {
    scrub_ = std::make_unique<session::Scrub>(*session_);
    scrub_->wind_to(end_step_);
  }
}

void Debrief::scrub_to(std::int64_t step) {
  playing_ = false;
  if (scrub_ != nullptr) {
    scrub_->wind_to(std::clamp<std::int64_t>(step, 0, end_step_));
  }
}

void Debrief::play(bool playing) {
  playing_ = playing && scrub_ != nullptr;
  if (playing_) {
    if (scrub_->step() >= end_step_) {
      scrub_->wind_to(0);
    }
    play_step_ = static_cast<double>(scrub_->step());
  }
}

void Debrief::advance(double elapsed_s) {
  if (!playing_) {
    return;
  }
  play_step_ = std::min(play_step_ + elapsed_s / drilling::kStep_s, static_cast<double>(end_step_));
  scrub_->wind_to(static_cast<std::int64_t>(play_step_));
  playing_ = scrub_->step() < end_step_;
}

std::int64_t Debrief::step() const {
  return scrub_ != nullptr ? scrub_->step() : end_step_;
}

void Debrief::add_compared(ui::Compared compared) {
  remove_compared(compared.id);
  compared_.push_back(std::move(compared));
}

void Debrief::remove_compared(const std::string& id) {
  compared_.erase(std::remove_if(compared_.begin(), compared_.end(),
                                 [&id](const ui::Compared& item) { return item.id == id; }),
                  compared_.end());
}

std::optional<ui::Compared> compared_of(const record::Attempt& attempt) {
  if (!attempt.results.has_value()) {
    return std::nullopt;
  }
  ui::Compared compared;
  compared.id = attempt.attempt_id;
  compared.approach = attempt.setup.approach;
  compared.results = *attempt.results;
  compared.estimate = attempt.estimate;
  return compared;
}

}  // namespace driftbench::app
