// What an attempt in a jaw came near to or touched, in sentences.
#pragma once

#include "lesson/attempt_setup.h"
#include "scoring/results.h"

#include <string>
#include <vector>

namespace driftbench::ui {

/// Critical events with their time, then the structure that was left the least of its margin, and
/// what a larger error would have touched. Nothing in a block.
[[nodiscard]] std::vector<std::string> jaw_findings(const lesson::AttemptSetup& setup,
                                                    const scoring::Results& results);

/// Whether a reason is one of those events, so that it is not said twice.
[[nodiscard]] bool is_jaw_event(const scoring::Reason& reason);

}  // namespace driftbench::ui
