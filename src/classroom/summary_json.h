// class-summary.json: the class without any individual, for comparing an own result with it.
#pragma once

#include "classroom/compile.h"

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace driftbench::classroom {

inline constexpr std::string_view kSummaryFormat = "driftbench-class";
inline constexpr int kSummaryVersion = 1;

/// The document (schema: lessons/schema/class-summary.schema.json). What does not exist is null,
/// with its reason beside it.
[[nodiscard]] std::string summary_json(const Class& whole);

/// How many attempts stand how; for the summary, the report and the command line.
struct Counts {
  std::size_t attempts = 0;
  std::array<std::size_t, kStandingNames.size()> by_standing{};
  std::size_t other_lesson = 0;

  [[nodiscard]] std::size_t of(Standing standing) const {
    return by_standing[static_cast<std::size_t>(standing)];
  }
};

[[nodiscard]] Counts counts_of(const Roster& roster);

}  // namespace driftbench::classroom
