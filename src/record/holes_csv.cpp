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
  const specimen::BlockSpec* block = specimen::block_in(setup.specimen);
  const scoring::HoleMeasures* hole =
      attempt.results.has_value() && attempt.results->hole.has_value() ? &*attempt.results->hole
                                                                       : nullptr;
  const scoring::ImplantMeasures* implant =
      attempt.results.has_value() && attempt.results->implant.has_value()
          ? &*attempt.results->implant
          : nullptr;
  const scoring::Deviation* deviation = implant != nullptr    ? &implant->deviation
                                        : setup.place_implant ? nullptr
                                        : hole != nullptr     ? &hole->deviation
                                                              : nullptr;
  const auto measured = [deviation](double scoring::Deviation::*member) {
    return deviation != nullptr ? base::number(deviation->*member) : std::string();
  };
  std::string depth;
  if (deviation != nullptr) {
    depth = base::number(implant != nullptr ? implant->depth_error_mm : hole->depth_error_mm);
  }
  return {
      attempt.attempt_id,
      attempt.operator_name,
      attempt.cohort,
      std::string(base::name_of(lesson::kApproachWords, setup.approach)),
      setup.implant_through_guide ? "yes" : "no",
      setup.place_implant ? "implant" : "hole",
      setup.site_name,
      specimen::id_of(setup.specimen),
      block != nullptr && block->second.has_value() ? base::number(block->boundary_deg)
                                                    : std::string(),
      std::to_string(attempt.period),
      measured(&scoring::Deviation::entry_md_mm),
      measured(&scoring::Deviation::entry_bl_mm),
      depth,
      measured(&scoring::Deviation::apex_md_mm),
      measured(&scoring::Deviation::apex_bl_mm),
      measured(&scoring::Deviation::tilt_md_deg),
      measured(&scoring::Deviation::tilt_bl_deg),
      measured(&scoring::Deviation::angle_deg),
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
