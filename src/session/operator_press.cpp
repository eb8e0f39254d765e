#include "session/operator_press.h"

#include "math/angle.h"
#include "math/elementary.h"
#include "session/operator_hands.h"
#include "volume/sample.h"

#include <algorithm>
#include <cmath>

namespace driftbench::session {
namespace {

// Own assumptions.
constexpr double kStall_mm_per_s = 0.05;         // slower than this is no progress
constexpr std::int64_t kPatience_steps = 8'000;  // then the operator presses harder
constexpr double kHarder = 1.25;
constexpr double kHardest_n = 40.0;
constexpr double kCareful_mm = 2.0;    // before the wanted depth the drill is let in more slowly
constexpr double kCareful_frac = 0.3;  // down to this share of the usual advance
constexpr double kSlid_mm = 1.0;       // a tip this far from where it was set down is seen to slide
constexpr double kBeside_mm = 0.4;     // so far beside the drill the eye looks for material
constexpr int kSides = 8;              // all round it
constexpr int kOpenSides = 3;          // so many of them open: the point has not bitten
constexpr double kBite_mm = 1.0;       // a drill this deep no longer slides off
constexpr double kLight_frac = 0.5;    // press of a new start, share of the usual one

/// Whether the point stands in material nearly all round.
bool has_bitten(const SessionView& view, double radius_mm) {
  int open = 0;
  for (int side = 0; side < kSides; ++side) {
    const math::SinCos turn = math::sincos(2.0 * math::kPi * side / kSides);
    const math::Vec3 beside =
        view.pose.tip_mm + (radius_mm + kBeside_mm) * math::Vec3(turn.cos, turn.sin, 0.0);
    open += volume::coverage_at(*view.volume, beside) < 0.5 ? 1 : 0;
  }
  return open < kOpenSides;
}

}  // namespace

void OperatorPress::begin(const OperatorProfile& profile, const PressTask& task, double depth_mm) {
  task_ = task;
  easy_feed_mm_per_s_ = profile.easy_feed_mm_per_s;
  reaction_s_ = profile.reaction_s;
  seen_depth_mm_ = depth_mm;
  without_progress_ = 0;
  set_down_.reset();
  now_n_ = most_n(depth_mm);
}

Seen OperatorPress::look(const SessionView& view) {
  // What an eye sees is the way gone between two looks: a wedged drill shivers and goes nowhere.
  const double feed_mm_per_s = (view.shoulder_depth_mm - seen_depth_mm_) / kLook_s;
  seen_depth_mm_ = view.shoulder_depth_mm;
  if (!set_down_ && view.load.in_contact) {
    set_down_ = SetDown{{view.pose.tip_mm.x, view.pose.tip_mm.y}, view.shoulder_depth_mm};
  }
  if (task_.is_guided ? view.at_stop && feed_mm_per_s < kStall_mm_per_s
                      : view.shoulder_depth_mm >= task_.wanted_mm) {
    return Seen::kArrived;
  }
  if (task_.is_start && has_slid(view)) {
    return Seen::kSlid;
  }
  now_n_ = eased_n(view.shoulder_depth_mm, feed_mm_per_s);
  without_progress_ = feed_mm_per_s < kStall_mm_per_s ? without_progress_ + kLook_steps : 0;
  if (without_progress_ > kPatience_steps) {
    if (task_.is_guided && !view.load.in_contact) {
      return Seen::kCaught;
    }
    task_.usual_n = std::min(kHardest_n, kHarder * task_.usual_n);
    without_progress_ = 0;
  }
  return Seen::kGoingOn;
}

bool OperatorPress::has_slid(const SessionView& view) const {
  if (!set_down_ || !view.load.in_contact) {
    return false;
  }
  const math::Vec2 at(view.pose.tip_mm.x, view.pose.tip_mm.y);
  return math::length(at - set_down_->tip_mm) > kSlid_mm &&
         !has_bitten(view, 0.5 * task_.diameter_mm);
}

double OperatorPress::most_n(double depth_mm) const {
  const bool is_biting = set_down_ && depth_mm - set_down_->depth_mm >= kBite_mm;
  return task_.is_light && !is_biting ? std::max(kLeastPress_n, kLight_frac * task_.usual_n)
                                      : task_.usual_n;
}

double OperatorPress::eased_n(double depth_mm, double feed_mm_per_s) const {
  const double easy_mm_per_s =
      easy_feed_mm_per_s_ *
      std::clamp((task_.wanted_mm - depth_mm) / kCareful_mm, kCareful_frac, 1.0);
  const double wanted_n =
      std::clamp(now_n_ * easy_mm_per_s / std::max(feed_mm_per_s, kStall_mm_per_s), kLeastPress_n,
                 most_n(depth_mm));
  const double share = kLook_s / std::max(kLook_s, reaction_s_);
  return now_n_ + share * (wanted_n - now_n_);
}

}  // namespace driftbench::session
