#include "base/csv.h"
#include "base/json_reader.h"
#include "base/text.h"
#include "lesson/vocabulary.h"
#include "record/attempt.h"

namespace driftbench::record {
namespace {

/// Values of one row, in the order of the header; an empty text is a missing value.
std::vector<std::string> cells_of(const Attempt& attempt) {
  const lesson::AttemptSetup& setup = attempt.setup;
  const scoring::HoleMeasures* hole =
      attempt.results.has_value() && attempt.results->hole.has_value() ? &*attempt.results->hole
                                                                       : nullptr;
  const auto of_hole = [hole](double scoring::Deviation::*member) {
    return hole != nullptr ? base::number(hole->deviation.*member) : std::string();
  };
  return {
      attempt.attempt_id,
      attempt.operator_name,
      attempt.cohort,
      std::string(base::name_of(lesson::kApproachWords, setup.approach)),
      setup.implant_through_guide ? "yes" : "no",
      "hole",
      setup.site_name,
      setup.block.id,
      setup.block.second.has_value() ? base::number(setup.block.boundary_deg) : std::string(),
      std::to_string(attempt.period),
      of_hole(&scoring::Deviation::entry_md_mm),
      of_hole(&scoring::Deviation::entry_bl_mm),
      hole != nullptr ? base::number(hole->depth_error_mm) : std::string(),
      of_hole(&scoring::Deviation::apex_md_mm),
      of_hole(&scoring::Deviation::apex_bl_mm),
      of_hole(&scoring::Deviation::tilt_md_deg),
      of_hole(&scoring::Deviation::tilt_bl_deg),
      of_hole(&scoring::Deviation::angle_deg),
      hole != nullptr ? base::number(hole->hole_diameter_mm) : std::string(),
      attempt.results.has_value() ? base::number(attempt.results->process.time_s) : std::string(),
      "simulated",
  };
}

}  // namespace

std::string holes_csv_header() {
  const std::vector<std::string> names{
      "attempt_id",  "operator",    "cohort",    "approach",         "implant_through_guide",
      "measured",    "site",        "specimen",  "boundary_deg",     "period",
      "entry_md_mm", "entry_bl_mm", "depth_mm",  "apex_md_mm",       "apex_bl_mm",
      "tilt_md_deg", "tilt_bl_deg", "angle_deg", "hole_diameter_mm", "time_s",
      "source"};
  return base::csv_line(names);
}

std::string holes_csv_row(const Attempt& attempt) {
  return base::csv_line(cells_of(attempt));
}

}  // namespace driftbench::record
