// A random two-word name under which attempts are kept; it says nothing about the person.
#pragma once

#include <cstdint>
#include <string>

namespace driftbench::app {

/// Two words, "amber heron". `random` picks them; every pair is possible.
[[nodiscard]] std::string code_name(std::uint64_t random);

}  // namespace driftbench::app
