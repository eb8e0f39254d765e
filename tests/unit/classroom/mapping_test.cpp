// Foreign tables: separators, encodings, guesses, units, signs, bad rows with their lines.
#include "classroom/column_mapping.h"
#include "classroom/holes_rows.h"
#include "classroom/mapped_rows.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace driftbench::classroom {
namespace {

ForeignTable table_of(std::string_view text) {
  const base::Result<ForeignTable> table = read_foreign_table(text, "block.csv");
  EXPECT_TRUE(table.has_value()) << (table ? "" : table.error().message);
  return table.value_or(ForeignTable{});
}

std::vector<Entry> entries_of(const std::string& holes_csv) {
  std::vector<Entry> entries;
  std::vector<std::string> refused;
  const base::Result<void> read = visit_holes(
      holes_csv, "block.csv",
      [&](Entry&& entry) -> base::Result<void> {
        entries.push_back(std::move(entry));
        return {};
      },
      [&](std::string sentence) { refused.push_back(std::move(sentence)); });
  EXPECT_TRUE(read.has_value());
  EXPECT_TRUE(refused.empty());
  return entries;
}

const Choice* choice_of(const Mapping& mapping, std::string_view target) {
  for (const Choice& choice : mapping) {
    if (choice.target->name == target) {
      return &choice;
    }
  }
  return nullptr;
}

TEST(ForeignTable, FindsTheSeparator) {
  EXPECT_EQ(table_of("a,b,c\n1,2,3\n").separator, ',');
  EXPECT_EQ(table_of("a;b;c\n0,5;2,1;3\n0,7;1,1;2\n").separator, ';');
  EXPECT_EQ(table_of("a\tb\n1,5\t2\n").separator, '\t');
  EXPECT_EQ(table_of("\"a,x\",b\n\"1,5\",2\n").separator, ',');
}

TEST(ForeignTable, NamesEveryColumnOnce) {
  const ForeignTable table = table_of("x;;x;\n1;2;3;4\n");
  EXPECT_EQ(table.header, (std::vector<std::string>{"x", "column 2", "x (2)", "column 4"}));
}

TEST(ForeignTable, KeepsLinesAndSkipsBlankRows) {
  const ForeignTable table = table_of("a;b\n\n1;2\n;\n3;4\n");
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(table.rows[0].line, 3);
  EXPECT_EQ(table.rows[1].line, 5);
}

TEST(ForeignTable, ReadsWhatSpreadsheetsWrite) {
  // "Größe [µm]" in Windows-1252, then with a byte-order mark.
  const ForeignTable old = table_of(
      "Gr\xF6\xDF"
      "e [\xB5m];b\n1;2\n");
  EXPECT_TRUE(old.is_latin1);
  EXPECT_EQ(old.header[0], "Größe [µm]");
  EXPECT_EQ(table_of("\xEF\xBB\xBFGröße;b\n1;2\n").header[0], "Größe");
}

TEST(ForeignTable, RefusesWhatIsNoTable) {
  const auto message = [](std::string_view text) {
    const base::Result<ForeignTable> table = read_foreign_table(text, "x.csv");
    return table ? std::string("taken") : table.error().message;
  };
  EXPECT_NE(message("").find("x.csv:1: found an empty file"), std::string::npos);
  EXPECT_NE(message("no table at all").find("commas, semicolons or tabs"), std::string::npos);
  EXPECT_NE(message(std::string("a\0;b\0", 5)).find("UTF-16"), std::string::npos);
  EXPECT_NE(message("a;b\n\"open;2\n").find("x.csv:"), std::string::npos);
}

TEST(ForeignTable, OwnTablesAreKnown) {
  EXPECT_TRUE(is_own_table("operator,approach,entry_md_mm,entry_bl_mm\r\nx,freehand,1,2\r\n"));
  EXPECT_FALSE(is_own_table("operator,approach,entry_md_mm\n"));
  EXPECT_FALSE(is_own_table("operator;approach;entry_md_mm;entry_bl_mm\n"));
  EXPECT_FALSE(is_own_table("Name,Technique,Offset X,Offset Y\n"));
}

TEST(GuessMapping, EnglishNamesWithUnits) {
  const Mapping mapping = guess_mapping(
      table_of("Student,Technique,Entry mesio-distal [cm],Entry bucco-lingual [cm],Depth error "
               "(inch),Tilt MD (rad),Lean bucco-lingual (°),Hole dia. µm,Duration [min],Attempt\n"
               "a,b,1,2,3,4,5,6,7,8\n"));
  const std::vector<std::pair<std::string_view, std::string_view>> expected{
      {"operator", ""},       {"approach", ""},           {"entry_md_mm", "cm"},
      {"entry_bl_mm", "cm"},  {"depth_mm", "inch"},       {"tilt_md_deg", "rad"},
      {"tilt_bl_deg", "deg"}, {"hole_diameter_mm", "um"}, {"time_s", "min"},
      {"period", ""}};
  ASSERT_EQ(mapping.size(), expected.size());
  for (const auto& [target, unit] : expected) {
    SCOPED_TRACE(target);
    const Choice* choice = choice_of(mapping, target);
    ASSERT_NE(choice, nullptr);
    EXPECT_EQ(choice->unit == nullptr ? "" : choice->unit->name, unit);
    EXPECT_FALSE(choice->is_reversed);
  }
}

TEST(GuessMapping, GermanNamesAndReversedSigns) {
  const Mapping mapping = guess_mapping(
      table_of("Teilnehmer;Verfahren;Eintritt mesial (mm);Eintritt bukkal;Tiefe mm;Winkel "
               "Grad;apexBuccal_mm\na;b;1;2;3;4;5\n"));
  ASSERT_NE(choice_of(mapping, "entry_md_mm"), nullptr);
  EXPECT_TRUE(choice_of(mapping, "entry_md_mm")->is_reversed);
  ASSERT_NE(choice_of(mapping, "entry_bl_mm"), nullptr);
  EXPECT_TRUE(choice_of(mapping, "entry_bl_mm")->is_reversed);
  EXPECT_NE(choice_of(mapping, "depth_mm"), nullptr);
  EXPECT_NE(choice_of(mapping, "angle_deg"), nullptr);
  ASSERT_NE(choice_of(mapping, "apex_bl_mm"), nullptr);
  EXPECT_TRUE(choice_of(mapping, "apex_bl_mm")->is_reversed);
}

TEST(GuessMapping, OwnNamesAlwaysWin) {
  std::string header;
  for (const Target& target : kTargets) {
    header += fmt::format("{}{}", header.empty() ? "" : ";", target.name);
  }
  const Mapping mapping = guess_mapping(table_of(header + "\n"));
  ASSERT_EQ(mapping.size(), kTargets.size());
  for (const Choice& choice : mapping) {
    EXPECT_EQ(choice.column, choice.target->name);
    EXPECT_FALSE(choice.is_reversed);
  }
}

TEST(ForeignNumber, PointsCommasUnitsAndSigns) {
  const auto value = [](std::string_view cell, std::string_view unit) {
    return read_foreign_number(cell, *find_unit(unit)).value_or(-999.0);
  };
  EXPECT_DOUBLE_EQ(value("0,5", "mm"), 0.5);
  EXPECT_DOUBLE_EQ(value("-1.25", "cm"), -12.5);
  EXPECT_DOUBLE_EQ(value("\xE2\x88\x92"
                         "0,5",
                         "mm"),
                   -0.5);
  EXPECT_DOUBLE_EQ(value("1", "inch"), 25.4);
  EXPECT_DOUBLE_EQ(value("250", "um"), 0.25);
  EXPECT_DOUBLE_EQ(value("250 µm", "mm"), 0.25);
  EXPECT_DOUBLE_EQ(value("3 cm", "mm"), 30.0);
  EXPECT_NEAR(value("3.14159265358979", "rad"), 180.0, 1e-12);
  EXPECT_DOUBLE_EQ(value("12°", "rad"), 12.0);
  EXPECT_DOUBLE_EQ(value("1.5", "min"), 90.0);
  EXPECT_DOUBLE_EQ(value("1e-3", "mm"), 0.001);
  for (const std::string_view bad :
       {"1.234,5", "1,000,000", "abc", "", "5 deg", "5 kg", "--1", "1e9", "inf"}) {
    EXPECT_FALSE(read_foreign_number(bad, *find_unit("mm")).has_value()) << bad;
  }
}

constexpr std::string_view kBlock =
    "Name;Technik;mesial cm;Bukkal (mm);Tiefe\n"
    "k1;Freihand;0,08;0,2;0,4\n"
    "k2;Schablone;abc;0,1;0,2\n"
    "k3;Laser;0,01;0,1;0,2\n"
    "k4;FH;0,01;0,1\n"
    ";FH;0,01;0,1;0\n"
    "k6;guided;;;\n"
    "k7;Pilot;−0,02;;0,1\n";

Mapping block_mapping() {
  return read_mapping(
             "column,as,unit,sign,words\nName,operator,,,\nTechnik,approach,,,\nmesial "
             "cm,entry_md_mm,cm,-,\nBukkal (mm),entry_bl_mm,mm,-,\nTiefe,depth_mm,,,\n",
             "m.csv")
      .value();
}

TEST(MapRows, TakesGoodRowsAndNamesTheLinesOfTheOthers) {
  const MappedRows rows = map_rows(table_of(kBlock), block_mapping());
  EXPECT_EQ(rows.good, 2U);
  ASSERT_EQ(rows.problems.items.size(), 5U);
  EXPECT_EQ(rows.problems.items[0],
            "block.csv:3: found \"abc\" in the column \"mesial cm\", expected a number from "
            "-1000000 to 1000000, or an empty cell");
  EXPECT_NE(rows.problems.items[1].find("block.csv:4: found \"Laser\""), std::string::npos);
  EXPECT_NE(rows.problems.items[2].find("block.csv:5: found 4 cells"), std::string::npos);
  EXPECT_NE(rows.problems.items[3].find("block.csv:6: found an empty cell"), std::string::npos);
  EXPECT_NE(rows.problems.items[4].find("block.csv:7: found no measured"), std::string::npos);
  EXPECT_EQ(rows.unknown_words, std::vector<std::string>{"Laser"});
  const std::vector<Entry> entries = entries_of(rows.holes_csv);
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].line, 2);
  EXPECT_NEAR(*entries[0].measures.entry_md_mm, -0.8, 1e-12);
  EXPECT_NEAR(*entries[0].measures.entry_bl_mm, -0.2, 1e-12);
  EXPECT_NEAR(*entries[0].measures.depth_mm, 0.4, 1e-12);
  EXPECT_EQ(entries[1].line, 8);
  EXPECT_EQ(entries[1].approach, stats::Approach::kPilot);
  EXPECT_NEAR(*entries[1].measures.entry_md_mm, 0.2, 1e-12);
  EXPECT_FALSE(entries[1].measures.entry_bl_mm.has_value());
}

