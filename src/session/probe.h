// A blunt probe: how deep the floor is, and which walls are there.
#pragma once

#include "session/attempt_state.h"

namespace driftbench::session {

/// Sounds the hole along the line of the deepest drill. Nothing drilled: floor 0, no walls.
[[nodiscard]] ProbeReading probed(const AttemptModel& model, const AttemptState& state);

}  // namespace driftbench::session
