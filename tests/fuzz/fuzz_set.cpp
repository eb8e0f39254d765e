// libFuzzer: any bytes as a set. What is taken must be written, read and written to the same bytes.
#include "lesson/lesson_set.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto outcome = driftbench::lesson::read_set(text, "fuzz");
  for (const auto& problem : outcome.problems) {
    if (problem.sentence("fuzz").empty()) {
      __builtin_trap();
    }
  }
  if (!outcome.value.has_value()) {
    if (outcome.first_error().empty()) {
      __builtin_trap();  // refused without a reason
    }
    return 0;
  }
  const std::string written = driftbench::lesson::write_set(*outcome.value);
  const auto again = driftbench::lesson::read_set(written, "written");
  if (!again.value.has_value() || driftbench::lesson::write_set(*again.value) != written) {
    __builtin_trap();
  }
  return 0;
}
