// The shipped lesson, kit and operator, resolved for tests.
#pragma once

#include "support/read_file.h"

#include "lesson/lesson.h"
#include "session/virtual_operator.h"

#include <cstdint>

namespace driftbench::support {

inline const lesson::Lesson& shipped_lesson() {
  static const lesson::Lesson lesson =
      *lesson::read_lesson(read_file("lessons/find-the-centre.lesson.json"),
                           "find-the-centre.lesson.json")
           .value;
  return lesson;
}

inline const specimen::Kit& shipped_kit() {
  static const specimen::Kit kit =
      *lesson::read_kit(read_file("assets/kits/bench.kit.json"), "bench.kit.json").value;
  return kit;
}

inline const session::OperatorProfile& novice() {
  static const session::OperatorProfile profile =
      *session::read_operator(read_file("assets/operators/novice.json"), "novice.json").value;
  return profile;
}

/// Block 0 of the shipped lesson is free-hand, block 1 through the sleeve.
inline lesson::AttemptSetup shipped_setup(std::size_t block, std::uint64_t attempt = 0,
                                          std::uint64_t seed = 42) {
  return *lesson::resolve(shipped_lesson(), shipped_kit(), block, attempt, seed);
}

}  // namespace driftbench::support
