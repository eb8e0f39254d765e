// Takes one command into the state, or says why it cannot be taken.
#pragma once

#include "base/result.h"
#include "record/trace.h"
#include "session/attempt_state.h"

namespace driftbench::session {

/// Applies a command; refused commands change nothing.
///
/// Errors: kOutOfRange for a value or index that does not exist, kInvalidArgument for an action
/// that
///         the situation does not allow (each one sentence that says what to do instead)
base::Result<void> apply(const record::Command& command, const AttemptModel& model,
                         AttemptState& state);

}  // namespace driftbench::session
