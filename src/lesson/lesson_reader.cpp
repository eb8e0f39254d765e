#include "lesson/examples_json.h"
#include "lesson/identifier.h"
#include "lesson/lesson.h"
#include "lesson/lesson_rules_json.h"
#include "lesson/local_text.h"
#include "lesson/read_document.h"
#include "lesson/specimen_json.h"
#include "lesson/vocabulary.h"

#include <set>

namespace driftbench::lesson {
namespace {

constexpr std::int64_t kMaxAttempts = 1000;
constexpr std::int64_t kMaxMinutes = 600;

/// A guide belongs to the guided approaches and to no other.
void check_guide(base::ObjectReader& reader, const LessonBlock& block) {
  const bool is_guided = block.approach != specimen::Approach::kFreehand;
  if (is_guided && reader.find("guide") == nullptr) {
    reader.add_error("guide", "no guide", "a guide, because the approach is guided");
  }
  if (!is_guided && block.guide.has_value()) {
    reader.add_error("guide", "a guide", "none, because the approach is free-hand");
  }
  if (block.case_id.empty() && block.guide.has_value() &&
      (block.guide->support.has_value() || block.guide->mouth_opening_mm.has_value())) {
    reader.add_error("guide", "a support or a mouth", "neither, because what is drilled is no jaw");
  }
  if (!is_guided && block.implant_through_guide) {
    reader.add_error("implant_through_guide", "true", "false, because the approach is free-hand");
  }
}

/// A block of foam, or the case that names a piece of jaw.
void read_what_is_drilled(base::ObjectReader& reader, LessonBlock& block) {
  const base::JsonValue* value = reader.find("specimen");
  if (value == nullptr || !value->is_object() || value->find("case") == nullptr) {
    block.specimen = read_block(reader, "specimen");
    return;
  }
  base::ObjectReader jaw = reader.required_object("specimen");
  block.case_id = read_identifier(jaw, "case");
  jaw.finish();
}

void write_what_is_drilled(base::JsonWriter& writer, const LessonBlock& block) {
  writer.key("specimen");
  if (block.case_id.empty()) {
    write_block(writer, block.specimen);
  } else {
    writer.begin_object(base::JsonLayout::kCompact).field("case", block.case_id).end_object();
  }
}

LessonBlock read_lesson_block(const base::JsonValue& item, const std::string& path,
                              base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  LessonBlock block;
  block.id = read_identifier(reader, "id");
  block.title = read_local_text(reader, "title");
  if (reader.find("site") != nullptr) {
    block.site = read_identifier(reader, "site");
  }
  block.approach = reader.required_enum("approach", kApproachWords);
  block.implant_through_guide = reader.optional_bool("implant_through_guide", false);
  block.place_implant = reader.optional_bool("place_implant", false);
  block.attempts = static_cast<int>(reader.required_int("attempts", {1, kMaxAttempts}));
  read_what_is_drilled(reader, block);
  base::ObjectReader plan = reader.required_object("plan");
  read_plan_rules(plan, block.plan);
  plan.finish();
  block.guide = read_guide(reader, "guide");
  block.show = read_visibility(reader, "show");
  read_block_rules(reader, block);
  block.example = read_worked_example(reader);
  check_guide(reader, block);
  reader.finish();
  return block;
}

void check_block_ids(base::ObjectReader& reader, const std::vector<LessonBlock>& blocks) {
  std::set<std::string> seen;
  for (const LessonBlock& block : blocks) {
    if (!block.id.empty() && !seen.insert(block.id).second) {
      reader.add_error("blocks", "the block id " + base::json_quoted(block.id) + " twice",
                       "an id that no other block has");
    }
  }
}

Lesson read_lesson_fields(base::ObjectReader& reader) {
  Lesson lesson;
  lesson.id = read_identifier(reader, "id");
  lesson.revision = reader.required_string("revision", kMaxRevisionBytes);
  lesson.title = read_local_text(reader, "title");
  lesson.question = read_local_text(reader, "question");
  lesson.objectives = read_local_texts(reader, "objectives");
  lesson.common_mistakes = read_local_texts(reader, "common_mistakes");
  lesson.not_taught = read_local_text(reader, "not_taught");
  lesson.teacher_notes = read_local_text(reader, "teacher_notes");
  lesson.minutes = static_cast<int>(reader.required_int("minutes", {1, kMaxMinutes}, "min"));
  lesson.seed = static_cast<std::uint64_t>(
      reader.required_int("seed", {0, static_cast<std::int64_t>(kMaxSeed)}));
  lesson.kit_id = read_identifier(reader, "kit");
  lesson.tolerance = read_tolerance(reader, "tolerance");
  lesson.blocks = reader.required_array("blocks", {1, kMaxBlocks}, read_lesson_block);
  check_block_ids(reader, lesson.blocks);
  read_lesson_rules(reader, lesson);
  lesson.prediction = read_prediction(reader, lesson.blocks);
  return lesson;
}

void write_lesson_block(base::JsonWriter& writer, const LessonBlock& block) {
  writer.begin_object().field("id", block.id).key("title");
  write_local_text(writer, block.title);
  writer.field("site", block.site);
  writer.field("approach", base::name_of(kApproachWords, block.approach));
  writer.field("implant_through_guide", block.implant_through_guide);
  if (block.place_implant) {
    writer.field("place_implant", true);
  }
  writer.field("attempts", block.attempts);
  write_what_is_drilled(writer, block);
  writer.key("plan").begin_object();
  write_plan_rules(writer, block.plan);
  writer.end_object();
  if (block.guide.has_value()) {
    writer.key("guide");
    write_guide(writer, *block.guide);
  }
  writer.key("show");
  write_visibility(writer, block.show);
  write_block_rules(writer, block);
  write_worked_example(writer, block.example);
  writer.end_object();
}

}  // namespace

ReadOutcome<Lesson> read_lesson(std::string_view text, std::string_view file_name) {
  return read_hashed_document<Lesson>(
      text, file_name, {kLessonFormat, kFileVersion, kMaxLessonBytes}, read_lesson_fields);
}

std::string write_lesson(const Lesson& lesson) {
  base::JsonWriter writer;
  writer.begin_object().field("format", kLessonFormat).field("version", kFileVersion);
  writer.field("id", lesson.id).field("revision", lesson.revision).key("title");
  write_local_text(writer, lesson.title);
  writer.key("question");
  write_local_text(writer, lesson.question);
  writer.key("objectives");
  write_local_texts(writer, lesson.objectives);
  writer.key("common_mistakes");
  write_local_texts(writer, lesson.common_mistakes);
  writer.key("not_taught");
  write_local_text(writer, lesson.not_taught);
  writer.key("teacher_notes");
  write_local_text(writer, lesson.teacher_notes);
  writer.field("minutes", lesson.minutes).field("seed", lesson.seed).field("kit", lesson.kit_id);
  writer.key("tolerance");
  write_tolerance(writer, lesson.tolerance);
  writer.key("blocks").begin_array();
  for (const LessonBlock& block : lesson.blocks) {
    write_lesson_block(writer, block);
  }
  writer.end_array();
  write_lesson_rules(writer, lesson);
  write_prediction(writer, lesson.prediction);
  writer.end_object();
  return writer.take();
}

}  // namespace driftbench::lesson
