// The implant on the driver: taking and leaving it, turning it in, the motor's limit.
#pragma once

#include "base/result.h"
#include "session/attempt_state.h"
#include "session/view.h"

namespace driftbench::session {

/// The kit's implant on the driver; null when there is none.
[[nodiscard]] const specimen::Implant* implant_in_hand(const AttemptModel& model,
                                                       const AttemptState& state);

/// Depth of the platform of the implant in hand or in place below the planned one, along the plan.
[[nodiscard]] double platform_depth_mm(const AttemptModel& model, const AttemptState& state);

/// Whether the thread of the implant in hand is in the wall.
[[nodiscard]] bool has_bitten(const AttemptState& state);

/// Puts an implant of the kit on the driver, above the site; or the driver on the one that sits.
///
/// Errors: kOutOfRange for an index that does not exist; kInvalidArgument with one sentence when
///         the situation does not allow it
base::Result<void> take_implant(std::int32_t index, const AttemptModel& model, AttemptState& state);

/// Takes the driver off; the implant stays where it sits.
///
/// Errors: kInvalidArgument when nothing holds it
base::Result<void> release_implant(AttemptState& state);

/// One step of the implant in hand; `state.output` then holds what it felt. A torque above the
/// motor's limit stops the motor.
void advance_implant(const AttemptModel& model, const drilling::HandTarget& hand, double feed_n,
                     double grip_height_mm, AttemptState& state);

/// What an implant asks for next; nothing when it asks for nothing.
[[nodiscard]] std::optional<Hint> implant_hint(const AttemptModel& model,
                                               const AttemptState& state);

/// The implant as the outside may see it.
[[nodiscard]] ImplantView implant_view(const AttemptModel& model, const AttemptState& state);

}  // namespace driftbench::session
