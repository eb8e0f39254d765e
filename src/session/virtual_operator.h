// An invented operator who works through an attempt: aims with an error, tilts, presses, follows.
#pragma once

#include "record/attempt.h"
#include "session/operator_profile.h"

#include <cstdint>

namespace driftbench::session {

/// Works through one attempt and returns its record: estimate absent, the operator's name, an id
/// from seed, approach and length; who keeps several gives them names and ids of their own.
///
/// `seed` draws what is new in this attempt; what belongs to the person is drawn from the lesson's
/// seed and `turn.learner`, the same in every approach.
/// Errors: as Session::create(); kUnsupported when the attempt does not end within 10 minutes of
///         simulated time
[[nodiscard]] base::Result<record::Attempt> practise_attempt(const lesson::AttemptSetup& setup,
                                                             const OperatorProfile& profile,
                                                             std::uint64_t seed,
                                                             const Turn& turn = {});

}  // namespace driftbench::session
