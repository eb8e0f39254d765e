// One millisecond of an attempt: motor, hand, guide, drill, samples, hashes.
#pragma once

#include "session/attempt_state.h"

namespace driftbench::session {

inline constexpr std::int64_t kStepsPerHash = 1000;

/// Advances the state by one step. Sets phase and status when the step cannot go on.
void step_once(const AttemptModel& model, AttemptState& state);

/// The load at this moment, as a sample.
[[nodiscard]] drilling::LoadSample sample_of(const AttemptState& state);

}  // namespace driftbench::session
