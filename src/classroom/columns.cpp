// What the columns mean: the one place that names them.
#include "classroom/tables.h"

#include <fmt/format.h>

#include <array>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kDistal = "+ distal (in a block: toward the second half)";
constexpr std::string_view kLingual = "+ lingual";
constexpr std::string_view kDeeper = "+ deeper than planned";

constexpr std::array<Column, 21> kHoles{{
    {"attempt_id", "identifier of the attempt; may be empty for real blocks", "", ""},
    {"operator", "code name of the learner", "", ""},
    {"cohort", "group as recorded", "", ""},
    {"approach", "freehand: no guide; pilot: first drill guided; sleeve: all drills guided", "",
     ""},
    {"implant_through_guide", "whether the implant too went through the guide: yes, no", "", ""},
    {"measured", "what the numbers describe: hole, implant", "", ""},
    {"site", "name of the site", "", ""},
    {"specimen", "name of the block or jaw", "", ""},
    {"boundary_deg", "direction of the boundary between two foams", "deg", "from + md toward + bl"},
    {"period", "order of the attempt within the learner, from 1", "", ""},
    {"entry_md_mm",
     "entry beside the plan, mesio-distal; hole: fitted axis in the planned platform "
     "plane; implant: centre of the platform",
     "mm", kDistal},
    {"entry_bl_mm", "the same, bucco-lingual", "mm", kLingual},
    {"depth_mm",
     "depth beside the plan, along the planned axis; hole: at the floor; implant: at the "
     "platform",
     "mm", kDeeper},
    {"apex_md_mm", "end beside the planned end, mesio-distal", "mm", kDistal},
    {"apex_bl_mm", "the same, bucco-lingual", "mm", kLingual},
    {"tilt_md_deg", "lean of the axis, mesio-distal", "deg", "+ end toward distal"},
    {"tilt_bl_deg", "lean of the axis, bucco-lingual", "deg", "+ end toward lingual"},
    {"angle_deg", "angle between the axes in space", "deg", "never negative"},
    {"hole_diameter_mm", "mean diameter of discs of the same area, 1 to 3 mm below the rim", "mm",
     ""},
    {"time_s", "from the first contact to the last", "s", ""},
    {"source", "simulated, or bench: a real block that was measured", "", ""},
}};

constexpr std::array<Column, 26> kLearners{{
    {"code", "code name of the learner", "", ""},
    {"name", "name from the instructor's list; empty without one", "", ""},
    {"source", "simulated, or bench: real blocks", "", ""},
    {"approach", "freehand, pilot or sleeve", "", ""},
    {"attempts", "attempts that count", "", ""},
    {"judged", "of them those that were held against tolerances", "", ""},
    {"inside", "of those, inside every tolerance", "", ""},
    {"critical_events",
     "events that fail an attempt: past the planned depth beyond the tolerance, "
     "stripped thread",
     "", ""},
    {"bias_md_mm", "mean of entry_md_mm", "mm", kDistal},
    {"bias_bl_mm", "mean of entry_bl_mm", "mm", kLingual},
    {"bias_mm", "distance of the mean entry from the plan", "mm", "never negative"},
    {"spread_mm", "square root of the mean of the two variances of the entry (n - 1)", "mm",
     "never negative"},
    {"depth_mean_mm", "mean of depth_mm", "mm", kDeeper},
    {"depth_sd_mm", "standard deviation of depth_mm (n - 1)", "mm", ""},
    {"angle_mean_deg", "mean of angle_deg; rises with scatter even without bias", "deg",
     "never negative"},
    {"hole_diameter_mean_mm", "mean of hole_diameter_mm", "mm", ""},
    {"time_median_s", "median of time_s", "s", ""},
    {"estimate_error_mm", "mean distance from the estimated to the measured entry", "mm",
     "never negative"},
    {"curve_level_mm", "level that the fitted distance of the entry comes down to", "mm", ""},
    {"curve_gain_mm", "fitted distance at the first attempt, above that level", "mm",
     "+ worse at first"},
    {"curve_rate", "how fast: after 1/rate attempts a third of the gain is left", "1/attempt", ""},
    {"repeated_equal", "attempts whose trace repeated equally", "", ""},
    {"not_repeated", "attempts that could not be or were not repeated", "", ""},
    {"first_period", "smallest period; empty when none is recorded", "", ""},
    {"last_period", "largest period; empty when none is recorded", "", ""},
    {"reasons", "why values of this row are empty", "", ""},
}};

std::string rows_of(std::span<const Column> columns) {
  std::string text = "| column | meaning | unit | sign |\n|---|---|---|---|\n";
  for (const Column& column : columns) {
    text += fmt::format("| `{}` | {} | {} | {} |\n", column.name, column.meaning, column.unit,
                        column.sign);
  }
  return text;
}

}  // namespace

std::span<const Column> holes_columns() {
  return kHoles;
}

std::span<const Column> learners_columns() {
  return kLearners;
}

std::string codebook_md() {
  return "# Codebook\n\n"
         "CSV in UTF-8, first row = names. An empty cell is a missing value. Text that a "
         "spreadsheet "
         "could take for a formula has an apostrophe in front. Both tables hold rows by code name: "
         "they are for the instructor. What is handed out is `report.html` or "
         "`class-summary.json`.\n\n"
         "## holes.csv: one row a hole or implant\n\n" +
         rows_of(kHoles) + "\n## learners.csv: one row a learner, source and approach\n\n" +
         rows_of(kLearners);
}

}  // namespace driftbench::classroom
