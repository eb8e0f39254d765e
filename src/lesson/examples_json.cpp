#include "lesson/examples_json.h"

#include "lesson/identifier.h"
#include "lesson/local_text.h"
#include "lesson/rule_words.h"

#include <algorithm>

namespace driftbench::lesson {
namespace {

constexpr base::IntRange kSeeds{0, static_cast<std::int64_t>(kMaxSeed)};
// Six holes are the least that a scatter can be judged by; more than sixteen take too long to make.
constexpr base::IntRange kHoles{6, 16};
constexpr base::IntRange kGroups{2, 3};

PredictionGroup read_group(const base::JsonValue& item, const std::string& path,
                           base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  PredictionGroup group;
  group.title = read_local_text(reader, "title");
  group.operator_id = read_identifier(reader, "operator");
  group.block_id = read_identifier(reader, "block");
  reader.finish();
  return group;
}

}  // namespace

std::optional<WorkedExample> read_worked_example(base::ObjectReader& block) {
  std::optional<base::ObjectReader> reader = block.optional_object("worked_example");
  if (!reader.has_value()) {
    return std::nullopt;
  }
  WorkedExample example;
  example.operator_id = read_identifier(*reader, "operator");
  example.seed = static_cast<std::uint64_t>(reader->required_int("seed", kSeeds));
  reader->finish();
  return example;
}

void write_worked_example(base::JsonWriter& writer, const std::optional<WorkedExample>& example) {
  if (example.has_value()) {
    writer.key("worked_example").begin_object(base::JsonLayout::kCompact);
    writer.field("operator", example->operator_id).field("seed", example->seed).end_object();
  }
}

std::optional<Prediction> read_prediction(base::ObjectReader& lesson,
                                          const std::vector<LessonBlock>& blocks) {
  std::optional<base::ObjectReader> reader = lesson.optional_object("prediction");
  if (!reader.has_value()) {
    return std::nullopt;
  }
  Prediction prediction;
  prediction.ask = reader->required_enum("ask", kPredictionWords);
  prediction.holes = static_cast<int>(reader->required_int("holes", kHoles));
  prediction.seed = static_cast<std::uint64_t>(reader->required_int("seed", kSeeds));
  prediction.groups = reader->required_array("groups", kGroups, read_group);
  for (const PredictionGroup& group : prediction.groups) {
    const bool is_known = std::any_of(blocks.begin(), blocks.end(), [&](const LessonBlock& block) {
      return block.id == group.block_id;
    });
    if (!is_known && !group.block_id.empty()) {
      reader->add_error("groups", "the block " + base::json_quoted(group.block_id),
                        "ids of blocks of this lesson");
    }
  }
  prediction.afterwards = read_local_text(*reader, "afterwards");
  reader->finish();
  return prediction;
}

void write_prediction(base::JsonWriter& writer, const std::optional<Prediction>& prediction) {
  if (!prediction.has_value()) {
    return;
  }
  writer.key("prediction").begin_object();
  writer.field("ask", base::name_of(kPredictionWords, prediction->ask));
  writer.field("holes", prediction->holes).field("seed", prediction->seed);
  writer.key("groups").begin_array();
  for (const PredictionGroup& group : prediction->groups) {
    writer.begin_object().key("title");
    write_local_text(writer, group.title);
    writer.field("operator", group.operator_id).field("block", group.block_id).end_object();
  }
  writer.end_array().key("afterwards");
  write_local_text(writer, prediction->afterwards);
  writer.end_object();
}

}  // namespace driftbench::lesson
