#include "session/operator_aim.h"

#include "math/angle.h"
#include "math/random_normal.h"

namespace driftbench::session {
namespace {

constexpr double kSpread_sd = 3.0;  // draws beyond three SD are made again

}  // namespace

double draw_within(base::Rng& rng, double mean, double sd) {
  return math::normal_truncated(rng, mean, sd, kSpread_sd);
}

math::Vec2 draw_pair(base::Rng& rng, double sd) {
  // The order is stated: compilers may order arguments of a call as they like.
  const double first = draw_within(rng, 0.0, sd);
  const double second = draw_within(rng, 0.0, sd);
  return {first, second};
}

OperatorAim draw_aim(const OperatorProfile& profile, const specimen::Plan& plan,
                     const ErrorShares& shares, base::Rng& person, base::Rng& now) {
  const math::Vec2 own_aim_mm = draw_pair(person, profile.aim_person_sd_mm);
  const math::Vec2 own_lean_deg = draw_pair(person, profile.lean_person_sd_deg);
  const math::Vec2 new_aim_mm = draw_pair(now, profile.aim_sd_mm);
  const math::Vec2 new_lean_deg = draw_pair(now, profile.lean_sd_deg);
  const math::Vec2 shared_aim_mm(profile.aim_bias_md_mm, profile.aim_bias_bl_mm);
  const math::Vec2 shared_lean_deg(profile.lean_bias_md_deg, profile.lean_bias_bl_deg);

  const math::Vec2 off_mm = shares.place * (shared_aim_mm + own_aim_mm + new_aim_mm);
  const math::Vec2 lean_deg = shares.lean * (shared_lean_deg + own_lean_deg + new_lean_deg);
  const double rad_per_deg = math::Radians(math::Degrees(1.0)).value;
  const math::Vec2 to_apex = rad_per_deg * lean_deg - (profile.pivot_frac / plan.depth_mm) * off_mm;

  const math::Vec3 at = plan.entry_mm + off_mm.x * plan.md_hint + off_mm.y * plan.bl_hint;
  // A lean is where the apex goes; the axis out of the bone goes the other way.
  const math::Vec3 apex = to_apex.x * plan.md_hint + to_apex.y * plan.bl_hint;
  return {{at.x, at.y}, {-apex.x, -apex.y}};
}

}  // namespace driftbench::session
