#include "drilling/hand.h"

#include "math/elementary.h"
#include "math/random_normal.h"

#include <cmath>

namespace driftbench::drilling {
namespace {

/// Time between two renewals of the wander (the low-pass smooths what lies between).
constexpr double kWander_s = 0.020;

void add_filter(base::Hash64& hash, const math::LowPassState<math::Vec2>& state) {
  hash.add(state.value.x);
  hash.add(state.value.y);
  hash.add(state.rate_per_s.x);
  hash.add(state.rate_per_s.y);
}

}  // namespace

Hand::Hand(const HandParams& params, std::uint64_t seed, double step_s)
    : params_(params),
      motion_filter_(math::make_low_pass(params.lowpass_hz, step_s)),
      press_filter_(math::make_low_pass(params.press_lowpass_hz, step_s)),
      rng_(seed) {
  // Ornstein-Uhlenbeck wander: keep exp(-dt/T), add what restores the standard deviation.
  wander_steps_ = static_cast<std::int64_t>(kWander_s / step_s + 0.5);
  wander_keep_ = math::exp(-kWander_s / params.drift_period_s);
  wander_fresh_ = std::sqrt(1.0 - wander_keep_ * wander_keep_);
}

void Hand::settle(const HandCommand& command) {
  tip_ = {command.tip_mm, math::Vec2(0.0)};
  lean_ = {command.lean_rad, math::Vec2(0.0)};
  press_ = {0.0, 0.0};
}

void Hand::renew_wander() {
  const auto renewed = [&](double value, double sd) {
    return wander_keep_ * value + wander_fresh_ * math::normal(rng_, 0.0, sd);
  };
  tip_wander_mm_.x = renewed(tip_wander_mm_.x, params_.drift_mm);
  tip_wander_mm_.y = renewed(tip_wander_mm_.y, params_.drift_mm);
  lean_wander_rad_.x = renewed(lean_wander_rad_.x, params_.drift_lean_rad);
  lean_wander_rad_.y = renewed(lean_wander_rad_.y, params_.drift_lean_rad);
}

HandTarget Hand::advance(const HandCommand& command, double grip_height_mm) {
  if (step_ % wander_steps_ == 0) {
    renew_wander();
  }
  ++step_;
  math::advance(motion_filter_, tip_, command.tip_mm + tip_wander_mm_);
  math::advance(motion_filter_, lean_, command.lean_rad + lean_wander_rad_);
  if (command.press_n > 0.0) {
    math::advance(press_filter_, press_, command.press_n);
  } else {
    press_ = {0.0, 0.0};  // letting go is immediate
  }
  HandTarget target;
  target.axis_out_unit = math::unit(math::Vec3(lean_.value.x, lean_.value.y, 1.0));
  target.grip_mm =
      math::Vec3(tip_.value.x, tip_.value.y, 0.0) + grip_height_mm * target.axis_out_unit;
  target.press_n = press_.value;
  return target;
}

void Hand::add_to(base::Hash64& hash) const {
  add_filter(hash, tip_);
  add_filter(hash, lean_);
  hash.add(press_.value);
  hash.add(press_.rate_per_s);
  hash.add(tip_wander_mm_.x);
  hash.add(tip_wander_mm_.y);
  hash.add(lean_wander_rad_.x);
  hash.add(lean_wander_rad_.y);
  for (const std::uint64_t word : rng_.state()) {
    hash.add(word);
  }
  hash.add(step_);
}

}  // namespace driftbench::drilling
