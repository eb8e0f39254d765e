// libFuzzer: any bytes as a lesson. What is taken must be written, read and written to the same
// bytes, must have sentences for all its problems, and can be worked through.
#include "round_trip.h"

#include "lesson/lesson.h"
#include "lesson/sequence.h"

#include <cstddef>
#include <cstdint>
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
  const auto outcome = driftbench::fuzz::read_and_write(data, size, driftbench::lesson::read_lesson,
                                                        driftbench::lesson::write_lesson);
  if (outcome.value.has_value()) {
    work_through(*outcome.value);
  }
  return 0;
}
