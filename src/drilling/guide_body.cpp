#include "drilling/guide_body.h"

#include "drilling/balance.h"
#include "drilling/params.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "math/random_normal.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

constexpr double kLiftForce_n = 2.0;            // opens a foot's fit; own assumption
constexpr double kSeatDamping_ns_per_mm = 8.0;  // of the fit while it slides; own assumption
constexpr double kLargestGap_mm = 3.0;
constexpr double kLeastStartGap_frac = 0.25;  // of the largest start gap
constexpr double kJogGap_frac = 0.4;          // of the largest start gap; own assumption
constexpr double kJogChance = 0.5;            // own assumption
constexpr std::uint64_t kMakingStream = 7;
constexpr double kMadeLimit_sd = 3.0;
constexpr double kYieldTime_s = 0.02;     // in which the support follows its load; own assumption
constexpr double kContactLever_mm = 6.0;  // of the contact above the sleeve's lower edge; numerical
constexpr double kLargestYield_mm = 5.0;  // beyond this the guide has come off; numerical
constexpr double kLargestYield_rad = 0.3;  // the same

}  // namespace

GuideBody::GuideBody(const specimen::Guide& guide, std::uint64_t seed) : guide_(guide), rng_(seed) {
  base::Rng making(base::split(seed, kMakingStream, 0));
  const auto draw = [&](double sd) {
    return math::normal_truncated(making, 0.0, sd, kMadeLimit_sd);
  };
  const double lean_sd = math::Radians(math::Degrees(guide.fit_tilt_sd_deg)).value;
  made_off_mm_.x = draw(guide.fit_sd_mm);
  made_off_mm_.y = draw(guide.fit_sd_mm);
  made_off_mm_.z = draw(guide.fit_sd_mm);
  made_lean_.x = draw(lean_sd);
  made_lean_.y = draw(lean_sd);
}

math::Vec2 GuideBody::foot_mm(std::size_t k) const {
  const double half = 0.5 * guide_.foot_span_mm;
  return {k == 0 || k == 3 ? half : -half, k < 2 ? half : -half};
}

void GuideBody::tilt_by(double gap_mm, double heading_rad) {
  const math::SinCos at = math::sincos(heading_rad);
  const double reach_mm = 0.5 * guide_.foot_span_mm * (std::fabs(at.cos) + std::fabs(at.sin));
  for (std::size_t k = 0; k < kFeet; ++k) {
    const math::Vec2 foot = foot_mm(k);
    const double along_mm = foot.x * at.cos + foot.y * at.sin;
    gap_mm_[k] += 0.5 * gap_mm * (1.0 + along_mm / reach_mm);
  }
  make_rigid();
}

void GuideBody::place() {
  is_placed_ = true;
  gap_mm_ = {};
  const double gap_mm = guide_.start_gap_max_mm * rng_.uniform(kLeastStartGap_frac, 1.0);
  const double heading_rad = rng_.uniform(0.0, 2.0 * math::kPi);
  tilt_by(gap_mm, heading_rad);
}

void GuideBody::remove() {
  is_placed_ = false;
  gap_mm_ = {};
  yield_mm_ = math::Vec2(0.0);
  yield_lean_rad_ = math::Vec2(0.0);
}

void GuideBody::jog() {
  if (!is_placed_) {
    return;
  }
  const double chance = rng_.uniform01();
  const double gap_mm = guide_.start_gap_max_mm * kJogGap_frac * rng_.uniform01();
  const double heading_rad = rng_.uniform(0.0, 2.0 * math::kPi);
  if (chance < kJogChance) {
    tilt_by(gap_mm, heading_rad);
  }
}

void GuideBody::advance(const GuideLoad& load) {
  if (!is_placed_) {
    return;
  }
  seat(load);
  give_way(load);
}

/// Opens and closes the feet.
void GuideBody::seat(const GuideLoad& load) {
  const double half_mm = 0.5 * guide_.foot_span_mm;
  const double span2 = guide_.foot_span_mm * guide_.foot_span_mm;
  const double hold_n = load.held ? kHoldForce_n : 0.0;
  const double middle_n = hold_n - load.drill_force_n.z;
  for (std::size_t k = 0; k < kFeet; ++k) {
    const math::Vec2 foot = foot_mm(k);
    // The finger's share falls linearly to nothing at the other feet; beyond them it turns
    // negative.
    const double finger_frac = 0.25 * (1.0 + load.finger_at_mm.x * foot.x / (half_mm * half_mm)) *
                               (1.0 + load.finger_at_mm.y * foot.y / (half_mm * half_mm));
    const double load_n =
        finger_frac * load.finger_n + 0.25 * middle_n +
        (load.drill_moment_nmm.y * foot.x - load.drill_moment_nmm.x * foot.y) / span2;
    double rate_mm_per_s = 0.0;
    if (load_n > guide_.seat_force_n) {
      rate_mm_per_s = -(load_n - guide_.seat_force_n) / kSeatDamping_ns_per_mm;
    } else if (load_n < -kLiftForce_n) {
      rate_mm_per_s = -(load_n + kLiftForce_n) / kSeatDamping_ns_per_mm;
    }
    gap_mm_[k] = std::clamp(gap_mm_[k] + kStep_s * rate_mm_per_s, 0.0, kLargestGap_mm);
  }
  make_rigid();
}

