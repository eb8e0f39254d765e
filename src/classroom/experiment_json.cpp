// Experiment files in and out.
#include "base/json_reader.h"
#include "base/json_writer.h"
#include "classroom/experiment.h"
#include "lesson/read_document.h"

#include <fmt/format.h>

#include <optional>
#include <utility>

namespace driftbench::classroom {
namespace {

using stats::Approach;

constexpr std::size_t kLongestTitle = 200;
constexpr std::size_t kLongestCode = 200;
constexpr base::NumberRange kLength_mm{0.001, 100.0};
constexpr base::NumberRange kSpread_mm{0.0, 100.0};
constexpr std::string_view kMeasure = "entry_distance_mm";

constexpr std::array<base::EnumName<ExperimentKind>, 2> kKindWords{
    {{kExperimentKinds[0], ExperimentKind::kClass},
     {kExperimentKinds[1], ExperimentKind::kOneOperator}}};

constexpr std::array<base::EnumName<OrderScheme>, 2> kSchemeWords{
    {{kOrderSchemes[0], OrderScheme::kSwitchOnce}, {kOrderSchemes[1], OrderScheme::kMixed}}};

constexpr std::array<base::EnumName<int>, 1> kMeasureWords{{{kMeasure, 0}}};

std::string_view word_of(Approach approach) {
  return stats::kApproachNames[static_cast<std::size_t>(approach)];
}

ExperimentDesign read_design(base::ObjectReader& in) {
  constexpr base::NumberRange kAlpha{0.0001, 0.5};
  constexpr base::NumberRange kPower{0.5, 0.999};
  const auto count = [&in](std::string_view key, std::int64_t least, std::size_t most) {
    return static_cast<std::size_t>(in.required_int(key, {least, static_cast<std::int64_t>(most)}));
  };
  ExperimentDesign design;
  design.title = in.optional_string("title", kLongestTitle).value_or("");
  design.kind = in.required_enum("kind", kKindWords);
  static_cast<void>(in.required_enum("measure", kMeasureWords));
  design.units = count("units", 2, kMaxPlaces);
  design.holes_each = count("holes_each", 1, kMaxHolesEach);
  design.scheme = in.required_enum("scheme", kSchemeWords);
  design.difference_mm = in.required_double("difference_mm", kLength_mm, "mm");
  base::ObjectReader assumed = in.required_object("assumed");
  design.sd_effect_mm = assumed.required_double("sd_effect_mm", kSpread_mm, "mm");
  design.sd_freehand_mm = assumed.required_double("sd_freehand_mm", kLength_mm, "mm");
  design.sd_sleeve_mm = assumed.required_double("sd_sleeve_mm", kLength_mm, "mm");
  assumed.finish();
  design.demand.alpha = in.required_double("alpha", kAlpha, "");
  design.demand.power = in.required_double("power", kPower, "");
  design.seed = static_cast<std::uint64_t>(in.required_int("seed", {0, kMaxSeed}));
  return design;
}

ExperimentPlace read_place(const base::JsonValue& item, const std::string& path,
                           base::ProblemList& problems, std::int64_t number) {
  base::ObjectReader in(item, path, problems);
  ExperimentPlace place;
  static_cast<void>(in.required_int("place", {number, number}));
  const base::JsonValue* code = in.required("code");
  if (code != nullptr && !code->is_null()) {
    place.code = in.required_string("code", kLongestCode);
  }
  for (const std::string& word : in.required_strings("order", {2, 2 * kMaxPairs}, kLongestCode)) {
    if (word != word_of(Approach::kFreehand) && word != word_of(Approach::kSleeve)) {
      in.add_error("order", fmt::format("\"{}\"", word), "\"freehand\" or \"sleeve\"");
      break;
    }
    place.order.push_back(word == word_of(Approach::kFreehand) ? Approach::kFreehand
                                                               : Approach::kSleeve);
  }
  in.finish();
  return place;
}

/// The orders must be those that the seed gives, and every code stand once.
void hold_against_seed(base::ObjectReader& in, const Experiment& experiment) {
  const base::Result<Experiment> drawn = allocate(experiment.design);
  if (!drawn) {
    in.add_error("units", drawn.error().message, "a design within its limits");
    return;
  }
  if (drawn->places.size() != experiment.places.size()) {
    in.add_error("places", fmt::format("{} places", experiment.places.size()),
                 fmt::format("the {} of the design", drawn->places.size()));
    return;
  }
  for (std::size_t i = 0; i < drawn->places.size(); ++i) {
    const ExperimentPlace& place = experiment.places[i];
    if (place.order != drawn->places[i].order) {
      in.add_error("places", fmt::format("another order at place {}", i + 1),
                   fmt::format("the order that the seed {} gives", experiment.design.seed));
      return;
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (!place.code.empty() && place.code == experiment.places[k].code) {
        in.add_error(
            "places",
            fmt::format("the code \"{}\" at the places {} and {}", place.code, k + 1, i + 1),
            "every code once");
        return;
      }
    }
  }
}

}  // namespace

std::string write_experiment(const Experiment& experiment) {
  const ExperimentDesign& design = experiment.design;
  base::JsonWriter out;
  out.begin_object().field("format", kExperimentFormat).field("version", lesson::kFileVersion);
  out.field("title", design.title);
  out.field("kind", base::name_of(kKindWords, design.kind)).field("measure", kMeasure);
  out.field("units", design.units).field("holes_each", design.holes_each);
  out.field("scheme", base::name_of(kSchemeWords, design.scheme));
  out.field("difference_mm", design.difference_mm);
  out.key("assumed").begin_object(base::JsonLayout::kCompact);
  out.field("sd_effect_mm", design.sd_effect_mm).field("sd_freehand_mm", design.sd_freehand_mm);
  out.field("sd_sleeve_mm", design.sd_sleeve_mm).end_object();
  out.field("alpha", design.demand.alpha).field("power", design.demand.power);
  out.field("seed", static_cast<std::int64_t>(design.seed));
  out.key("places").begin_array();
  for (std::size_t i = 0; i < experiment.places.size(); ++i) {
    const ExperimentPlace& place = experiment.places[i];
    out.begin_object(base::JsonLayout::kCompact).field("place", i + 1);
    out.field("code", place.code.empty() ? std::nullopt : std::optional(place.code));
    out.key("order").begin_array();
    for (const Approach approach : place.order) {
      out.value(word_of(approach));
    }
    out.end_array().end_object();
  }
  out.end_array().end_object();
  return out.take();
}

lesson::ReadOutcome<Experiment> read_experiment(std::string_view text, std::string_view file_name) {
  return lesson::read_document<Experiment>(
      text, file_name, {kExperimentFormat, lesson::kFileVersion, kMaxExperimentBytes},
      [](base::ObjectReader& in) {
        Experiment experiment;
        experiment.design = read_design(in);
        std::int64_t number = 0;
        experiment.places =
            in.required_array("places", {1, static_cast<std::int64_t>(kMaxPlaces)},
                              [&number](const base::JsonValue& item, const std::string& path,
                                        base::ProblemList& problems) {
                                number += 1;
                                return read_place(item, path, problems, number);
                              });
        if (!in.problems().has_errors()) {
          hold_against_seed(in, experiment);
        }
        return experiment;
      });
}

}  // namespace driftbench::classroom
