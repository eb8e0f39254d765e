// Filters leave what they say, and say nothing about who is in it.
#include "classroom/filters.h"

#include "support/class_rig.h"

#include "classroom/compile.h"
#include "classroom/words.h"

#include <gtest/gtest.h>

namespace driftbench::classroom {
namespace {

Roster roster_of(const std::string& rows) {
  Collector collector;
  collector.add("operator,approach,entry_md_mm,entry_bl_mm,period,source\n" + rows, "holes.csv");
  return collector.finish();
}

const std::string kRows =
    "a,freehand,1,0,5,simulated\na,freehand,2,0,1,simulated\na,freehand,3,0,3,simulated\n"
    "a,sleeve,4,0,2,simulated\na,sleeve,5,0,4,simulated\nb,freehand,6,0,1,bench\n";

std::vector<double> entries_of(const Roster& roster) {
  std::vector<double> values;
  for (const Entry& entry : roster.entries) {
    values.push_back(entry.measures.entry_md_mm.value_or(-1.0));
  }
  return values;
}

TEST(Filters, NoneLeavesEverything) {
  EXPECT_EQ(entries_of(filtered(roster_of(kRows), {})), (std::vector<double>{1, 2, 3, 4, 5, 6}));
}

TEST(Filters, SourceAndApproachChoose) {
  Filters filters;
  filters.source = Source::kBench;
  EXPECT_EQ(entries_of(filtered(roster_of(kRows), filters)), (std::vector<double>{6}));
  filters = {};
  filters.approach = stats::Approach::kSleeve;
  EXPECT_EQ(entries_of(filtered(roster_of(kRows), filters)), (std::vector<double>{4, 5}));
}

// Halves go by period, within a learner, an approach and a source; the middle of three is early.
TEST(Filters, EarlyAndLateAreTheWholeWithoutOverlap) {
  Filters filters;
  filters.window = Window::kEarly;
  EXPECT_EQ(entries_of(filtered(roster_of(kRows), filters)), (std::vector<double>{2, 3, 4, 6}));
  filters.window = Window::kLate;
  EXPECT_EQ(entries_of(filtered(roster_of(kRows), filters)), (std::vector<double>{1, 5}));
}

TEST(Filters, DeviceIsThatOfTheRecord) {
  record::Attempt attempt = support::sample_attempt();
  attempt.device = "touch";
  Collector collector;
  collector.add(record::write_attempt(attempt), "a.attempt.json");
  const Roster roster = collector.finish();
  EXPECT_EQ(devices_of(roster), std::vector<std::string>{"touch"});
  Filters filters;
  filters.device = "touch";
  EXPECT_EQ(filtered(roster, filters).entries.size(), 1U);
  filters.device = "mouse";
  EXPECT_TRUE(filtered(roster, filters).entries.empty());
}

TEST(Disguise, CallsLearnersByNumberInAnotherOrder) {
  std::string rows;
  for (int i = 0; i < 12; ++i) {
    rows += fmt::format("code-{},freehand,1,0,1,simulated\n", i);
  }
  const Class plain = compile(roster_of(rows), std::nullopt);
  const Class first = compile(roster_of(rows), std::nullopt, 1);
  const Class second = compile(roster_of(rows), std::nullopt, 2);
  EXPECT_EQ(label_of(first, 3), "Learner 4");
  EXPECT_NE(first.learners, plain.learners);
  EXPECT_NE(first.learners, second.learners);
  EXPECT_EQ(first.learners, compile(roster_of(rows), std::nullopt, 1).learners);
  EXPECT_EQ(plain.learners, compile(roster_of(rows), std::nullopt).learners);
}

}  // namespace
}  // namespace driftbench::classroom
