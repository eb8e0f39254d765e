// Small lessons and made-up attempts for the tests of the sequencing engine.
#pragma once

#include "lesson/sequence.h"

#include <string>
#include <vector>

namespace driftbench::lesson {

inline LessonBlock block_of(const std::string& id, int attempts, specimen::Approach approach) {
  LessonBlock block;
  block.id = id;
  block.attempts = attempts;
  block.approach = approach;
  return block;
}

/// A lesson of a free-hand and a guided block.
inline Lesson two_arms(int attempts) {
  Lesson lesson;
  lesson.id = "two-arms";
  lesson.blocks = {block_of("by-hand", attempts, specimen::Approach::kFreehand),
                   block_of("by-sleeve", attempts, specimen::Approach::kSleeve)};
  return lesson;
}

/// Errors within every tolerance, or all of them outside.
inline AttemptErrors errors(bool is_good) {
  return is_good ? AttemptErrors{0.2, 0.3, 1.0, 0.1} : AttemptErrors{3.0, 4.0, 20.0, 2.0};
}

/// The attempt that a step asks for, as it is recorded.
inline PastAttempt made(const Lesson& lesson, const Step& step, bool is_good, double days = 0.0) {
  const LessonBlock& block = lesson.blocks.at(step.block_index);
  return {lesson.id, block.id, block.approach, step.attempt_index, days, errors(is_good), {}};
}

inline Mark mark(bool is_good) {
  return {is_good, false};
}

/// Marks of the lowest `count` bits: 1 is a good attempt.
inline std::vector<Mark> marks_of(unsigned bits, std::size_t count) {
  std::vector<Mark> marks;
  for (std::size_t i = 0; i < count; ++i) {
    marks.push_back(mark(((bits >> i) & 1U) != 0));
  }
  return marks;
}

}  // namespace driftbench::lesson
