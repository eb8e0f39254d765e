#include "record/compare_results.h"

#include "base/text.h"
#include "record/result_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::record {
namespace {

using scoring::HoleMeasures;
using scoring::Reason;
using scoring::Results;

std::string sentence(std::string_view name, const std::string& recorded,
                     const std::string& replayed) {
  return fmt::format("{}: recorded {}, replayed {}", name, recorded, replayed);
}

template <class T, class Table>
void compare_fields(const Table& table, const T& recorded, const T& replayed,
                    std::string_view prefix, std::vector<std::string>& found) {
  for (const Field<T>& field : table) {
    const double a = recorded.*field.member;
    const double b = replayed.*field.member;
    if (a != b) {
      found.push_back(
          sentence(fmt::format("{}{}", prefix, field.name), base::number(a), base::number(b)));
    }
  }
}

void compare_points(std::string_view name, const math::Vec3& a, const math::Vec3& b,
                    std::vector<std::string>& found) {
  constexpr int kAxes = 3;
  for (int i = 0; i < kAxes; ++i) {
    if (a[i] != b[i]) {
      found.push_back(
          sentence(fmt::format("{}[{}]", name, i), base::number(a[i]), base::number(b[i])));
    }
  }
}

void compare_slices(const HoleMeasures& recorded, const HoleMeasures& replayed,
                    std::vector<std::string>& found) {
  if (recorded.slices.size() != replayed.slices.size()) {
    found.push_back(sentence("number of slices", std::to_string(recorded.slices.size()),
                             std::to_string(replayed.slices.size())));
    return;
  }
  const std::size_t found_before = found.size();
  for (std::size_t i = 0; i < recorded.slices.size() && found.size() == found_before; ++i) {
    compare_fields(kSliceFields, recorded.slices[i], replayed.slices[i],
                   fmt::format("slices[{}].", i), found);
  }
}

void compare_holes(const HoleMeasures& recorded, const HoleMeasures& replayed,
                   std::vector<std::string>& found) {
  compare_points("entry_mm", recorded.entry_mm, replayed.entry_mm, found);
  compare_points("apex_mm", recorded.apex_mm, replayed.apex_mm, found);
  compare_fields(kDeviationFields, recorded.deviation, replayed.deviation, "", found);
  compare_fields(kHoleFields, recorded, replayed, "", found);
  compare_slices(recorded, replayed, found);
}

void compare_implants(const Results& recorded, const Results& replayed,
                      std::vector<std::string>& found) {
  const auto& a = recorded.implant;
  const auto& b = replayed.implant;
  if (a.has_value() != b.has_value()) {
    found.push_back(sentence("implant", a ? "one" : "none", b ? "one" : "none"));
  } else if (a) {
    compare_points("implant.entry_mm", a->entry_mm, b->entry_mm, found);
    compare_points("implant.apex_mm", a->apex_mm, b->apex_mm, found);
    compare_fields(kDeviationFields, a->deviation, b->deviation, "implant.", found);
    compare_fields(kImplantFields, *a, *b, "implant.", found);
  }
  if (recorded.no_implant_reason != replayed.no_implant_reason) {
    found.push_back(
        sentence("no_implant_reason", recorded.no_implant_reason, replayed.no_implant_reason));
  }
}

void compare_events(const scoring::JawMeasures& a, const scoring::JawMeasures& b,
                    std::vector<std::string>& found) {
  if (a.events.size() != b.events.size()) {
    found.push_back(sentence("number of critical events", std::to_string(a.events.size()),
                             std::to_string(b.events.size())));
    return;
  }
  for (std::size_t i = 0; i < a.events.size(); ++i) {
    const std::string name = fmt::format("events[{}]", i);
    const scoring::JawEvent& was = a.events[i];
    const scoring::JawEvent& is = b.events[i];
    if (was.structure != is.structure || was.is_going_on != is.is_going_on || was.step != is.step) {
      const auto words = [](const scoring::JawEvent& event) {
        return fmt::format("{}{} at step {}", specimen::name_of(event.structure),
                           event.is_going_on ? ", going on," : "", event.step);
      };
      found.push_back(sentence(name, words(was), words(is)));
    }
  }
}

/// Clearances are searched to this, and builds may end at either end of it.
constexpr double kSearched_mm = 0.02;

void compare_clearances(const scoring::JawMeasures& a, const scoring::JawMeasures& b,
                        std::vector<std::string>& found) {
  if (a.clearances.size() != b.clearances.size()) {
    found.push_back(sentence("number of clearances", std::to_string(a.clearances.size()),
                             std::to_string(b.clearances.size())));
    return;
  }
  for (std::size_t i = 0; i < a.clearances.size(); ++i) {
    const scoring::ClearanceMeasure& was = a.clearances[i];
    const scoring::ClearanceMeasure& is = b.clearances[i];
    const std::string name = fmt::format("clearance to {}", specimen::name_of(was.structure));
    if (was.structure != is.structure ||
        !(std::abs(was.achieved_mm - is.achieved_mm) <= kSearched_mm) ||
        !(std::abs(was.planned_mm - is.planned_mm) <= kSearched_mm)) {
      found.push_back(sentence(name, base::number(was.achieved_mm), base::number(is.achieved_mm)));
    }
  }
}

void compare_jaws(const Results& recorded, const Results& replayed,
                  std::vector<std::string>& found) {
  const auto& a = recorded.jaw;
  const auto& b = replayed.jaw;
  if (a.has_value() != b.has_value()) {
    found.push_back(sentence("jaw", a ? "measured" : "none", b ? "measured" : "none"));
  } else if (a) {
    compare_clearances(*a, *b, found);
    compare_events(*a, *b, found);
  }
}

bool equal_reasons(const Reason& a, const Reason& b) {
  const bool is_searched = a.measure.rfind("touched:", 0) == 0 || a.measure == "went-on";
  const bool is_same =
      is_searched ? std::abs(a.found - b.found) <= kSearched_mm : a.found == b.found;
  return a.measure == b.measure && is_same && a.low == b.low && a.high == b.high;
}

}  // namespace

