#include "app/picture_scale.h"

#include <algorithm>

namespace driftbench::app {
namespace {

constexpr int kRound = 12;            // frames judged together
constexpr double kTooSlow_s = 0.040;  // below 25 frames a second the hand feels it
constexpr double kFastEnough_s = 0.022;
constexpr int kLongestWait_rounds = 40;

}  // namespace

void PictureScale::frame(double interval_s) {
  mean_s_ = frames_ == 0 ? interval_s : mean_s_ + (interval_s - mean_s_) / (frames_ + 1);
  if (++frames_ < kRound) {
    return;
  }
  frames_ = 0;
  if (mean_s_ > kTooSlow_s) {
    // A step up that turned out too slow is tried again ever more rarely.
    if (good_rounds_ == 0) {
      rounds_to_wait_ = std::min(2 * rounds_to_wait_, kLongestWait_rounds);
    }
    scale_ = std::max(kLowest, scale_ * 0.8);
    good_rounds_ = 0;
  } else if (mean_s_ < kFastEnough_s && scale_ < kHighest) {
    if (++good_rounds_ >= rounds_to_wait_) {
      scale_ = std::min(kHighest, scale_ * 1.15);
      good_rounds_ = 0;
    }
  }
}

}  // namespace driftbench::app
