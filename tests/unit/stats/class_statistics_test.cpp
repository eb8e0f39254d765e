// From a holes.csv to the statistics of a class: what is read, what is refused, what is null and
// why.
#include "stats/class_statistics.h"

#include "base/json_writer.h"
#include "stats/statistics_json.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::stats {
namespace {

const std::string kHeader = "operator,approach,entry_md_mm,entry_bl_mm,depth_mm\n";

HoleTable holes_of(const std::string& rows, const std::optional<std::string>& measure = {}) {
  base::Result<HoleTable> table = read_holes(kHeader + rows, "h.csv", measure);
  EXPECT_TRUE(table.has_value()) << (table ? "" : table.error().message);
  return table.value_or(HoleTable{});
}

std::string refusal(const std::string& text, const std::optional<std::string>& measure = {}) {
  const base::Result<HoleTable> table = read_holes(text, "h.csv", measure);
  return table ? "accepted" : table.error().message;
}

std::string json_of(const HoleTable& table) {
  base::JsonWriter writer;
  write_statistics(writer, table, class_statistics(table));
  return writer.take();
}

TEST(ReadHoles, BadTablesAreRefusedWithPlaceFoundAndExpected) {
  EXPECT_EQ(refusal(kHeader + "amber,guided,1,2,0\n"),
            "h.csv:2: found \"guided\" in the column approach, expected freehand, pilot or sleeve");
  EXPECT_EQ(refusal(kHeader + "amber,sleeve,1,2,0\namber,sleeve,1,two,0\n"),
            "h.csv:3: found \"two\" in the column entry_bl_mm, expected a number from -1000000 to "
            "1000000, or an empty cell");
  EXPECT_EQ(refusal(kHeader + " ,sleeve,1,2,0\n"),
            "h.csv:2: found an empty cell in the column operator, expected a name");
  EXPECT_EQ(refusal("approach,entry_md_mm,entry_bl_mm\n"),
            "h.csv:1: found no column operator, expected the columns operator and approach");
  EXPECT_NE(refusal("operator,approach,depth_mm,angle_deg\n").find("found 1 of the measured"),
            std::string::npos);
  EXPECT_NE(refusal("").find("found an empty file"), std::string::npos);
  EXPECT_NE(refusal(kHeader, "colour").find("found no column \"colour\""), std::string::npos);
  for (const std::string number : {"1e7", "nan", "inf", "0x10", "1,5"}) {
    EXPECT_NE(refusal(kHeader + "a,sleeve," + number + ",2,0\n"), "accepted") << number;
  }
}

TEST(ReadHoles, MissingCellsAreLeftOutAndNamed) {
  const HoleTable table =
      holes_of("a,freehand,1,,0.5\na,freehand,1,2,\nb,sleeve,1,2,0\n", "depth_mm");
  EXPECT_EQ(table.operators, (std::vector<std::string>{"a", "b"}));
  EXPECT_FALSE(table.holes[0].entry.has_value());
  EXPECT_EQ(table.holes[0].measure, 0.5);
  EXPECT_FALSE(table.holes[1].measure.has_value());
  ASSERT_EQ(table.left_out_count, 2U);
  EXPECT_EQ(table.left_out[0].line, 2);
  EXPECT_EQ(table.left_out[0].reason, "found no entry_bl_mm");
  EXPECT_EQ(table.left_out[1].reason, "found no depth_mm");
  const ClassStatistics statistics = class_statistics(table);
  EXPECT_EQ(statistics.groups[0].n, 1U);
  EXPECT_EQ(statistics.groups[0].measured, 1U);
}

TEST(ReadHoles, TheMeasureIsTheDistanceUnlessAColumnIsChosen) {
  EXPECT_EQ(holes_of("a,pilot,3,-4,9\n").holes[0].measure, 5.0);
  EXPECT_EQ(holes_of("a,pilot,3,-4,9\n", "depth_mm").holes[0].measure, 9.0);
}

TEST(ReadHoles, MixedKindsAreNamed) {
  const base::Result<HoleTable> table = read_holes(
      "operator,approach,entry_md_mm,entry_bl_mm,source\na,sleeve,1,2,bench\n"
      "a,sleeve,1,2,simulated\n",
      "h.csv", {});
  ASSERT_EQ(table.value().warnings.size(), 1U);
  EXPECT_NE(table->warnings[0].find("bench and simulated in the column source"), std::string::npos);
}

TEST(ClassStatistics, OneTableThroughEverything) {
  // Operators a and b, two holes each way; by hand from the definitions.
  const HoleTable table = holes_of(
      "a,sleeve,0,0,0\na,sleeve,0.6,0.8,0\nb,sleeve,0.3,0.4,0\nb,sleeve,0.3,-0.4,0\n"
      "a,freehand,3,4,0\na,freehand,1.5,2,0\nb,freehand,2.4,1,0\nb,freehand,0,1,0\n");
  const ClassStatistics statistics = class_statistics(table);
  ASSERT_EQ(statistics.groups.size(), 2U);
  const GroupStatistics& freehand = statistics.groups[0];
  EXPECT_EQ(freehand.approach, Approach::kFreehand);
  EXPECT_EQ(freehand.n, 4U);
  EXPECT_EQ(freehand.operators, 2U);
  EXPECT_NEAR(freehand.bias.value().x, 6.9 / 4.0, 1e-15);
  EXPECT_NEAR(freehand.bias.value().y, 2.0, 1e-15);
  EXPECT_NEAR(freehand.sd.value().y, std::sqrt(6.0 / 3.0), 1e-15);
  // Distances: a 5, 2.5; b 2.6, 1.
  EXPECT_NEAR(freehand.repeatability_sd.value(), std::sqrt((3.125 + 1.28) / 2.0), 1e-14);
  // Sleeve: a 0, 1; b 0.5, 0.5. Operators' means 3.75 - 0.5 and 1.8 - 0.5.
  const PairedStatistics& paired = statistics.paired;
  EXPECT_EQ(paired.operators, 2U);
  EXPECT_NEAR(paired.mean_difference.value(), (3.25 + 1.3) / 2.0, 1e-14);
  EXPECT_NEAR(paired.t.value().t, 2.275 / 0.975, 1e-12);
  EXPECT_EQ(paired.rank_sum.value(), 3.0);
  EXPECT_EQ(paired.rank_p.value(), 0.5);
  EXPECT_NEAR(paired.spread_ratio.value(),
              freehand.spread_mm.value() / statistics.groups[1].spread_mm.value(), 1e-12);
  EXPECT_FALSE(freehand.prediction_ellipse.has_value());
  EXPECT_EQ(freehand.hotelling.value().df2, 2.0);
}

TEST(ClassStatistics, OperatorsWithOneApproachDoNotPair) {
  const HoleTable table = holes_of(
      "a,freehand,1,0,0\na,sleeve,0,0,0\nb,freehand,9,0,0\nc,sleeve,5,5,0\nc,pilot,7,5,0\n");
  const PairedStatistics paired = class_statistics(table).paired;
  EXPECT_EQ(paired.operators, 1U);
  EXPECT_EQ(paired.mean_difference.value(), 1.0);
  EXPECT_EQ(paired.t.error().message, "found 1 pair, expected at least 2");
}

TEST(ClassStatistics, TheOrderOfRowsDoesNotMatter) {
  const std::string a = "a,freehand,1,0.2,0\na,freehand,0.5,0,0\na,sleeve,0.1,0,0\n";
  const std::string b = "b,sleeve,0.2,0.1,0\nb,freehand,1.4,0.9,0\nb,sleeve,0.1,0.3,0\n";
  const ClassStatistics forth = class_statistics(holes_of(a + b));
  const ClassStatistics back = class_statistics(holes_of(b + a));
  EXPECT_NEAR(forth.paired.mean_difference.value(), back.paired.mean_difference.value(), 1e-15);
  EXPECT_NEAR(forth.groups[0].spread_mm.value(), back.groups[0].spread_mm.value(), 1e-15);
  EXPECT_NEAR(forth.groups[1].r95_mm.value(), back.groups[1].r95_mm.value(), 1e-9);
}

// Tables that leave nothing or little to compute: always a document, never NaN or infinity.
TEST(StatisticsJson, DegenerateTablesGiveNullWithReasons) {
  std::string equal;
  for (int i = 0; i < 8; ++i) {
    equal += fmt::format("op{},{},0.1,0.7,0\n", i / 2, i % 2 == 0 ? "freehand" : "sleeve");
  }
  std::string line;
  for (int i = 0; i < 8; ++i) {
    line += fmt::format("op{},{},{},{},0\n", i / 2, i % 2 == 0 ? "freehand" : "sleeve", i, 2 * i);
  }
  const std::vector<std::string> tables{
      "",
      "a,freehand,1,2,0\n",
      "a,freehand,,,\n",
      "a,pilot,,2,1\na,sleeve,1,,1\n",
      equal,
      line,
      "a,freehand,1e6,-1e6,0\nb,freehand,-1e6,1e6,0\na,sleeve,1e-300,0,0\nb,sleeve,0,1e-300,0\n"};
  for (const std::string& rows : tables) {
    for (const std::optional<std::string>& measure :
         {std::optional<std::string>(), std::optional<std::string>("depth_mm")}) {
      SCOPED_TRACE(rows + measure.value_or(""));
      const std::string json = json_of(holes_of(rows, measure));
      EXPECT_EQ(json.find("nan"), std::string::npos);
      EXPECT_EQ(json.find("inf\""), std::string::npos);
      EXPECT_NE(json.find("null"), std::string::npos);
      EXPECT_NE(json.find("\"reasons\""), std::string::npos);
    }
  }
  EXPECT_NE(json_of(holes_of(equal)).find("\"spread_mm\": 0,"), std::string::npos);
  EXPECT_NE(json_of(holes_of(line)).find("on one line"), std::string::npos);
}

}  // namespace
}  // namespace driftbench::stats