/// Elastic shift and rocking of the guide on its support (MODEL eq. 11), implicit over the step
/// with the stiffness of the contact in the sleeve, so that a stiff drill on a soft support is
/// stable.
void GuideBody::give_way(const GuideLoad& load) {
  const double shift_n_per_mm = guide_.support_stiffness_n_per_mm;
  const double shift_sum =
      shift_n_per_mm * (1.0 + kYieldTime_s / kStep_s) + kSleeveStiffness_n_per_mm;
  const double rock_nmm_per_rad =
      guide_.foot_stiffness_n_per_mm * guide_.foot_span_mm * guide_.foot_span_mm;
  const double lever_mm = guide_.gap_mm + kContactLever_mm;
  const double rock_sum = rock_nmm_per_rad * (1.0 + kYieldTime_s / kStep_s) +
                          2.0 * kSleeveStiffness_n_per_mm * lever_mm * lever_mm;
  const math::Vec2 force_n(load.drill_force_n.x, load.drill_force_n.y);
  const math::Vec2 lean_nmm(load.drill_moment_nmm.y, -load.drill_moment_nmm.x);
  yield_mm_ += (force_n - shift_n_per_mm * yield_mm_) / shift_sum;
  yield_lean_rad_ += (lean_nmm - rock_nmm_per_rad * yield_lean_rad_) / rock_sum;
  for (int i = 0; i < 2; ++i) {
    yield_mm_[i] = std::clamp(yield_mm_[i], -kLargestYield_mm, kLargestYield_mm);
    yield_lean_rad_[i] = std::clamp(yield_lean_rad_[i], -kLargestYield_rad, kLargestYield_rad);
  }
}

/// The feet stay in one plane: opposite corners have equal sums. The surplus is shared out.
void GuideBody::make_rigid() {
  const double twist = 0.25 * (gap_mm_[0] - gap_mm_[1] + gap_mm_[2] - gap_mm_[3]);
  gap_mm_[0] = std::max(0.0, gap_mm_[0] - twist);
  gap_mm_[1] = std::max(0.0, gap_mm_[1] + twist);
  gap_mm_[2] = std::max(0.0, gap_mm_[2] - twist);
  gap_mm_[3] = std::max(0.0, gap_mm_[3] + twist);
}

double GuideBody::largest_gap_mm() const {
  return *std::max_element(gap_mm_.begin(), gap_mm_.end());
}

DrillPose GuideBody::sleeve() const {
  const double span_mm = guide_.foot_span_mm;
  const double lift_mm = 0.25 * (gap_mm_[0] + gap_mm_[1] + gap_mm_[2] + gap_mm_[3]);
  const double slope_x = 0.5 * (gap_mm_[0] + gap_mm_[3] - gap_mm_[1] - gap_mm_[2]) / span_mm;
  const double slope_y = 0.5 * (gap_mm_[0] + gap_mm_[1] - gap_mm_[2] - gap_mm_[3]) / span_mm;
  DrillPose pose;
  const math::Vec2 lean = made_lean_ + yield_lean_rad_ - math::Vec2(slope_x, slope_y);
  const math::Vec3 foot = made_off_mm_ + math::Vec3(yield_mm_.x, yield_mm_.y, lift_mm);
  pose.axis_out_unit = math::unit(math::Vec3(lean.x, lean.y, 1.0));
  pose.tip_mm = foot + guide_.gap_mm * pose.axis_out_unit;
  return pose;
}

void GuideBody::add_to(base::Hash64& hash) const {
  hash.add(is_placed_ ? 1 : 0);
  for (const double gap : gap_mm_) {
    hash.add(gap);
  }
  for (const double value : {yield_mm_.x, yield_mm_.y, yield_lean_rad_.x, yield_lean_rad_.y}) {
    hash.add(value);
  }
  for (const std::uint64_t word : rng_.state()) {
    hash.add(word);
  }
}

}  // namespace driftbench::drilling
