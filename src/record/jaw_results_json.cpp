#include "record/jaw_results_json.h"

#include "lesson/vector_json.h"
#include "lesson/vocabulary.h"
#include "record/result_fields.h"
#include "record/trace.h"
#include "record/trace_json.h"

#include <string>

namespace driftbench::record {
namespace {

using lesson::kStructureWords;
using lesson::Missing;
using scoring::ClearanceMeasure;
using scoring::JawEvent;
using scoring::JawMeasures;
using scoring::NextTouch;

constexpr std::int64_t kMostStructures = 12;
constexpr std::int64_t kMostEvents = 24;

ClearanceMeasure read_clearance(const base::JsonValue& item, const std::string& path,
                                base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  ClearanceMeasure measure;
  measure.structure = reader.required_enum("structure", kStructureWords);
  lesson::read_fields<ClearanceMeasure>(reader, kClearanceFields, Missing::kIsError, measure);
  measure.is_implant = reader.required_bool("implant");
  measure.at_mm = lesson::read_vec3(reader, "at_mm", kAnyNumber, "mm");
  reader.finish();
  return measure;
}

JawEvent read_event(const base::JsonValue& item, const std::string& path,
                    base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  JawEvent event;
  event.structure = reader.required_enum("structure", kStructureWords);
  event.is_going_on = reader.required_bool("going_on");
  event.step = reader.required_int("step", {0, kMaxStep});
  event.at_mm = lesson::read_vec3(reader, "at_mm", kAnyNumber, "mm");
  reader.finish();
  return event;
}

std::optional<NextTouch> read_next(base::ObjectReader& parent) {
  std::optional<base::ObjectReader> reader = parent.optional_object("next");
  if (!reader) {
    return std::nullopt;
  }
  NextTouch next;
  next.structure = reader->required_enum("structure", kStructureWords);
  lesson::read_fields<NextTouch>(*reader, kNextTouchFields, Missing::kIsError, next);
  reader->finish();
  return next;
}

}  // namespace

std::optional<JawMeasures> read_jaw_results(base::ObjectReader& results) {
  std::optional<base::ObjectReader> reader = results.optional_object("jaw");
  if (!reader) {
    return std::nullopt;
  }
  JawMeasures jaw;
  jaw.clearances = reader->required_array("clearances", {0, kMostStructures}, read_clearance);
  jaw.events = reader->required_array("events", {0, kMostEvents}, read_event);
  jaw.next = read_next(*reader);
  reader->finish();
  return jaw;
}

void write_jaw_results(base::JsonWriter& writer, const JawMeasures& jaw) {
  writer.key("jaw").begin_object().key("clearances").begin_array();
  for (const ClearanceMeasure& measure : jaw.clearances) {
    writer.begin_object(base::JsonLayout::kCompact);
    writer.field("structure", base::name_of(kStructureWords, measure.structure));
    lesson::write_fields<ClearanceMeasure>(writer, kClearanceFields, measure);
    writer.field("implant", measure.is_implant);
    lesson::write_vec3(writer, "at_mm", measure.at_mm);
    writer.end_object();
  }
  writer.end_array().key("events").begin_array();
  for (const JawEvent& event : jaw.events) {
    writer.begin_object(base::JsonLayout::kCompact);
    writer.field("structure", base::name_of(kStructureWords, event.structure));
    writer.field("going_on", event.is_going_on).field("step", event.step);
    lesson::write_vec3(writer, "at_mm", event.at_mm);
    writer.end_object();
  }
  writer.end_array();
  if (jaw.next) {
    writer.key("next").begin_object(base::JsonLayout::kCompact);
    writer.field("structure", base::name_of(kStructureWords, jaw.next->structure));
    lesson::write_fields<NextTouch>(writer, kNextTouchFields, *jaw.next);
    writer.end_object();
  }
  writer.end_object();
}

}  // namespace driftbench::record
