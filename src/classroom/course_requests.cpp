#include "classroom/course_requests.h"

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "classroom/attempt_entry.h"
#include "classroom/class_bands.h"
#include "classroom/experiment.h"
#include "classroom/participation.h"
#include "classroom/svg.h"
#include "classroom/turn_in.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

namespace driftbench::classroom {
namespace {

using base::JsonLayout;
using base::JsonWriter;

constexpr std::string_view kPage = "page";
constexpr std::size_t kLongest = 400;

std::string failure(std::string_view sentence, std::string_view field = "") {
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object().field("error", sentence).field("field", field).end_object();
  return out.take();
}

/// The first thing that is wrong, and the field it stands at.
std::string failure_of(const base::ProblemList& problems) {
  for (const base::Problem& problem : problems.items()) {
    if (problem.severity == base::Problem::Severity::kError) {
      return failure(fmt::format("found {}, expected {}", problem.found, problem.expected),
                     problem.path);
    }
  }
  return {};
}

void write_list(JsonWriter& out, std::string_view key, const std::vector<std::string>& sentences) {
  out.key(key).begin_array();
  for (const std::string& sentence : sentences) {
    out.value(sentence);
  }
  out.end_array();
}

struct DesignRequest {
  ExperimentDesign design;
  std::vector<std::string> codes;
};

DesignRequest read_request(base::ObjectReader& in) {
  constexpr base::NumberRange kLength_mm{0.001, 100.0};
  constexpr base::NumberRange kSpread_mm{0.0, 100.0};
  constexpr base::NumberRange kPower{0.5, 0.999};
  constexpr std::array<base::EnumName<ExperimentKind>, 2> kKinds{
      {{kExperimentKinds[0], ExperimentKind::kClass},
       {kExperimentKinds[1], ExperimentKind::kOneOperator}}};
  constexpr std::array<base::EnumName<OrderScheme>, 2> kSchemes{
      {{kOrderSchemes[0], OrderScheme::kSwitchOnce}, {kOrderSchemes[1], OrderScheme::kMixed}}};
  const auto count = [&in](std::string_view key, std::int64_t least, std::size_t most) {
    return static_cast<std::size_t>(in.required_int(key, {least, static_cast<std::int64_t>(most)}));
  };
  DesignRequest request;
  ExperimentDesign& design = request.design;
  design.title = in.optional_string("title", kLongest / 2).value_or("");
  design.kind = in.required_enum("kind", kKinds);
  const bool is_class = design.kind == ExperimentKind::kClass;
  design.units = count("units", 2, is_class ? kMaxPlaces : kMaxPairs);
  design.holes_each = is_class ? count("holes_each", 1, kMaxHolesEach) : 1;
  design.scheme = in.required_enum("scheme", kSchemes);
  design.difference_mm = in.required_double("difference_mm", kLength_mm, "mm");
  design.sd_effect_mm = in.required_double("sd_effect_mm", kSpread_mm, "mm");
  design.sd_freehand_mm = in.required_double("sd_freehand_mm", kLength_mm, "mm");
  design.sd_sleeve_mm = in.required_double("sd_sleeve_mm", kLength_mm, "mm");
  design.demand.power = in.required_double("power", kPower, "");
  design.seed = static_cast<std::uint64_t>(in.required_int("seed", {0, kMaxSeed}));
  request.codes =
      in.optional_strings("codes", {0, static_cast<std::int64_t>(kMaxPlaces)}, kLongest / 2);
  return request;
}

/// Every code once; more codes than places are an error.
base::Result<void> name_places(Experiment& experiment, const std::vector<std::string>& codes) {
  std::set<std::string> seen;
  if (codes.size() > experiment.places.size()) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      fmt::format("found {} code names, expected at most {}, one a place",
                                  codes.size(), experiment.places.size()));
  }
  for (std::size_t i = 0; i < codes.size(); ++i) {
    if (!codes[i].empty() && !seen.insert(codes[i]).second) {
      return base::fail(
          base::ErrorCode::kInvalidArgument,
          fmt::format("found the code name \"{}\" twice, expected every one once", codes[i]));
    }
    experiment.places[i].code = codes[i];
  }
  return {};
}

void write_sizes(JsonWriter& out, const ExperimentDesign& design) {
  const ExperimentSize size = experiment_size(design);
  out.key("needed");
  if (size.needed) {
    out.value(size.needed->exact);
  } else {
    out.null();
  }
  out.field("power", size.power).key("other_holes").begin_array();
  if (design.kind == ExperimentKind::kClass) {
    for (const std::size_t holes : {1U, 2U, 3U, 5U, 8U, 12U}) {
      ExperimentDesign other = design;
      other.holes_each = holes;
      const ExperimentSize needs = experiment_size(other);
      if (needs.needed && needs.needed_90) {
        out.begin_array(JsonLayout::kCompact).value(holes).value(stats::even(needs.needed->exact));
        out.value(stats::even(needs.needed_90->exact)).end_array();
      }
    }
  }
  out.end_array();
}

}  // namespace

std::string answer_plan(std::string_view design_json) {
  const auto document = base::read_json(design_json, {kMaxExperimentBytes, 8});
  if (!document) {
    return failure(document.error().sentence(kPage));
  }
  base::ProblemList problems;
  base::ObjectReader in(*document, "", problems);
  const DesignRequest request = read_request(in);
  if (problems.has_errors()) {
    return failure_of(problems);
  }
  base::Result<Experiment> experiment = allocate(request.design);
  if (!experiment) {
    return failure(experiment.error().message, "units");
  }
  if (const base::Result<void> named = name_places(*experiment, request.codes); !named) {
    return failure(named.error().message, "codes");
  }
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object();
  write_list(out, "sentences", plan_sentences(request.design));
  write_list(out, "limits", plan_limits(request.design));
  write_sizes(out, request.design);
  out.key("orders").begin_array();
  for (const ExperimentPlace& place : experiment->places) {
    out.value(order_words(place));
  }
  out.end_array().field("file", write_experiment(*experiment)).end_object();
  return out.take();
}

