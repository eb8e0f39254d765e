#include "session/pacing.h"

#include "drilling/params.h"

#include <algorithm>

namespace driftbench::session {

std::int64_t Pacing::steps_due(double elapsed_s) {
  constexpr double kLongest_s = static_cast<double>(kMaxStepsPerFrame) * drilling::kStep_s;
  if (!(elapsed_s > 0.0)) {
    return 0;
  }
  const double wanted_s = remainder_s_ + elapsed_s;
  const double given_s = std::min(wanted_s, kLongest_s);
  const auto steps = static_cast<std::int64_t>(given_s / drilling::kStep_s);
  // A frame longer than the cap slows time down; what is over is dropped, not saved up.
  remainder_s_ =
      wanted_s > kLongest_s ? 0.0 : given_s - static_cast<double>(steps) * drilling::kStep_s;
  speed_ = std::min(1.0, given_s / wanted_s);
  return steps;
}

}  // namespace driftbench::session
