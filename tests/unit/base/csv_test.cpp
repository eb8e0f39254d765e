// The rules of RFC 4180 one by one, refusals with their line, and the way out and back.
#include "base/csv.h"

#include "support/random_index.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {
namespace {

using Cells = std::vector<std::string>;

CsvTable parsed(std::string_view text) {
  Result<CsvTable> table = parse_csv(text, "t.csv");
  EXPECT_TRUE(table.has_value()) << (table ? "" : table.error().message);
  return table.value_or(CsvTable{});
}

std::string refusal(std::string_view text, const CsvLimits& limits = {}) {
  const Result<CsvTable> table = parse_csv(text, "t.csv", limits);
  return table ? "accepted" : table.error().message;
}

// Source: RFC 4180 section 2, rules 1 and 2 (with and without the last line end).
TEST(Csv, RecordsEndAtLineEnds) {
  for (const std::string_view text :
       {"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa,bbb,ccc\r\nzzz,yyy,xxx",
        "aaa,bbb,ccc\nzzz,yyy,xxx\n", "aaa,bbb,ccc\rzzz,yyy,xxx\r"}) {
    const CsvTable table = parsed(text);
    EXPECT_EQ(table.header, (Cells{"aaa", "bbb", "ccc"}));
    ASSERT_EQ(table.rows.size(), 1U);
    EXPECT_EQ(table.rows[0].cells, (Cells{"zzz", "yyy", "xxx"}));
    EXPECT_EQ(table.rows[0].line, 2);
  }
}

// Source: RFC 4180 section 2, rules 5 to 7.
TEST(Csv, QuotedCellsHoldCommasLineEndsAndQuotes) {
  const CsvTable table =
      parsed("x,y,z\r\n\"aaa\",\"b\r\nbb\",\"c,c\"\r\n\"aaa\",\"b\"\"bb\",ccc\r\n");
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(table.rows[0].cells, (Cells{"aaa", "b\r\nbb", "c,c"}));
  EXPECT_EQ(table.rows[1].cells, (Cells{"aaa", "b\"bb", "ccc"}));
  EXPECT_EQ(table.rows[1].line, 4) << "a line end inside quotes is a line of the file";
}

TEST(Csv, SpacesBelongToTheCell) {
  EXPECT_EQ(parsed("a,b\n 1 ,\t2\n").rows.at(0).cells, (Cells{" 1 ", "\t2"}));
}

TEST(Csv, EmptyCellsAreKept) {
  EXPECT_EQ(parsed("a,b,c\n,,\n").rows.at(0).cells, (Cells{"", "", ""}));
  EXPECT_EQ(parsed("a,b\n1,").rows.at(0).cells, (Cells{"1", ""}));
}

TEST(Csv, EmptyLinesAreSkippedAndCounted) {
  const CsvTable table = parsed("a\n\n1\r\n\r\n2\n\n");
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(table.rows[0].line, 3);
  EXPECT_EQ(table.rows[1].line, 5);
}

TEST(Csv, ByteOrderMarkIsSkipped) {
  EXPECT_EQ(parsed("\xef\xbb\xbfid\n7\n").header, Cells{"id"});
}

TEST(Csv, ColumnsAreFoundByName) {
  const CsvTable table = parsed("id, depth_mm ,time_s\n1,2,3\n");
  EXPECT_EQ(table.column("depth_mm"), 1U);
  EXPECT_FALSE(table.column("depth").has_value());
}

TEST(Csv, RefusalsNameTheLine) {
  EXPECT_EQ(refusal("a,b\n1,2\n1,2,3\n"),
            "t.csv:3: found 3 cells, expected 2, as in the first row");
  EXPECT_EQ(refusal("a,b\n1,\"2\n"),
            "t.csv:2: found a quote that is never closed, expected a closing quote");
  EXPECT_EQ(refusal("a,b\n1,2\"\n").substr(0, 15), "t.csv:2: found ");
  EXPECT_EQ(refusal("a,b\n\"1\"x,2\n"),
            "t.csv:2: found text after a closing quote, expected a comma or the end of the line");
  EXPECT_EQ(refusal("a,a\n"),
            "t.csv:1: found the column name \"a\" twice, expected every name once");
  EXPECT_EQ(refusal("a,,b\n"),
            "t.csv:1: found a column without a name, expected a name for every column");
  EXPECT_EQ(refusal("a;b\n1;2\n"),
            "t.csv:1: found semicolons between the columns, expected commas");
}

TEST(Csv, EmptyAndForeignFilesAreRefused) {
  EXPECT_NE(refusal(""), "accepted");
  EXPECT_NE(refusal("\n\n"), "accepted");
  EXPECT_NE(refusal("a,b\n1,\xff\n"), "accepted");
  EXPECT_NE(refusal(std::string_view("a,b\n1,\0\n", 9)), "accepted");
}

TEST(Csv, LimitsAreEnforced) {
  EXPECT_NE(refusal("a,b\n1,2\n", {.max_bytes = 4}), "accepted");
  EXPECT_NE(refusal("a\n1\n2\n", {.max_rows = 1}), "accepted");
  EXPECT_EQ(refusal("a\n1\n2\n", {.max_rows = 2}), "accepted");
  EXPECT_NE(refusal("a,b\n", {.max_columns = 1}), "accepted");
}

TEST(VisitCsv, AFailureOfTheReceiverEndsTheReading) {
  int row_count = 0;
  const auto take_header = [](const Cells& header) -> Result<void> {
    EXPECT_EQ(header, (Cells{"a", "b"}));
    return {};
  };
  const Result<void> read = visit_csv("a,b\n1,2\n3,4\n5,6\n", "t.csv", {}, take_header,
                                      [&row_count](CsvRow&& row) -> Result<void> {
                                        ++row_count;
                                        if (row.line == 3) {
                                          return fail(ErrorCode::kParse, "enough");
                                        }
                                        return {};
                                      });
  EXPECT_EQ(read.error().message, "enough");
  EXPECT_EQ(row_count, 2);
  const auto refuse_header = [](const Cells&) -> Result<void> {
    return fail(ErrorCode::kParse, "no");
  };
  EXPECT_FALSE(visit_csv("a\n1\n", "t.csv", {}, refuse_header, [](CsvRow&&) -> Result<void> {
    ADD_FAILURE() << "a row after a refused header";
    return {};
  }));
}

TEST(CsvLine, QuotesOnlyWhereNeeded) {
  const Cells cells = {"plain", "with, comma", "with \"quote\"", "two\nlines", ""};
  EXPECT_EQ(csv_line(cells), "plain,\"with, comma\",\"with \"\"quote\"\"\",\"two\nlines\",\r\n");
}

TEST(CsvLine, AnyTableReadsBack) {
  const std::string alphabet = "ab,\"\r\n ;";
  Rng rng(4);
  for (int round = 0; round < 300; ++round) {
    const std::size_t width = 1 + support::random_index(rng, 4);
    std::vector<Cells> rows;
    Cells header;
    for (std::size_t c = 0; c < width; ++c) {
      header.push_back("h" + std::to_string(c));
    }
    std::string text = csv_line(header);
    for (std::size_t r = support::random_index(rng, 4); r > 0; --r) {
      Cells row;
      for (std::size_t c = 0; c < width; ++c) {
        std::string cell;
        for (std::size_t k = support::random_index(rng, 5); k > 0; --k) {
          cell.push_back(alphabet[support::random_index(rng, alphabet.size())]);
        }
        row.push_back(cell);
      }
      rows.push_back(row);
      text += csv_line(row);
    }
    const CsvTable table = parsed(text);
    EXPECT_EQ(table.header, header);
    ASSERT_EQ(table.rows.size(), rows.size()) << text;
    for (std::size_t r = 0; r < rows.size(); ++r) {
      EXPECT_EQ(table.rows[r].cells, rows[r]) << text;
    }
  }
}

}  // namespace
}  // namespace driftbench::base
