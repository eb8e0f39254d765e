// What somebody who watches an attempt is told, and when: remarks worked out from its trace.
#pragma once

#include "session/session.h"

#include <cstdint>
#include <vector>

namespace driftbench::session {

enum class RemarkKind {
  kSeatsGuide,     ///< count: presses before the first drill; amount: widest gap at the end [mm]
  kTakesDrill,     ///< count: place in the sequence, from 1; amount: stop length, 0 without [mm];
                   ///< second: where the hole before stands beside the planned entry [mm]
  kTouches,        ///< amount: press then [N]; second: largest press of this drill [N]
  kTouchesAtRest,  ///< the same with the motor off
  kMeetsHarder,    ///< depth; amount, second: press before and after [N]
  kMeetsSofter,    ///< the same
  kSidePush,       ///< amount: force [N]; second: how far the drill went [mm]; direction
  kGuideCarries,   ///< the same, held by the sleeve
  kEasesOff,       ///< amount, second: press before and after [N]; depth: still to go [mm]
  kReachesDepth,   ///< amount: deepest shoulder minus plan [mm]; count: stretches of contact;
                   ///< second: their length [s]
  kStandsNow,      ///< amount, second: lean of the first and of this drill at depth [deg]
  kLeavesImplant,  ///< amount: last torque [N mm]; second: platform, + too deep [mm]
  kEnds            ///< the measures say the rest
};

/// One remark. What its numbers mean stands at its kind; they all come from the trace.
struct Remark {
  RemarkKind kind = RemarkKind::kEnds;
  std::int64_t step = 0;
  std::int32_t drill_index = -1;  ///< in the kit
  int count = 0;
  double amount = 0.0;
  double second = 0.0;
  double depth_mm = 0.0;
  double direction_md = 0.0;
  double direction_bl = 0.0;
};

/// Remarks on a finished attempt, in order of time: a few for the first drill, which decides, fewer
/// for those that follow it. A remark without its evidence is not made.
///
/// Source: own choice; thresholds stand beside each finder
[[nodiscard]] std::vector<Remark> comment(const Session& session);

}  // namespace driftbench::session