std::string answer_read_experiment(std::string_view text, std::string_view name) {
  const auto outcome = read_experiment(text, name);
  if (!outcome.value.has_value()) {
    return failure(outcome.first_error());
  }
  const ExperimentDesign& design = outcome.value->design;
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object().field("title", design.title);
  out.field("kind", kExperimentKinds[static_cast<std::size_t>(design.kind)]);
  out.field("units", design.units).field("holes_each", design.holes_each);
  out.field("scheme", kOrderSchemes[static_cast<std::size_t>(design.scheme)]);
  out.field("difference_mm", design.difference_mm).field("sd_effect_mm", design.sd_effect_mm);
  out.field("sd_freehand_mm", design.sd_freehand_mm).field("sd_sleeve_mm", design.sd_sleeve_mm);
  out.field("power", design.demand.power).field("seed", static_cast<std::int64_t>(design.seed));
  out.key("codes").begin_array();
  for (const ExperimentPlace& place : outcome.value->places) {
    out.value(place.code);
  }
  out.end_array().end_object();
  return out.take();
}

std::string experiment_sheet_of(std::string_view text) {
  const auto outcome = read_experiment(text, kPage);
  return outcome.value.has_value() ? experiment_sheet_html(*outcome.value) : std::string();
}

void OwnAttempts::add(std::string_view bytes, const std::string& name) {
  const auto outcome = record::read_attempt(bytes, name);
  base::Result<Entry> entry = outcome.value.has_value()
                                  ? entry_of(*outcome.value, name)
                                  : base::Result<Entry>(base::fail(base::ErrorCode::kParse, ""));
  if (entry) {
    entries_.push_back(std::move(*entry));
  } else {
    ++unreadable_;
  }
}

std::string OwnAttempts::answer_list() const {
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object().key("attempts").begin_array();
  for (const Entry& entry : entries_) {
    out.begin_object().field("id", entry.attempt_id).field("code", entry.learner);
    out.field("lesson_id", entry.lesson_id).field("lesson_sha256", entry.lesson_sha256);
    out.field("approach", stats::kApproachNames[static_cast<std::size_t>(entry.approach)]);
    out.field("engaged_s", entry.engaged_s).field("estimated", entry.estimate.has_value());
    out.field("has_hole", entry.measures.entry_md_mm.has_value()).end_object();
  }
  out.end_array().field("unreadable", unreadable_).end_object();
  return out.take();
}

std::string OwnAttempts::answer_turn_in(std::string_view ids_json) const {
  const auto ids = base::read_json(ids_json);
  if (!ids || !ids->is_array()) {
    return failure("found no list of attempts, expected one");
  }
  std::vector<Entry> chosen;
  for (const base::JsonValue& id : ids->items()) {
    const auto found = std::find_if(entries_.begin(), entries_.end(), [&id](const Entry& entry) {
      return id.is_string() && entry.attempt_id == id.as_string();
    });
    if (found != entries_.end()) {
      chosen.push_back(*found);
    }
  }
  const base::Result<std::string> code = write_turn_in(chosen);
  if (!code) {
    return failure(code.error().message);
  }
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object().field("code", *code).field("attempts", chosen.size()).end_object();
  return out.take();
}

std::string OwnAttempts::answer_compare(std::string_view summary, std::string_view name,
                                        std::string_view hidden_json) const {
  const auto outcome = read_class_bands(summary, name);
  if (!outcome.value.has_value()) {
    return failure(outcome.first_error());
  }
  const ClassBands& bands = *outcome.value;
  std::set<std::string> hidden;
  if (const auto ids = base::read_json(hidden_json); ids && ids->is_array()) {
    for (const base::JsonValue& id : ids->items()) {
      hidden.insert(id.is_string() ? id.as_string() : std::string());
    }
  }
  std::vector<Entry> own;
  std::size_t other_version = 0;
  for (const Entry& entry : entries_) {
    if (hidden.count(entry.attempt_id) == 0) {
      own.push_back(entry);
      other_version +=
          entry.lesson_id == bands.lesson_id && entry.lesson_sha256 != bands.lesson_sha256 ? 1U
                                                                                           : 0U;
    }
  }
  const std::vector<OwnInClass> rows = own_in_class(bands, own);
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object().field("lesson_id", bands.lesson_id).field("learners", bands.learners);
  out.field("attempts", bands.attempts).field("result", bands.result);
  out.field("is_real", bands.source == Source::kBench).field("other_version", other_version);
  out.field("hidden", hidden.size()).key("rows").begin_array();
  for (const OwnInClass& row : rows) {
    out.begin_object().field("approach", approach_word(row.approach)).field("holes", row.holes);
    write_list(out, "sentences", row.sentences);
    out.end_object();
  }
  out.end_array();
  out.field("svg", rows.empty() ? std::string() : svg_text(own_in_class_picture(rows)));
  out.end_object();
  return out.take();
}

std::string answer_participation(std::string_view fields_json) {
  const auto outcome = read_participation(fields_json, kPage);
  if (!outcome.value.has_value()) {
    return failure(outcome.first_error());
  }
  JsonWriter out(JsonLayout::kCompact);
  out.begin_object().field("html", participation_html(*outcome.value));
  out.field("json", participation_json(*outcome.value)).end_object();
  return out.take();
}

}  // namespace driftbench::classroom
