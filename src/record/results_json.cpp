#include "record/results_json.h"

#include "lesson/vector_json.h"
#include "record/jaw_results_json.h"
#include "record/result_fields.h"
#include "record/trace_json.h"

#include <string>

namespace driftbench::record {
namespace {

using lesson::Missing;
using lesson::read_fields;
using lesson::write_fields;
using scoring::HoleMeasures;
using scoring::HoleSlice;
using scoring::ImplantMeasures;
using scoring::ProcessMeasures;
using scoring::Reason;
using scoring::Results;
using scoring::SelfEstimate;

constexpr std::int64_t kMaxSlices = 10'000;
constexpr std::int64_t kMaxReasons = 100;
constexpr std::size_t kMaxTextBytes = 1000;

/// True when the field is there and null; a missing field is an error.
bool is_null(base::ObjectReader& parent, std::string_view key) {
  const base::JsonValue* value = parent.required(key);
  return value == nullptr || value->is_null();
}

HoleSlice read_slice(const base::JsonValue& item, const std::string& path,
                     base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  HoleSlice slice;
  read_fields<HoleSlice>(reader, kSliceFields, Missing::kIsError, slice);
  reader.finish();
  return slice;
}

Reason read_reason(const base::JsonValue& item, const std::string& path,
                   base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  Reason reason;
  reason.measure = reader.required_string("measure", kMaxTextBytes);
  read_fields<Reason>(reader, kReasonFields, Missing::kIsError, reason);
  reader.finish();
  return reason;
}

/// Where a hole or an implant lies: its two ends and how they differ from the plan.
template <class Measures>
void read_placement(base::ObjectReader& reader, Measures& measures) {
  measures.entry_mm = lesson::read_vec3(reader, "entry_mm", kAnyNumber, "mm");
  measures.apex_mm = lesson::read_vec3(reader, "apex_mm", kAnyNumber, "mm");
  base::ObjectReader deviation = reader.required_object("deviation");
  read_fields<scoring::Deviation>(deviation, kDeviationFields, Missing::kIsError,
                                  measures.deviation);
  deviation.finish();
}

template <class Measures>
void write_placement(base::JsonWriter& writer, const Measures& measures) {
  lesson::write_vec3(writer, "entry_mm", measures.entry_mm);
  lesson::write_vec3(writer, "apex_mm", measures.apex_mm);
  writer.key("deviation").begin_object();
  write_fields<scoring::Deviation>(writer, kDeviationFields, measures.deviation);
  writer.end_object();
}

std::optional<HoleMeasures> read_hole(base::ObjectReader& parent) {
  if (is_null(parent, "hole")) {
    return std::nullopt;
  }
  base::ObjectReader reader = parent.required_object("hole");
  HoleMeasures hole;
  read_placement(reader, hole);
  read_fields<HoleMeasures>(reader, kHoleFields, Missing::kIsError, hole);
  hole.slices = reader.required_array("slices", {0, kMaxSlices}, read_slice);
  reader.finish();
  return hole;
}

/// The implant is written only where a lesson asks for one, so that other records stay as they are.
std::optional<ImplantMeasures> read_implant(base::ObjectReader& parent) {
  std::optional<base::ObjectReader> reader = parent.optional_object("implant");
  if (!reader) {
    return std::nullopt;
  }
  ImplantMeasures implant;
  read_placement(*reader, implant);
  read_fields<ImplantMeasures>(*reader, kImplantFields, Missing::kIsError, implant);
  reader->finish();
  return implant;
}

ProcessMeasures read_process(base::ObjectReader& parent) {
  base::ObjectReader reader = parent.required_object("process");
  ProcessMeasures process;
  read_fields<ProcessMeasures>(reader, kProcessFields, Missing::kIsError, process);
  process.peak_side_step = reader.required_int("peak_side_step", {0, kMaxStep});
  process.peak_torque_nmm = reader.optional_double("peak_torque_nmm", kAnyNumber, "N mm");
  reader.finish();
  return process;
}

void write_hole(base::JsonWriter& writer, const HoleMeasures& hole) {
  writer.begin_object();
  write_placement(writer, hole);
  write_fields<HoleMeasures>(writer, kHoleFields, hole);
  writer.key("slices").begin_array();
  for (const HoleSlice& slice : hole.slices) {
    writer.begin_object(base::JsonLayout::kCompact);
    write_fields<HoleSlice>(writer, kSliceFields, slice);
    writer.end_object();
  }
  writer.end_array().end_object();
}

void write_implant(base::JsonWriter& writer, const ImplantMeasures& implant) {
  writer.key("implant").begin_object();
  write_placement(writer, implant);
  write_fields<ImplantMeasures>(writer, kImplantFields, implant);
  writer.end_object();
}

}  // namespace

std::optional<SelfEstimate> read_estimate(base::ObjectReader& parent, std::string_view key) {
  if (is_null(parent, key)) {
    return std::nullopt;
  }
  base::ObjectReader reader = parent.required_object(key);
  SelfEstimate estimate;
  read_fields<SelfEstimate>(reader, kEstimateFields, Missing::kIsError, estimate);
  estimate.confidence = static_cast<int>(reader.required_int("confidence", {0, 2}));
  reader.finish();
  return estimate;
}

void write_estimate(base::JsonWriter& writer, const std::optional<SelfEstimate>& estimate) {
  if (!estimate.has_value()) {
    writer.null();
    return;
  }
  writer.begin_object();
  write_fields<SelfEstimate>(writer, kEstimateFields, *estimate);
  writer.field("confidence", estimate->confidence).end_object();
}

std::optional<Results> read_results(base::ObjectReader& parent, std::string_view key) {
  if (is_null(parent, key)) {
    return std::nullopt;
  }
  base::ObjectReader reader = parent.required_object(key);
  Results results;
  results.inside_tolerance = reader.required_bool("inside_tolerance");
  results.reasons = reader.required_array("reasons", {0, kMaxReasons}, read_reason);
  results.process = read_process(reader);
  results.jaw = read_jaw_results(reader);
  results.hole = read_hole(reader);
  results.implant = read_implant(reader);
  results.no_implant_reason =
      reader.optional_string("no_implant_reason", kMaxTextBytes).value_or("");
  results.no_hole_reason = reader.optional_string("no_hole_reason", kMaxTextBytes).value_or("");
  reader.finish();
  return results;
}

void write_results(base::JsonWriter& writer, const std::optional<Results>& results) {
  if (!results.has_value()) {
    writer.null();
    return;
  }
  writer.begin_object().field("inside_tolerance", results->inside_tolerance);
  writer.key("reasons").begin_array();
  for (const Reason& reason : results->reasons) {
    writer.begin_object(base::JsonLayout::kCompact).field("measure", reason.measure);
    write_fields<Reason>(writer, kReasonFields, reason);
    writer.end_object();
  }
  writer.end_array().key("process").begin_object();
  write_fields<ProcessMeasures>(writer, kProcessFields, results->process);
  writer.field("peak_side_step", results->process.peak_side_step);
  if (results->process.peak_torque_nmm) {
    writer.field("peak_torque_nmm", *results->process.peak_torque_nmm);
  }
  writer.end_object();
  if (results->jaw) {  // digests of records without one stay as they are
    write_jaw_results(writer, *results->jaw);
  }
  writer.key("hole");
  if (results->hole.has_value()) {
    write_hole(writer, *results->hole);
  } else {
    writer.null().field("no_hole_reason", results->no_hole_reason);
  }
  if (results->implant) {
    write_implant(writer, *results->implant);
  } else if (!results->no_implant_reason.empty()) {
    writer.field("no_implant_reason", results->no_implant_reason);
  }
  writer.end_object();
}

}  // namespace driftbench::record
