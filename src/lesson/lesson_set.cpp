#include "lesson/lesson_set.h"

#include "base/hash64.h"
#include "base/random.h"
#include "lesson/hex.h"
#include "lesson/identifier.h"
#include "lesson/local_text.h"
#include "lesson/read_document.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

namespace driftbench::lesson {
namespace {

constexpr std::int64_t kMaxEntries = 50;
constexpr std::int64_t kMaxDays = 365;
constexpr std::int64_t kLeastRetentionDays = 7;
constexpr std::int64_t kMaxRetentionAttempts = 100;
constexpr std::size_t kMaxFileBytes = 256;
constexpr std::string_view kLessonEnding = ".lesson.json";

constexpr std::array<base::EnumName<Opens>, 3> kOpensWords{
    {{"after-finished", Opens::kAfterFinished},
     {"after-passed", Opens::kAfterPassed},
     {"always", Opens::kAlways}}};

/// The id in "<id>.lesson.json"; another form adds an error.
std::string read_lesson_file(base::ObjectReader& reader, std::string_view key) {
  const std::string file = reader.required_string(key, kMaxFileBytes);
  const std::size_t end = file.size() - std::min(file.size(), kLessonEnding.size());
  std::string id = file.substr(0, end);
  if (!file.empty() && (file.substr(end) != kLessonEnding || !is_identifier(id))) {
    reader.add_error(key, "the text " + base::json_quoted(file),
                     "<id>.lesson.json, the id of 1 to 64 lower-case letters, digits and hyphens");
  }
  return id;
}

std::string read_optional_identifier(base::ObjectReader& reader, std::string_view key) {
  return reader.find(key) != nullptr ? read_identifier(reader, key) : "";
}

std::optional<Retention> read_retention(base::ObjectReader& parent) {
  std::optional<base::ObjectReader> reader = parent.optional_object("retention");
  if (!reader.has_value()) {
    return std::nullopt;
  }
  Retention retention;
  retention.after_days =
      static_cast<int>(reader->required_int("after_days", {kLeastRetentionDays, kMaxDays}, "days"));
  retention.block_id = read_optional_identifier(*reader, "block");
  retention.attempts = static_cast<int>(
      reader->optional_int("attempts", {1, kMaxRetentionAttempts}, {}, retention.attempts));
  reader->finish();
  return retention;
}

SetEntry read_entry(const base::JsonValue& item, const std::string& path,
                    base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  SetEntry entry;
  entry.lesson_id = read_lesson_file(reader, "file");
  if (reader.find("sha256") != nullptr) {
    entry.sha256 = read_hex(reader, "sha256", kSha256Digits);
  }
  entry.opens = reader.optional_enum("opens", kOpensWords).value_or(entry.opens);
  entry.after_days =
      static_cast<int>(reader.optional_int("after_days", {0, kMaxDays}, "days", entry.after_days));
  entry.retention = read_retention(reader);
  reader.finish();
  return entry;
}

void check_lesson_files(base::ObjectReader& reader, const std::vector<SetEntry>& entries) {
  std::set<std::string> seen;
  for (const SetEntry& entry : entries) {
    if (!entry.lesson_id.empty() && !seen.insert(entry.lesson_id).second) {
      reader.add_error("lessons", "the lesson " + base::json_quoted(entry.lesson_id) + " twice",
                       "every lesson once");
    }
  }
}

LessonSet read_set_fields(base::ObjectReader& reader) {
  LessonSet set;
  set.id = read_identifier(reader, "id");
  set.revision = reader.required_string("revision", kMaxRevisionBytes);
  set.title = read_local_text(reader, "title");
  set.introduction = read_local_text(reader, "introduction");
  set.teacher_notes = read_local_text(reader, "teacher_notes");
  set.class_code = read_optional_identifier(reader, "class_code");
  const auto seed = reader.optional_int("seed", {0, static_cast<std::int64_t>(kMaxSeed)});
  if (seed.has_value()) {
    set.seed = static_cast<std::uint64_t>(*seed);
  }
  set.lessons = reader.required_array("lessons", {1, kMaxEntries}, read_entry);
  check_lesson_files(reader, set.lessons);
  return set;
}

void write_entry(base::JsonWriter& writer, const SetEntry& entry) {
  writer.begin_object().field("file", lesson_file(entry));
  if (!entry.sha256.empty()) {
    writer.field("sha256", entry.sha256);
  }
  writer.field("opens", base::name_of(kOpensWords, entry.opens));
  writer.field("after_days", entry.after_days);
  if (entry.retention.has_value()) {
    writer.key("retention").begin_object(base::JsonLayout::kCompact);
    writer.field("after_days", entry.retention->after_days);
    if (!entry.retention->block_id.empty()) {
      writer.field("block", entry.retention->block_id);
    }
    writer.field("attempts", entry.retention->attempts).end_object();
  }
  writer.end_object();
}

}  // namespace

ReadOutcome<LessonSet> read_set(std::string_view text, std::string_view file_name) {
  return read_hashed_document<LessonSet>(text, file_name, {kSetFormat, kFileVersion, kMaxSetBytes},
                                         read_set_fields);
}

std::string write_set(const LessonSet& set) {
  base::JsonWriter writer;
  writer.begin_object().field("format", kSetFormat).field("version", kFileVersion);
  writer.field("id", set.id).field("revision", set.revision).key("title");
  write_local_text(writer, set.title);
  writer.key("introduction");
  write_local_text(writer, set.introduction);
  writer.key("teacher_notes");
  write_local_text(writer, set.teacher_notes);
  if (!set.class_code.empty()) {
    writer.field("class_code", set.class_code);
  }
  if (set.seed.has_value()) {
    writer.field("seed", *set.seed);
  }
  writer.key("lessons").begin_array();
  for (const SetEntry& entry : set.lessons) {
    write_entry(writer, entry);
  }
  writer.end_array().end_object();
  return writer.take();
}

std::string lesson_file(const SetEntry& entry) {
  return entry.lesson_id + std::string(kLessonEnding);
}

std::vector<std::string> misfits(const SetEntry& entry, const Lesson& lesson) {
  std::vector<std::string> sentences;
  if (lesson.id != entry.lesson_id) {
    sentences.push_back(fmt::format("found the lesson id \"{}\" in {}, expected \"{}\"", lesson.id,
                                    lesson_file(entry), entry.lesson_id));
  }
  if (!entry.sha256.empty() && entry.sha256 != lesson.sha256) {
    sentences.push_back(fmt::format("found another revision of {} (SHA-256 {}), expected {}",
                                    lesson_file(entry), lesson.sha256, entry.sha256));
  }
  if (entry.retention.has_value() && !entry.retention->block_id.empty() &&
      std::none_of(lesson.blocks.begin(), lesson.blocks.end(), [&](const LessonBlock& block) {
        return block.id == entry.retention->block_id;
      })) {
    sentences.push_back(
        fmt::format("found no block \"{}\" in {}, expected the block to come back to",
                    entry.retention->block_id, lesson_file(entry)));
  }
  return sentences;
}

std::uint64_t seed_in_set(const LessonSet& set, const Lesson& lesson) {
  if (!set.seed.has_value()) {
    return lesson.seed;
  }
  const std::vector<std::uint8_t> name(lesson.id.begin(), lesson.id.end());
  return base::split(*set.seed, base::fnv1a64(name), 0) & kMaxSeed;
}

}  // namespace driftbench::lesson
