// Compiling: sources apart, small groups hidden, order of techniques, degenerate classes.
#include "classroom/compile.h"

#include "support/class_rig.h"

#include "base/csv.h"
#include "classroom/tables.h"
#include "classroom/words.h"
#include "record/attempt.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::classroom {
namespace {

const std::string kHeader = "operator,approach,entry_md_mm,entry_bl_mm,depth_mm,period,source\n";

Class compiled(const std::string& rows, std::optional<Names> names = std::nullopt) {
  Collector collector;
  collector.add(kHeader + rows, "holes.csv");
  return compile(collector.finish(), std::move(names));
}

/// `count` learners, two holes by either technique: free-hand 1 mm distal, sleeve at the plan.
std::string rows_of(int count, int freehand_period, int sleeve_period,
                    const std::string& source = "simulated") {
  std::string rows;
  for (int i = 0; i < count; ++i) {
    for (int k = 0; k < 2; ++k) {
      rows += fmt::format("learner-{},freehand,{},{},0.1,{},{}\n", i, 1.0 + 0.1 * i, 0.2 * k,
                          freehand_period + k, source);
      rows += fmt::format("learner-{},sleeve,{},{},0.1,{},{}\n", i, 0.1, 0.1 * k - 0.05 * i,
                          sleeve_period + k, source);
    }
  }
  return rows;
}

TEST(Compile, KeepsSimulatedAndRealApart) {
  const Class whole = compiled(rows_of(5, 1, 3) + rows_of(6, 1, 3, "bench"));
  ASSERT_EQ(whole.parts.size(), 2U);
  EXPECT_EQ(whole.parts[0].source, Source::kSimulated);
  EXPECT_EQ(whole.parts[0].learner_count, 5U);
  EXPECT_EQ(whole.parts[1].learner_count, 6U);
  EXPECT_EQ(whole.parts[0].statistics.paired.operators, 5U);
  EXPECT_EQ(whole.parts[0].statistics.groups.at(0).n, 10U);
}

TEST(Compile, SaysWhenPracticeAndTechniqueCannotBeSeparated) {
  const std::string freehand_first = rows_of(5, 1, 3);
  EXPECT_EQ(order_sentence(compiled(freehand_first).parts[0]),
            "Everyone went free-hand first: practice and technique cannot be separated.");
  EXPECT_EQ(compiled(rows_of(5, 3, 1)).parts[0].order, TechniqueOrder::kSleeveFirst);
  EXPECT_EQ(compiled(freehand_first + "x,sleeve,0,0,0,1,simulated\nx,freehand,0,0,0,2,simulated\n")
                .parts[0]
                .order,
            TechniqueOrder::kBoth);
  EXPECT_EQ(compiled("x,sleeve,0,0,0,,simulated\nx,freehand,0,0,0,,simulated\n").parts[0].order,
            TechniqueOrder::kUnknown);
}

TEST(Compile, HidesGroupsOfFewerThanFiveWithoutNames) {
  const Class hidden = compiled(rows_of(4, 1, 3));
  EXPECT_TRUE(hidden.parts[0].statistics.groups.empty());
  EXPECT_EQ(hidden.parts[0].hidden.size(), 2U);
  EXPECT_NE(hidden_sentence(hidden.parts[0]), "");
  EXPECT_NE(result_sentence(hidden.parts[0]).find("only together with names"), std::string::npos);
  const Class named = compiled(rows_of(4, 1, 3), Names{{"learner-0", "Ada"}});
  EXPECT_EQ(named.parts[0].statistics.groups.size(), 2U);
  EXPECT_EQ(named.parts[0].statistics.paired.operators, 4U);
  EXPECT_TRUE(named.parts[0].hidden.empty());
  // Five by hand, but only two who did both.
  const Class few_pairs = compiled(rows_of(2, 1, 3) +
                                   "c,freehand,1,0,0,1,simulated\nd,freehand,1,0,0,1,simulated\n"
                                   "e,freehand,1,0,0,1,simulated\nf,sleeve,1,0,0,1,simulated\n"
                                   "g,sleeve,1,0,0,1,simulated\nh,sleeve,1,0,0,1,simulated\n");
  EXPECT_EQ(few_pairs.parts[0].statistics.groups.size(), 2U);
  EXPECT_TRUE(few_pairs.parts[0].is_paired_hidden);
}

TEST(Compile, OrdersLearnersAtRandomButAlwaysTheSame) {
  const Class first = compiled(rows_of(9, 1, 3));
  std::vector<std::string> sorted = first.learners;
  std::sort(sorted.begin(), sorted.end());
  EXPECT_NE(first.learners, sorted);
  EXPECT_EQ(first.learners, compiled(rows_of(9, 1, 3)).learners);
}

TEST(Compile, SummarisesALearner) {
  // By hand: entries (1, 0) and (3, 2): mean (2, 1); variances 2 and 2, spread sqrt(2).
  const Class whole = compiled("a,freehand,1,0,-0.5,1,bench\na,freehand,3,2,0.5,2,bench\n");
  ASSERT_EQ(whole.parts.at(0).learners.size(), 1U);
  const LearnerSummary& one = whole.parts[0].learners[0];
  EXPECT_DOUBLE_EQ(one.bias->x, 2.0);
  EXPECT_DOUBLE_EQ(*one.bias_mm, std::sqrt(5.0));
  EXPECT_DOUBLE_EQ(*one.spread_mm, std::sqrt(2.0));
  EXPECT_DOUBLE_EQ(*one.depth_mean_mm, 0.0);
  EXPECT_FALSE(one.angle_mean_deg);
  EXPECT_EQ(one.learning.error().message, "found 2 values, expected at least 4");
}

TEST(Compile, ComparesEstimatesWithWhatWasMeasured) {
  // The sample attempt: estimated entry md 0.2, measured 0.1; six learners, the same each.
  Collector collector;
  for (int i = 0; i < 6; ++i) {
    collector.add(support::attempt_text(i, fmt::format("learner-{}", i)), fmt::format("{}", i));
  }
  const Class whole = compile(collector.finish(), std::nullopt);
  ASSERT_EQ(whole.parts.at(0).estimates.size(), 5U);
  const EstimateAgreement& entry_md = whole.parts[0].estimates[0];
  EXPECT_EQ(entry_md.measure, "entry_md_mm");
  EXPECT_NEAR(entry_md.agreement->bias, 0.1, 1e-12);
  EXPECT_EQ(entry_md.agreement->n, 6U);
}

TEST(Compile, ManagesAnEmptyAndAnUnmeasuredClass) {
  EXPECT_TRUE(compile(Roster{}, std::nullopt).parts.empty());
  const Class gaps = compiled("a,sleeve,,,0.2,,bench\n");
  EXPECT_FALSE(gaps.parts.at(0).learners.at(0).bias);
  EXPECT_EQ(order_sentence(gaps.parts[0]), "");
}

TEST(Names, ReadsCodesOnce) {
  const auto names = read_names("name,code\nAda L.,amber-heron\n", "names.csv");
  ASSERT_TRUE(names.has_value());
  EXPECT_EQ(names->at("amber-heron"), "Ada L.");
  EXPECT_FALSE(read_names("code\na\n", "names.csv").has_value());
  EXPECT_FALSE(read_names("code,name\na,b\na,c\n", "names.csv").has_value());
}

TEST(Tables, HaveTheContractsColumnsAndComeBackTheSame) {
  std::vector<std::string> names;
  for (const Column& column : holes_columns()) {
    names.emplace_back(column.name);
  }
  EXPECT_EQ(base::csv_line(names), record::holes_csv_header());
  const Class whole = compiled(rows_of(5, 1, 3));
  const std::string table = holes_csv(whole);
  Collector collector;
  collector.add(table, "again.csv");
  EXPECT_EQ(holes_csv(compile(collector.finish(), std::nullopt)), table);
}

TEST(Tables, NeutraliseFormulasInText) {
  const Class whole = compiled("=HYPERLINK(1),freehand,1,0,-0.5,1,bench\n");
  EXPECT_NE(holes_csv(whole).find(",'=HYPERLINK(1),"), std::string::npos);
  EXPECT_NE(learners_csv(whole).find("\n'=HYPERLINK(1),"), std::string::npos);
  EXPECT_NE(holes_csv(whole).find(",-0.5,"), std::string::npos);  // numbers stay numbers
}

TEST(Tables, TellLearnersWithReasonsForWhatIsMissing) {
  const auto table = base::parse_csv(learners_csv(compiled("a,freehand,1,0,,1,bench\n")), "l");
  ASSERT_TRUE(table.has_value());
  const auto cell = [&](const char* name) { return table->rows.at(0).cells[*table->column(name)]; };
  EXPECT_EQ(cell("bias_md_mm"), "1");
  EXPECT_EQ(cell("spread_mm"), "");
  EXPECT_NE(cell("reasons").find("depth_mean_mm: found 0 depths, expected at least 1"),
            std::string::npos)
      << cell("reasons");
  for (const Column& column : learners_columns()) {
    EXPECT_NE(codebook_md().find(fmt::format("`{}`", column.name)), std::string::npos);
  }
}

}  // namespace
}  // namespace driftbench::classroom
