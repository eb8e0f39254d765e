#include "app/saved.h"

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "ui/implant_debrief.h"

#include <algorithm>
#include <array>
#include <utility>

namespace driftbench::app {
namespace {

constexpr std::size_t kLongestText = 200;
constexpr const char* kEnglish = "en";
constexpr std::int64_t kLastEngine = 1'000'000;

constexpr std::array<base::EnumName<specimen::Approach>, 3> kApproaches = {
    {{"freehand", specimen::Approach::kFreehand},
     {"pilot", specimen::Approach::kPilot},
     {"sleeve", specimen::Approach::kSleeve}}};

constexpr base::NumberRange kAnyNumber{-1e6, 1e6};
constexpr base::NumberRange kAnyDay{0.0, 1e7};
constexpr std::int64_t kMostAttempts = 1'000'000'000;

constexpr std::array<base::EnumName<lesson::CriticalEvent>, 5> kEvents = {
    {{"past-depth", lesson::CriticalEvent::kPastDepth},
     {"plunge", lesson::CriticalEvent::kPlunge},
     {"margin-broken", lesson::CriticalEvent::kMarginBroken},
     {"structure-touched", lesson::CriticalEvent::kStructureTouched},
     {"plate-perforated", lesson::CriticalEvent::kPlatePerforated}}};

// Events as words in one text; a word that is not known is passed over.
std::vector<lesson::CriticalEvent> read_events(const std::string& words) {
  std::vector<lesson::CriticalEvent> events;
  for (const auto& event : kEvents) {
    if (words.find(event.name) != std::string::npos) {
      events.push_back(event.value);
    }
  }
  return events;
}

std::string event_words(const std::vector<lesson::CriticalEvent>& events) {
  std::string words;
  for (const lesson::CriticalEvent event : events) {
    words += words.empty() ? "" : " ";
    words += base::name_of(kEvents, event);
  }
  return words;
}

// The fields that later versions added; an entry without them was made before there were sets.
void read_past(base::ObjectReader& in, SavedEntry& entry) {
  const auto number = [&in](std::string_view name) {
    return in.optional_double(name, kAnyNumber, "mm", 0.0);
  };
  entry.past.lesson_id = entry.shown.lesson_id;
  entry.past.approach = entry.shown.approach;
  entry.past.attempt_index =
      static_cast<std::uint64_t>(in.optional_int("index", {0, kMostAttempts}, {}, 0));
  entry.past.finished_days = in.optional_double("finished_days", kAnyDay, "d", 0.0);
  entry.past.is_complete = in.optional_bool("complete", true);
  entry.past.events = read_events(in.optional_string("events", kLongestText).value_or(""));
  entry.shown.depth_error_mm = number("depth_error_mm");
  if (in.optional_bool("counts", entry.shown.has_hole)) {
    entry.past.errors =
        lesson::AttemptErrors{entry.shown.entry_lateral_mm, entry.shown.apex_lateral_mm,
                              entry.shown.angle_deg, entry.shown.depth_error_mm};
  }
  entry.shown.has_components = in.optional_bool("components", false);
  entry.shown.entry_md_mm = number("entry_md_mm");
  entry.shown.entry_bl_mm = number("entry_bl_mm");
  const double own_md_mm = number("own_md_mm");
  const double own_bl_mm = number("own_bl_mm");
  if (in.optional_bool("estimated", false)) {
    entry.shown.estimate = scoring::SelfEstimate{};
    entry.shown.estimate->entry_md_mm = own_md_mm;
    entry.shown.estimate->entry_bl_mm = own_bl_mm;
  }
  entry.device = in.optional_string("device", kLongestText).value_or("");
}

SavedEntry read_entry(const base::JsonValue& item, const std::string& path,
                      base::ProblemList& problems) {
  base::ObjectReader in(item, path, problems);
  SavedEntry entry;
  entry.shown.id = in.required_string("id", kLongestText);
  entry.shown.lesson_id = in.required_string("lesson", kLongestText);
  entry.past.block_id = in.required_string("block", kLongestText);
  entry.shown.block_title[kEnglish] = in.optional_string("title", kLongestText).value_or("");
  entry.shown.approach = in.required_enum("approach", kApproaches);
  entry.shown.when = in.optional_string("when", kLongestText).value_or("");
  // Before the engine had its place here there was only the first.
  entry.shown.engine = static_cast<int>(in.optional_int("engine", {1, kLastEngine}, {}, 1));
  entry.shown.has_hole = in.optional_bool("has_hole", false);
  entry.shown.entry_lateral_mm = in.optional_double("entry_lateral_mm", kAnyNumber, "mm", 0.0);
  entry.shown.apex_lateral_mm = in.optional_double("apex_lateral_mm", kAnyNumber, "mm", 0.0);
  entry.shown.angle_deg = in.optional_double("angle_deg", kAnyNumber, "deg", 0.0);
  read_past(in, entry);
  in.finish();
  return entry;
}

}  // namespace

SavedEntry summary_of(const record::Attempt& attempt, lesson::PastAttempt past,
                      lesson::LocalText block_title, std::string when) {
  SavedEntry entry;
  entry.shown.id = attempt.attempt_id;
  entry.shown.lesson_id = attempt.setup.lesson_id;
  entry.shown.block_title = std::move(block_title);
  entry.shown.approach = attempt.setup.approach;
  entry.shown.when = std::move(when);
  entry.shown.engine = attempt.engine;
  entry.shown.estimate = attempt.estimate;
  entry.past = std::move(past);
  entry.device = attempt.device;
  if (const scoring::Deviation* deviation =
          attempt.results.has_value() ? ui::measured_deviation(*attempt.results) : nullptr) {
    entry.shown.has_hole = true;
    entry.shown.entry_lateral_mm = deviation->entry_lateral_mm;
    entry.shown.apex_lateral_mm = deviation->apex_lateral_mm;
    entry.shown.angle_deg = deviation->angle_deg;
    entry.shown.depth_error_mm = ui::measured_depth_error_mm(*attempt.results);
    entry.shown.has_components = true;
    entry.shown.entry_md_mm = deviation->entry_md_mm;
    entry.shown.entry_bl_mm = deviation->entry_bl_mm;
  }
  return entry;
}

std::string write_summary(const SavedEntry& entry) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  out.field("id", entry.shown.id);
  out.field("lesson", entry.shown.lesson_id);
  out.field("block", entry.past.block_id);
  out.field("title", lesson::text_in(entry.shown.block_title, kEnglish));
  out.field("approach", base::name_of(kApproaches, entry.shown.approach));
  out.field("when", entry.shown.when);
  out.field("engine", entry.shown.engine);
  out.field("has_hole", entry.shown.has_hole);
  out.field("entry_lateral_mm", entry.shown.entry_lateral_mm);
  out.field("apex_lateral_mm", entry.shown.apex_lateral_mm);
  out.field("angle_deg", entry.shown.angle_deg);
  out.field("depth_error_mm", entry.shown.depth_error_mm);
  out.field("index", entry.past.attempt_index).field("finished_days", entry.past.finished_days);
  out.field("complete", entry.past.is_complete).field("counts", entry.past.errors.has_value());
  out.field("events", event_words(entry.past.events));
  out.field("components", entry.shown.has_components);
  out.field("entry_md_mm", entry.shown.entry_md_mm).field("entry_bl_mm", entry.shown.entry_bl_mm);
  const std::optional<scoring::SelfEstimate>& own = entry.shown.estimate;
  out.field("estimated", own.has_value());
  out.field("own_md_mm", own.has_value() ? own->entry_md_mm : 0.0);
  out.field("own_bl_mm", own.has_value() ? own->entry_bl_mm : 0.0);
  out.field("device", entry.device);
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
  std::stable_sort(entries.begin(), entries.end(), [](const SavedEntry& a, const SavedEntry& b) {
    return a.past.finished_days < b.past.finished_days;
  });
  // Attempts of before had no number: they are counted as they came.
  for (auto entry = entries.begin(); entry != entries.end(); ++entry) {
    lesson::PastAttempt& past = entry->past;
    if (past.finished_days == 0.0) {
      past.attempt_index = static_cast<std::uint64_t>(
          std::count_if(entries.begin(), entry, [&past](const SavedEntry& other) {
            return other.past.lesson_id == past.lesson_id && other.past.approach == past.approach;
          }));
    }
  }
  return entries;
}

}  // namespace driftbench::app
