// What virtual operators show in a lesson, as it stands in lesson files.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "lesson/lesson.h"

#include <optional>
#include <vector>

namespace driftbench::lesson {

/// "worked_example" of a block.
[[nodiscard]] std::optional<WorkedExample> read_worked_example(base::ObjectReader& block);
void write_worked_example(base::JsonWriter& writer, const std::optional<WorkedExample>& example);

/// "prediction" of a lesson; its groups name some of the blocks.
[[nodiscard]] std::optional<Prediction> read_prediction(base::ObjectReader& lesson,
                                                        const std::vector<LessonBlock>& blocks);
void write_prediction(base::JsonWriter& writer, const std::optional<Prediction>& prediction);

}  // namespace driftbench::lesson
