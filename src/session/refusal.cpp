#include "session/refusal.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::session {

base::Result<void> refuse(std::string sentence) {
  return base::fail(base::ErrorCode::kInvalidArgument, std::move(sentence));
}

base::Result<void> within(const char* what, std::int32_t found, std::int32_t low,
                          std::int32_t high) {
  if (found >= low && found <= high) {
    return {};
  }
  return base::fail(base::ErrorCode::kOutOfRange,
                    fmt::format("{} is {}, expected {} to {}", what, found, low, high));
}

}  // namespace driftbench::session
