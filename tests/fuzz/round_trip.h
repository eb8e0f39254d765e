// What every reader of files must hold to, whatever bytes it is given.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace driftbench::fuzz {

/// Reads the bytes. Every problem must have its sentence, a refusal its reason, and what is taken
/// must be written, read and written to the same bytes. Gives the outcome; traps where this fails.
template <class Read, class Write>
auto read_and_write(const std::uint8_t* data, std::size_t size, Read read, Write write) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  auto outcome = read(text, "fuzz");
  for (const auto& problem : outcome.problems) {
    if (problem.sentence("fuzz").empty()) {
      __builtin_trap();
    }
  }
  if (!outcome.value.has_value()) {
    if (outcome.first_error().empty()) {
      __builtin_trap();  // refused without a reason
    }
    return outcome;
  }
  const std::string written = write(*outcome.value);
  const auto again = read(written, "written");
  if (!again.value.has_value() || write(*again.value) != written) {
    __builtin_trap();
  }
  return outcome;
}

}  // namespace driftbench::fuzz
