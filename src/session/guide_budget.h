// How far a guide lets a hole go, split by what lets it: play, seat, making, support.
#pragma once

#include "lesson/attempt_setup.h"
#include "session/operator_profile.h"

#include <array>

namespace driftbench::session {

/// What lets the hole of a seated guide leave the plan.
enum class BudgetSource {
  kPlay,    ///< the drill in the key, the key in the sleeve; used up by the hand
  kSeat,    ///< a gap that was left under one side
  kMaking,  ///< scanning, printing, fitting
  kSupport  ///< the guide gives way under what the hand still pulls
};

inline constexpr std::size_t kBudgetSources = 4;

/// An error of the hole: lateral at the platform and at the floor, and the axis.
struct HoleError {
  double entry_mm = 0.0;
  double apex_mm = 0.0;
  double angle_deg = 0.0;
};

/// One source, as if it were alone.
struct BudgetLine {
  BudgetSource source = BudgetSource::kPlay;
  HoleError mean;
  HoleError limit;          ///< in one direction; spreads at three standard deviations
  double apex_share = 0.0;  ///< share of the squared error at the apex, 0..1
};

struct GuideBudget {
  std::array<BudgetLine, kBudgetSources> lines;
  HoleError mean;       ///< of all together
  HoleError within_95;  ///< 95 of 100 guides and hands stay below, each column on its own
  HoleError limit;      ///< every source at its limit in the same direction
};

/// Stack-up of the first guided drill of a set-up: 4,000 draws of hand, guide and seat.
///
/// The hand wants a place and a lean along the sleeve (the operator's spreads in a sleeve). Its
/// springs balance with the rings of sleeve and key, and the guide gives way to what is left, as if
/// nothing else held the drill: an upper bound, since the bone holds it too and the hand comes into
/// line. Virtual novices, who drill with the whole mechanics, come to half to three quarters of it
/// (`driftbench practise`, sleeve blocks of find-the-centre and tests/population/lessons/uniform:
/// 0.8 of 1.1 mm and 2.4 of 3.8 degrees; 0.8 of 1.2 mm and 2.2 of 4.5 degrees).
/// A seat gap is even between 0 and `gap_left_mm`, on any side.
///
/// Frame:    site frame; lateral across the planned axis
/// Contract: the guide's sleeve and the first planned drill are in the kit; gap_left_mm >= 0
/// Source:   rigid-body statics (MODEL eq. 1, 2, 8, 11), gap over span; spreads: guide and operator
[[nodiscard]] GuideBudget guide_budget(const lesson::AttemptSetup& setup,
                                       const OperatorProfile& hand, double gap_left_mm);

}  // namespace driftbench::session
