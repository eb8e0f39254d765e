// The direction pin: a straight pin in the hole that shows where the hole points.
#pragma once

#include "session/attempt_state.h"

namespace driftbench::session {

/// A pin needs this much hole to stand in; own assumption.
inline constexpr double kPinNeeds_mm = 3.0;

/// Puts the pin into the hole, or takes it out. Whatever goes on with the work takes it out too.
///
/// Errors: kInvalidArgument while a drill is in the hole, a guide or an implant is in its way, or
///         the hole is too shallow
[[nodiscard]] base::Result<void> stand_pin(bool is_in, const AttemptModel& model,
                                           AttemptState& state);

}  // namespace driftbench::session
