// Writers: a page without scripts, safe text, words instead of numbers that do not exist.
#include "classroom/report.h"

#include "support/class_rig.h"

#include "base/json.h"
#include "classroom/methods.h"
#include "classroom/summary_json.h"

#include <gtest/gtest.h>

#include <regex>

namespace driftbench::classroom {
namespace {

const std::string kHeader =
    "operator,approach,entry_md_mm,entry_bl_mm,depth_mm,hole_diameter_mm,period,source\n";

Class compiled(const std::string& rows, std::optional<Names> names = std::nullopt) {
  Collector collector;
  collector.add(kHeader + rows, "holes.csv");
  return compile(collector.finish(), std::move(names));
}

std::string rows_of(int count, const std::string& source) {
  std::string rows;
  for (int i = 0; i < count; ++i) {
    for (int k = 0; k < 3; ++k) {
      rows += fmt::format("code-{},freehand,{},{},0.1,4.1,{},{}\n", i, 1.0 + 0.1 * i,
                          0.3 * k + 0.1 * (i * i % 5), k + 1, source);
      rows += fmt::format("code-{},sleeve,{},{},0.2,4.0,{},{}\n", i, 0.1 * k, 0.1 - 0.05 * i, k + 4,
                          source);
    }
  }
  return rows;
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

TEST(Report, ShowsEveryChartWithoutScripts) {
  const std::string page = report_html(compiled(rows_of(7, "simulated")));
  EXPECT_FALSE(has(page, "<script"));
  EXPECT_FALSE(has(page, "http:"));
  EXPECT_FALSE(has(page, "https:"));
  for (const char* title : {"Completion", "Bias against spread", "A target for each learner",
                            "The class on one target", "The same learners, free-hand and by sleeve",
                            "Entry error, attempt by attempt", "Hole size"}) {
    EXPECT_TRUE(has(page, std::string("<title>") + title)) << title;
  }
  EXPECT_EQ(count_of(page, "<svg"), count_of(page, "</svg>"));
  EXPECT_TRUE(has(page, "class=\"ellipse-freehand dashed\""));  // seven learners: on few
  EXPECT_TRUE(has(page, "practice and technique cannot be separated"));
  EXPECT_TRUE(has(page, "No estimates"));
  EXPECT_EQ(page, report_html(compiled(rows_of(7, "simulated"))));
}

TEST(Report, MarksRealBlocks) {
  EXPECT_FALSE(has(report_html(compiled(rows_of(5, "simulated"))), "class=\"dot\""));
  const std::string both = report_html(compiled(rows_of(5, "simulated") + rows_of(5, "bench")));
  EXPECT_TRUE(has(both, "class=\"dot\""));
  EXPECT_LT(both.find("<h2>Simulated blocks"), both.find("<h2>Real blocks"));
}

TEST(Report, NeutralisesMarkupInCodesAndNames) {
  const std::string row = "<script>alert(1)</script>,freehand,1,0,0,4,1,bench\n";
  const std::string page =
      report_html(compiled(row, Names{{"<script>alert(1)</script>", "<img src=x>"}}));
  EXPECT_FALSE(has(page, "<script"));
  EXPECT_FALSE(has(page, "<img"));
  EXPECT_TRUE(has(page, "&lt;img src=x&gt; (&lt;script&gt;"));
}

TEST(Report, HidesSmallGroupsWithoutNames) {
  const std::string hidden = report_html(compiled(rows_of(4, "bench")));
  EXPECT_FALSE(has(hidden, "code-0"));
  EXPECT_TRUE(has(hidden, "fewer than 5 learners did it: free-hand, sleeve"));
  const std::string named = report_html(compiled(rows_of(4, "bench"), Names{{"code-0", "Ada"}}));
  EXPECT_TRUE(has(named, "Ada (code-0)"));
}

TEST(Writers, HaveWordsForDegenerateClasses) {
  const std::regex not_a_number("\\b(nan|inf|-nan)\\b");
  for (const std::string& rows :
       {std::string(), std::string("a,sleeve,,,0.1,,,bench\n"),
        std::string("a,freehand,1,0,0,4,1,simulated\n"), rows_of(1, "bench"),
        std::string("a,freehand,0,0,0,4,1,bench\na,freehand,0,0,0,4,2,bench\n"
                    "a,sleeve,0,0,0,4,3,bench\na,sleeve,0,0,0,4,4,bench\n")}) {
    for (const bool is_named : {false, true}) {
      const Class whole = compiled(rows, is_named ? std::optional(Names{}) : std::nullopt);
      const std::string summary = summary_json(whole);
      EXPECT_TRUE(base::read_json(summary).has_value()) << summary;
      for (const std::string& text : {report_html(whole), methods_md(whole), summary}) {
        EXPECT_FALSE(std::regex_search(text, not_a_number)) << text;
      }
    }
  }
}

TEST(Summary, HoldsNoIndividuals) {
  const std::string summary = summary_json(compiled(rows_of(6, "simulated")));
  EXPECT_FALSE(has(summary, "code-"));
  const auto document = base::read_json(summary);
  ASSERT_TRUE(document.has_value());
  const base::JsonValue& part = document->find("sources")->items().at(0);
  EXPECT_EQ(part.find("order")->as_string(), "freehand-first");
  EXPECT_EQ(part.find("bands")->items().size(), 2U);
  EXPECT_EQ(part.find("bands")->items()[0].find("bias_mm")->items().size(), 2U);
  EXPECT_EQ(part.find("paired")->find("operators")->as_int64(), 6);
}

TEST(Methods, TellTheFormulasAndWhatCannotBeSaid) {
  const std::string text = methods_md(compiled(rows_of(6, "bench")));
  for (const char* words :
       {"Hotelling (1931)", "ISO 5725-2:1994", "Bland, Altman (1986)", "What this cannot say",
        "measured by hand", "Everyone went free-hand"}) {
    EXPECT_TRUE(has(text, words)) << words;
  }
}

}  // namespace
}  // namespace driftbench::classroom