TEST(MapRows, RowsCountAsRealUnlessTheySaySimulated) {
  const std::string text =
      "operator;approach;depth_mm;entry_md_mm;source\na;fh;1;2;\nb;fh;1;2;simulated\n";
  const ForeignTable table = table_of(text);
  const std::vector<Entry> entries = entries_of(map_rows(table, guess_mapping(table)).holes_csv);
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].source, Source::kBench);
  EXPECT_EQ(entries[1].source, Source::kSimulated);
  for (const Entry& entry : entries_of(map_rows(table_of(kBlock), block_mapping()).holes_csv)) {
    EXPECT_EQ(entry.source, Source::kBench);
  }
}

TEST(MapRows, ConstantsAndOwnWordsForTheApproach) {
  const ForeignTable table = table_of("who,how,x,y\nk1,L,1,2\nk2,R,3,4\n");
  const Mapping words =
      read_mapping(
          "column,as,unit,sign,words\nwho,operator,,,\nhow,approach,,,L=freehand|R=sleeve\n"
          "x,entry_md_mm,,,\ny,entry_bl_mm,,,\n",
          "m.csv")
          .value();
  const std::vector<Entry> by_words = entries_of(map_rows(table, words).holes_csv);
  ASSERT_EQ(by_words.size(), 2U);
  EXPECT_EQ(by_words[1].approach, stats::Approach::kSleeve);
  const Mapping constant = read_mapping(
                               "column,as,unit,sign,words\nwho,operator,,,\n,approach,,,pilot\n"
                               "x,entry_md_mm,,,\ny,entry_bl_mm,,,\n",
                               "m.csv")
                               .value();
  const std::vector<Entry> by_constant = entries_of(map_rows(table, constant).holes_csv);
  ASSERT_EQ(by_constant.size(), 2U);
  EXPECT_EQ(by_constant[0].approach, stats::Approach::kPilot);
}