std::vector<std::string> result_differences(const Results& recorded, const Results& replayed) {
  std::vector<std::string> found;
  if (recorded.hole.has_value() && replayed.hole.has_value()) {
    compare_holes(*recorded.hole, *replayed.hole, found);
  } else if (recorded.hole.has_value() != replayed.hole.has_value()) {
    const auto words = [](const Results& results) {
      return std::string(results.hole.has_value() ? "a hole" : "no hole");
    };
    found.push_back(sentence("hole", words(recorded), words(replayed)));
  }
  if (recorded.no_hole_reason != replayed.no_hole_reason) {
    found.push_back(sentence("no_hole_reason", recorded.no_hole_reason, replayed.no_hole_reason));
  }
  compare_implants(recorded, replayed, found);
  compare_jaws(recorded, replayed, found);
  const std::optional<double>& torque = recorded.process.peak_torque_nmm;
  if (torque && torque != replayed.process.peak_torque_nmm) {
    found.push_back(sentence("peak_torque_nmm", base::number(*torque),
                             base::number(replayed.process.peak_torque_nmm.value_or(0.0))));
  }
  compare_fields(kProcessFields, recorded.process, replayed.process, "", found);
  if (recorded.process.peak_side_step != replayed.process.peak_side_step) {
    found.push_back(sentence("peak_side_step", std::to_string(recorded.process.peak_side_step),
                             std::to_string(replayed.process.peak_side_step)));
  }
  if (recorded.inside_tolerance != replayed.inside_tolerance) {
    found.push_back(sentence("inside_tolerance", recorded.inside_tolerance ? "true" : "false",
                             replayed.inside_tolerance ? "true" : "false"));
  }
  if (!std::equal(recorded.reasons.begin(), recorded.reasons.end(), replayed.reasons.begin(),
                  replayed.reasons.end(), equal_reasons)) {
    found.push_back(sentence("reasons", fmt::format("{} of them", recorded.reasons.size()),
                             fmt::format("{} others", replayed.reasons.size())));
  }
  return found;
}

}  // namespace driftbench::record
