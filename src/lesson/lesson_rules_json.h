// The rules of a lesson as they stand in lesson files. What is left out has its default, and a rule
// that is all default is not written.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "lesson/lesson.h"

namespace driftbench::lesson {

/// "order", "criterion" and "device" of a lesson; the blocks must have been read.
void read_lesson_rules(base::ObjectReader& reader, Lesson& lesson);
void write_lesson_rules(base::JsonWriter& writer, const Lesson& lesson);

/// "estimate", "estimate_every" and "feedback" of a block.
void read_block_rules(base::ObjectReader& reader, LessonBlock& block);
void write_block_rules(base::JsonWriter& writer, const LessonBlock& block);

}  // namespace driftbench::lesson
