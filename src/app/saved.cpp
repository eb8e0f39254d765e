#include "app/saved.h"

#include "base/json_reader.h"
#include "base/json_writer.h"

#include <array>
#include <limits>
#include <utility>

namespace driftbench::app {
namespace {

constexpr std::size_t kLongestText = 200;
constexpr std::int64_t kLastEngine = 1'000'000;

constexpr std::array<base::EnumName<specimen::Approach>, 3> kApproaches = {
    {{"freehand", specimen::Approach::kFreehand},
     {"pilot", specimen::Approach::kPilot},
     {"sleeve", specimen::Approach::kSleeve}}};

constexpr base::NumberRange kAnyNumber{-1e6, 1e6};

SavedEntry read_entry(const base::JsonValue& item, const std::string& path,
                      base::ProblemList& problems) {
  base::ObjectReader in(item, path, problems);
  SavedEntry entry;
  entry.shown.id = in.required_string("id", kLongestText);
  entry.shown.lesson_id = in.required_string("lesson", kLongestText);
  entry.block_id = in.required_string("block", kLongestText);
  entry.shown.block_title = in.optional_string("title", kLongestText).value_or("");
  entry.shown.approach = in.required_enum("approach", kApproaches);
  entry.shown.when = in.optional_string("when", kLongestText).value_or("");
  // Before the engine had its place here there was only the first.
  entry.shown.engine = static_cast<int>(in.optional_int("engine", {1, kLastEngine}, {}, 1));
  entry.shown.has_hole = in.optional_bool("has_hole", false);
  entry.shown.entry_lateral_mm = in.optional_double("entry_lateral_mm", kAnyNumber, "mm", 0.0);
  entry.shown.apex_lateral_mm = in.optional_double("apex_lateral_mm", kAnyNumber, "mm", 0.0);
  entry.shown.angle_deg = in.optional_double("angle_deg", kAnyNumber, "deg", 0.0);
  in.finish();
  return entry;
}

}  // namespace

SavedEntry summary_of(const record::Attempt& attempt, std::string block_title, std::string when) {
  SavedEntry entry;
  entry.shown.id = attempt.attempt_id;
  entry.shown.lesson_id = attempt.setup.lesson_id;
  entry.block_id = attempt.setup.block_id;
  entry.shown.block_title = std::move(block_title);
  entry.shown.approach = attempt.setup.approach;
  entry.shown.when = std::move(when);
  entry.shown.engine = attempt.engine;
  if (attempt.results.has_value() && attempt.results->hole.has_value()) {
    const scoring::Deviation& deviation = attempt.results->hole->deviation;
    entry.shown.has_hole = true;
    entry.shown.entry_lateral_mm = deviation.entry_lateral_mm;
    entry.shown.apex_lateral_mm = deviation.apex_lateral_mm;
    entry.shown.angle_deg = deviation.angle_deg;
  }
  return entry;
}

std::string write_summary(const SavedEntry& entry) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  out.field("id", entry.shown.id);
  out.field("lesson", entry.shown.lesson_id);
  out.field("block", entry.block_id);
  out.field("title", entry.shown.block_title);
  out.field("approach", base::name_of(kApproaches, entry.shown.approach));
  out.field("when", entry.shown.when);
  out.field("engine", entry.shown.engine);
  out.field("has_hole", entry.shown.has_hole);
  out.field("entry_lateral_mm", entry.shown.entry_lateral_mm);
  out.field("apex_lateral_mm", entry.shown.apex_lateral_mm);
  out.field("angle_deg", entry.shown.angle_deg);
  out.end_object();
  return out.take();
}

std::vector<SavedEntry> read_summaries(std::string_view json) {
  constexpr base::JsonLimits kLimits{std::size_t{64} << 20U, 4};
  const auto document = base::read_json(json, kLimits);
  std::vector<SavedEntry> entries;
  if (!document.has_value() || !document->is_array()) {
    return entries;
  }
  for (const base::JsonValue& item : document->items()) {
    base::ProblemList problems;
    SavedEntry entry = read_entry(item, "summary", problems);
    if (!problems.has_errors()) {
      entries.push_back(std::move(entry));
    }
  }
  return entries;
}

}  // namespace driftbench::app
