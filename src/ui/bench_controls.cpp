#include "ui/bench_controls.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr double kPressLowest_n = 4.0;
constexpr double kPressHighest_n = 30.0;

std::int32_t thousandths(double value) {
  return static_cast<std::int32_t>(std::lround(value * 1e3));
}

std::int32_t millionths(double value) {
  return static_cast<std::int32_t>(std::lround(value * 1e6));
}

struct Direction {
  double x = 0.0;
  double y = 0.0;
};

// What 'right' and 'away' in a picture mean in the site frame.
Direction in_site(double right, double away, Look look) {
  if (look == Look::kSide) {
    return {-away, right};
  }
  return {right, away};
}

}  // namespace

double press_of_level_n(int level) {
  DRIFTBENCH_EXPECTS(level >= 0 && level < kPressLevels);
  return kPressLowest_n + (kPressHighest_n - kPressLowest_n) * level / (kPressLevels - 1);
}

int level_of_press(double press_n) {
  const double level =
      (press_n - kPressLowest_n) / (kPressHighest_n - kPressLowest_n) * (kPressLevels - 1);
  return std::clamp(static_cast<int>(std::lround(level)), 0, kPressLevels - 1);
}

void BenchControls::start(const session::SessionView& view) {
  const double kept_gain = gain_;
  *this = BenchControls{};
  gain_ = kept_gain;
  x_mm_ = std::clamp(view.hand_tip_mm.x, -kHandReach_mm, kHandReach_mm);
  y_mm_ = std::clamp(view.hand_tip_mm.y, -kHandReach_mm, kHandReach_mm);
  if (view.step == 0) {
    // A fresh session has the hand at rest there; a resumed one may still press, so it is told.
    record::Command rest;
    rest.op = record::Op::kHand;
    rest.arguments = {thousandths(x_mm_), thousandths(y_mm_), 0, 0, 0};
    sent_ = rest;
  }
}

void BenchControls::set_gain(double factor) {
  gain_ = std::clamp(factor, 0.5, 2.0);
}

void BenchControls::move(double right, double away, Look look, double step) {
  const Direction d = in_site(right, away, look);
  x_mm_ = std::clamp(x_mm_ + step * d.x, -kHandReach_mm, kHandReach_mm);
  y_mm_ = std::clamp(y_mm_ + step * d.y, -kHandReach_mm, kHandReach_mm);
}

void BenchControls::lean(double right, double away, Look look, double step) {
  const Direction d = in_site(right, away, look);
  lean_x_rad_ = std::clamp(lean_x_rad_ + step * d.x, -kLeanReach_rad, kLeanReach_rad);
  lean_y_rad_ = std::clamp(lean_y_rad_ + step * d.y, -kLeanReach_rad, kLeanReach_rad);
}

void BenchControls::pointer(const PointerSample& sample, bool in_contact) {
  if (sample.look == Look::kNone) {
    pointer_pressing_ = false;
    armed_ = false;
    last_.reset();
    return;
  }

  // Motion counts only between two samples in the same picture, so entering never jumps.
  if (last_.has_value() && last_->look == sample.look) {
    const double right = sample.x_px - last_->x_px;
    const double away = last_->y_px - sample.y_px;
    if (sample.lean_button && !in_contact) {
      lean(right, away, sample.look, gain_ * kLeanGain_rad_per_px);
    } else {
      move(right, away, sample.look, gain_ * kHandGain_mm_per_px);
    }
  }
  last_ = sample;

  armed_ = armed_ || !sample.press_button;
  pointer_pressing_ = sample.press_button && armed_;
}

void BenchControls::keys(const KeyInput& input) {
  key_pressing_ = input.press;
  if (input.lean) {
    lean(input.right, input.away, Look::kFront, input.fine ? kKeyLeanFine_rad : kKeyLean_rad);
  } else {
    move(input.right, input.away, Look::kFront, input.fine ? kKeyStepFine_mm : kKeyStep_mm);
  }
}

void BenchControls::release() {
  pointer_pressing_ = false;
  key_pressing_ = false;
  armed_ = false;
  gauge_n_ = 0.0;
  last_.reset();
}

std::optional<record::Command> BenchControls::command(double press_level_n) {
  double press_n = 0.0;
  if (pointer_pressing_ || key_pressing_) {
    press_n = press_level_n;
  } else if (gauge_n_ > 0.0) {
    press_n = gauge_n_;
  }
  record::Command next;
  next.op = record::Op::kHand;
  next.arguments = {thousandths(x_mm_), thousandths(y_mm_), millionths(lean_x_rad_),
                    millionths(lean_y_rad_), thousandths(press_n)};
  if (sent_ == next) {
    return std::nullopt;
  }
  sent_ = next;
  return next;
}

}  // namespace driftbench::ui
