// What the learner should do next, from the state alone.
#pragma once

#include "session/attempt_state.h"

namespace driftbench::session {

/// The next sensible action. A gap that a window would show counts as unseated.
[[nodiscard]] Hint next_hint(const AttemptModel& model, const AttemptState& state);

}  // namespace driftbench::session
