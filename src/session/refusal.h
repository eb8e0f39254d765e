// How a command is refused: with one sentence, or with the range that its number leaves.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <string>

namespace driftbench::session {

/// kInvalidArgument with a sentence that says what to do instead.
[[nodiscard]] base::Result<void> refuse(std::string sentence);

/// Errors: kOutOfRange, naming value and range
[[nodiscard]] base::Result<void> within(const char* what, std::int32_t found, std::int32_t low,
                                        std::int32_t high);

}  // namespace driftbench::session
