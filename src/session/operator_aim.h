// Where an operator believes the site is, and how upright the drill feels to them.
#pragma once

#include "base/random.h"
#include "math/vec.h"
#include "session/operator_profile.h"
#include "specimen/plan.h"

namespace driftbench::session {

/// Aim of a first drill set down free-hand.
struct OperatorAim {
  math::Vec2 tip_mm{0.0};    ///< on the platform plane, site frame
  math::Vec2 lean_rad{0.0};  ///< of the axis out of the bone toward +x and +y
};

/// Shares of the untrained errors that are left, 0..1.
struct ErrorShares {
  double place = 1.0;
  double lean = 1.0;
};

/// Draws limited to three standard deviations.
[[nodiscard]] double draw_within(base::Rng& rng, double mean, double sd);

/// Two such draws around 0.
[[nodiscard]] math::Vec2 draw_pair(base::Rng& rng, double sd);

/// The aim of one try: what all share, what is this person's own, what is new this time; smaller
/// with practice. The lean takes back `pivot_frac` of the entry's error at the apex.
///
/// `person` draws what belongs to the person, `now` what is new.
[[nodiscard]] OperatorAim draw_aim(const OperatorProfile& profile, const specimen::Plan& plan,
                                   const ErrorShares& shares, base::Rng& person, base::Rng& now);

}  // namespace driftbench::session
