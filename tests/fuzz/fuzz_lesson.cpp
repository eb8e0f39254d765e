// libFuzzer: any bytes as a lesson. What is taken must be written, read and written to the same
// bytes, must have sentences for all its problems, and can be worked through.
#include "lesson/lesson.h"
#include "lesson/sequence.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

using driftbench::lesson::Lesson;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

/// A few attempts, all good: no history may upset the engine, whatever the lesson says.
void work_through(const Lesson& lesson) {
  constexpr std::size_t kMost = 24;
  std::vector<driftbench::lesson::PastAttempt> history;
  while (history.size() < kMost) {
    const auto progress = driftbench::lesson::lesson_progress(lesson, lesson.seed, history);
    if (!progress.next.has_value()) {
      return;
    }
    const auto& block = lesson.blocks.at(progress.next->block_index);
    history.push_back({lesson.id,
                       block.id,
                       block.approach,
                       progress.next->attempt_index,
                       0.0,
                       driftbench::lesson::AttemptErrors{},
                       {},
                       true});
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto outcome = driftbench::lesson::read_lesson(text, "fuzz");
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
  const std::string written = driftbench::lesson::write_lesson(*outcome.value);
  const auto again = driftbench::lesson::read_lesson(written, "written");
  if (!again.value.has_value() || driftbench::lesson::write_lesson(*again.value) != written) {
    __builtin_trap();
  }
  work_through(*outcome.value);
  return 0;
}
