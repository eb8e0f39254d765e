// holes.csv: columns in the agreed order, missing values empty.
#include "support/sample_attempt.h"

#include "base/csv.h"
#include "record/attempt.h"

#include <gtest/gtest.h>

namespace driftbench::record {
namespace {

TEST(HolesCsv, HasTheAgreedColumns) {
  EXPECT_EQ(holes_csv_header(),
            "attempt_id,operator,cohort,approach,implant_through_guide,measured,site,specimen,"
            "boundary_deg,period,entry_md_mm,entry_bl_mm,depth_mm,apex_md_mm,apex_bl_mm,"
            "tilt_md_deg,tilt_bl_deg,angle_deg,hole_diameter_mm,time_s,source\r\n");
}

base::CsvTable table_of(const Attempt& attempt) {
  const auto table = base::parse_csv(holes_csv_header() + holes_csv_row(attempt), "holes.csv");
  EXPECT_TRUE(table.has_value()) << (table ? "" : table.error().message);
  return table.value_or(base::CsvTable{});
}

std::string cell(const base::CsvTable& table, const std::string& column) {
  const auto index = table.column(column);
  return index.has_value() && !table.rows.empty() ? table.rows[0].cells[*index] : "no cell";
}

TEST(HolesCsv, RowHoldsTheMeasures) {
  const base::CsvTable table = table_of(support::sample_attempt(1));
  EXPECT_EQ(cell(table, "operator"), "calm otter");
  EXPECT_EQ(cell(table, "cohort"), "course \"A\", day 1");
  EXPECT_EQ(cell(table, "approach"), "sleeve");
  EXPECT_EQ(cell(table, "implant_through_guide"), "no");
  EXPECT_EQ(cell(table, "measured"), "hole");
  EXPECT_EQ(cell(table, "boundary_deg"), "0");
  EXPECT_EQ(cell(table, "period"), "2");
  EXPECT_EQ(cell(table, "entry_md_mm"), "0.1");
  EXPECT_EQ(cell(table, "depth_mm"), "0.4");
  EXPECT_EQ(cell(table, "apex_md_mm"), "0.3333333333333333");
  EXPECT_EQ(cell(table, "hole_diameter_mm"), "4.12");
  EXPECT_EQ(cell(table, "time_s"), "21.75");
  EXPECT_EQ(cell(table, "source"), "simulated");
}

TEST(HolesCsv, MissingValuesAreEmpty) {
  Attempt attempt = support::sample_attempt();
  specimen::block_in(attempt.setup.specimen)->second.reset();
  attempt.results->hole.reset();
  base::CsvTable table = table_of(attempt);
  EXPECT_EQ(cell(table, "boundary_deg"), "");
  EXPECT_EQ(cell(table, "entry_md_mm"), "");
  EXPECT_EQ(cell(table, "hole_diameter_mm"), "");
  EXPECT_EQ(cell(table, "time_s"), "21.75");
  attempt.results.reset();
  table = table_of(attempt);
  EXPECT_EQ(cell(table, "time_s"), "");
}

}  // namespace
}  // namespace driftbench::record
