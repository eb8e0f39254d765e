#include "ui/bench_controls.h"

#include "base/contract.h"
#include "math/angle.h"

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
  BenchControls fresh;
  fresh.gain_ = gain_;
  fresh.headings_ = headings_;
  fresh.pen_sensor_ = pen_sensor_;
  *this = fresh;
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

// Right and away of the site frame for what is right and away in a picture.
Motion BenchControls::in_site(const Motion& seen, Look look) const {
  const double heading_deg = look == Look::kSide ? headings_.side_deg : headings_.front_deg;
  const double heading_rad = math::to_radians(math::Degrees(heading_deg)).value;
  const double cosine = std::cos(heading_rad);
  const double sine = std::sin(heading_rad);
  return {cosine * seen.right - sine * seen.away, sine * seen.right + cosine * seen.away};
}

void BenchControls::move(const Motion& seen, Look look, double step) {
  const Motion site = in_site(seen, look);
  x_mm_ = std::clamp(x_mm_ + step * site.right, -kHandReach_mm, kHandReach_mm);
  y_mm_ = std::clamp(y_mm_ + step * site.away, -kHandReach_mm, kHandReach_mm);
}

void BenchControls::lean(const Motion& seen, Look look, double step) {
  const Motion site = in_site(seen, look);
  lean_x_rad_ = std::clamp(lean_x_rad_ + step * site.right, -kLeanReach_rad, kLeanReach_rad);
  lean_y_rad_ = std::clamp(lean_y_rad_ + step * site.away, -kLeanReach_rad, kLeanReach_rad);
}

void BenchControls::drag(const Motion& px, Look look, bool leans, bool in_contact) {
  if (leans && !in_contact) {
    lean(px, look, gain_ * kLeanGain_rad_per_px);
  } else {
    move(px, look, gain_ * kHandGain_mm_per_px);
  }
}

// The tilt at which the pen came down is its neutral, so every grip will do.
void BenchControls::pen(const PenReading& now, Look look) {
  pen_sensor_.see(now.pressure);
  if (!pen_neutral_.has_value()) {
    pen_neutral_ = now;
    pen_lean_rad_ = {};
  }
  const Motion wanted{pen_lean_rad(now.tilt_x_deg - pen_neutral_->tilt_x_deg),
                      pen_lean_rad(pen_neutral_->tilt_y_deg - now.tilt_y_deg)};
  lean({wanted.right - pen_lean_rad_.right, wanted.away - pen_lean_rad_.away}, look, 1.0);
  pen_lean_rad_ = wanted;
  pen_n_.reset();
  if (pen_sensor_.has_pressure()) {
    pen_n_ = pen_press_n(now.pressure);
  }
}

void BenchControls::let_go_of_pointer() {
  pointer_pressing_ = false;
  pen_n_.reset();
  pen_neutral_.reset();
}

void BenchControls::pointer(const PointerSample& sample, bool in_contact) {
  if (sample.look == Look::kNone) {
    let_go_of_pointer();
    has_hold_ = false;
    armed_ = false;
    last_.reset();
    return;
  }

  // Motion counts only between two samples in the same picture, so entering never jumps; nor does
  // the way from the picture's edge to the drill.
  const bool had_hold = has_hold_ && last_.has_value() && last_->look == sample.look;
  has_hold_ =
      had_hold || sample.at_drill || in_contact || sample.press_button || sample.lean_button;
  if (had_hold) {
    drag({sample.x_px - last_->x_px, last_->y_px - sample.y_px}, sample.look, sample.lean_button,
         in_contact);
  }
  last_ = sample;

  armed_ = armed_ || !sample.press_button || sample.began;
  if (!sample.press_button || !armed_) {
    let_go_of_pointer();
    return;
  }
  pointer_pressing_ = true;
  if (sample.pen.has_value()) {
    pen(*sample.pen, sample.look);
  }
}

void BenchControls::keys(const KeyInput& input) {
  key_pressing_ = input.press;
  const Motion seen{static_cast<double>(input.right), static_cast<double>(input.away)};
  if (input.lean) {
    lean(seen, Look::kFront, input.fine ? kKeyLeanFine_rad : kKeyLean_rad);
  } else {
    move(seen, Look::kFront, input.fine ? kKeyStepFine_mm : kKeyStep_mm);
  }
}

void BenchControls::pad(const PadInput& input) {
  move(input.move_s, Look::kFront, gain_ * kPadMove_mm_per_s);
  lean(input.lean_s, Look::kFront, gain_ * kPadLean_rad_per_s);
  pad_n_ = kPadHardest_n * std::clamp(input.trigger, 0.0, 1.0);
}

void BenchControls::release() {
  let_go_of_pointer();
  key_pressing_ = false;
  armed_ = false;
  gauge_n_ = pad_n_ = 0.0;
  has_hold_ = false;
  last_.reset();
}

double BenchControls::press_of(double press_level_n) const {
  if (key_pressing_ || (pointer_pressing_ && !pen_n_.has_value())) {
    return press_level_n;
  }
  if (pointer_pressing_) {
    return *pen_n_;
  }
  return gauge_n_ > 0.0 ? gauge_n_ : pad_n_;
}

std::optional<record::Command> BenchControls::command(double press_level_n) {
  const double press_n = press_of(press_level_n);
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