TEST(MapRows, SaysWhatTheMappingLacks) {
  const MappedRows rows = map_rows(table_of("a;b\n1;2\n"), {});
  EXPECT_EQ(rows.missing.size(), 3U);
  EXPECT_EQ(rows.good, 0U);
  EXPECT_TRUE(rows.holes_csv.empty());
}

TEST(MapRows, AFormulaStaysText) {
  const ForeignTable table = table_of("operator;approach;x;y\n=HYPERLINK(1);fh;1;2\n");
  EXPECT_NE(map_rows(table, guess_mapping(table)).holes_csv.find("'=HYPERLINK"), std::string::npos);
}

TEST(Mapping, IsTheSameAfterWritingAndReading) {
  Mapping mapping = block_mapping();
  mapping[1].words = {{"L|R, \"x\"", stats::Approach::kSleeve}};
  mapping[1].words[0].first = "L, \"x\"";
  const std::string text = write_mapping(mapping);
  EXPECT_EQ(write_mapping(read_mapping(text, "m.csv").value()), text);
  EXPECT_EQ(map_rows(table_of(kBlock), read_mapping(text, "m.csv").value()).good, 2U);
}

TEST(Mapping, RefusesWhatMakesNoSense) {
  const auto message = [](std::string_view row) {
    const auto mapping = read_mapping(fmt::format("column,as,unit,sign,words\n{}\n", row), "m.csv");
    return mapping ? std::string("taken") : mapping.error().message;
  };
  EXPECT_EQ(message("a,colour,,,"),
            "m.csv:2: found \"colour\" in the column as, expected a column of holes.csv");
  EXPECT_NE(message("a,depth_mm,deg,,").find("in the column unit"), std::string::npos);
  EXPECT_NE(message("a,depth_mm,,?,").find("in the column sign"), std::string::npos);
  EXPECT_NE(message("a,angle_deg,,-,").find("in the column sign"), std::string::npos);
  EXPECT_NE(message("a,approach,,,x=laser").find("in the column words"), std::string::npos);
  EXPECT_NE(message("a,depth_mm,,,\nb,depth_mm,,,").find("m.csv:3"), std::string::npos);
  EXPECT_NE(read_mapping("column,as\n", "m.csv").error().message.find("no column unit"),
            std::string::npos);
}

}  // namespace
}  // namespace driftbench::classroom
