// A part of a class: one device, one approach, early or late attempts, simulated or real.
#pragma once

#include "classroom/roster.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// Which attempts of a learner by one approach, in the order of their periods. Of an odd number the
/// middle one is early.
enum class Window : std::uint8_t { kAll, kEarly, kLate };

struct Filters {
  std::optional<Source> source;
  std::optional<stats::Approach> approach;
  std::string device;  ///< empty: every device
  Window window = Window::kAll;

  friend bool operator==(const Filters&, const Filters&) = default;
};

/// What the filters leave of a roster; refusals and notes stay.
[[nodiscard]] Roster filtered(const Roster& roster, const Filters& filters);

/// The devices that records name, in alphabetical order.
[[nodiscard]] std::vector<std::string> devices_of(const Roster& roster);

}  // namespace driftbench::classroom
