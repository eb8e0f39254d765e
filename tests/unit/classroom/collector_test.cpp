// Collecting: every attempt once, nothing replaced, every doubt a sentence.
#include "support/class_rig.h"

#include "classroom/roster.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::classroom {
namespace {

using support::attempt_text;

bool says(const Sentences& sentences, const std::string& words) {
  return std::any_of(sentences.items.begin(), sentences.items.end(), [&](const std::string& item) {
    return item.find(words) != std::string::npos;
  });
}

const std::string kHeader = "operator,approach,entry_md_mm,entry_bl_mm,source\n";

TEST(Collector, ReadsAnAttemptAsItsTableRowAndMore) {
  Collector collector;
  collector.add(attempt_text(1, "amber-heron"), "a.attempt.json");
  const Roster roster = collector.finish();
  ASSERT_EQ(roster.entries.size(), 1U) << (roster.refused.count > 0 ? roster.refused.items[0] : "");
  const Entry& entry = roster.entries[0];
  EXPECT_EQ(entry.learner, "amber-heron");
  EXPECT_EQ(entry.measures.entry_md_mm, 0.1);
  EXPECT_EQ(entry.measures.depth_mm, 0.4);
  EXPECT_EQ(entry.source, Source::kSimulated);
  EXPECT_EQ(entry.standing, Standing::kUnchecked);
  EXPECT_EQ(entry.inside, false);
  EXPECT_TRUE(entry.estimate.has_value());
  EXPECT_EQ(roster.lesson_id, "find-the-centre");
  EXPECT_TRUE(entry.counts());
}

TEST(Collector, TakesTheSameFileOnceAndNeverReplaces) {
  Collector collector;
  collector.add(attempt_text(1, "amber-heron"), "a.attempt.json");
  collector.add(attempt_text(1, "amber-heron"), "copy.attempt.json");
  collector.add(attempt_text(1, "birch-otter"), "other.attempt.json");
  const Roster roster = collector.finish();
  ASSERT_EQ(roster.entries.size(), 1U);
  EXPECT_EQ(roster.entries[0].learner, "amber-heron");
  EXPECT_EQ(roster.notes.count, 1U);
  EXPECT_EQ(roster.refused.count, 1U);
  EXPECT_TRUE(says(roster.refused, "other.attempt.json: found another file with the attempt id"));
}

TEST(Collector, NamesABrokenDigestAnotherEngineAndAnotherLesson) {
  Collector collector;
  record::Attempt old = support::sample_attempt();
  old.attempt_id = "old";
  old.engine = session::kEngine + 1;
  record::Attempt foreign = support::sample_attempt();
  foreign.attempt_id = "foreign";
  foreign.engine = session::kEngine;
  foreign.setup.lesson_id = "another-lesson";
  foreign.setup.lesson_sha256 = std::string(64, 'a');
  std::string edited = attempt_text(2, "birch-otter");
  const std::size_t place = edited.find("\"hole_diameter_mm\": 4.12");
  ASSERT_NE(place, std::string::npos);
  edited.replace(place, 24, "\"hole_diameter_mm\": 4.02");
  collector.add(attempt_text(1, "amber-heron"), "good");
  collector.add(edited, "edited");
  old.attempt_id = std::string(32, '3');
  foreign.attempt_id = std::string(32, '4');
  collector.add(record::write_attempt(old), "old");
  collector.add(record::write_attempt(foreign), "foreign");
  const Roster roster = collector.finish();
  ASSERT_EQ(roster.entries.size(), 4U) << (roster.refused.count > 0 ? roster.refused.items[0] : "");
  EXPECT_EQ(roster.entries[1].standing, Standing::kDiffers);
  EXPECT_EQ(roster.entries[1].reasons.at(0), "the results does not match its digest");
  EXPECT_FALSE(roster.entries[1].counts());
  EXPECT_EQ(roster.entries[2].standing, Standing::kOtherEngine);
  EXPECT_TRUE(roster.entries[2].counts());
  EXPECT_TRUE(roster.entries[3].is_other_lesson);
  EXPECT_FALSE(roster.entries[3].counts());
}

TEST(Collector, RefusesWhatItCannotReadWithASentence) {
  Collector collector;
  collector.add("{", "broken.attempt.json");
  collector.add("", "empty.attempt.json");
  collector.add("a,b\n1,2\n", "other.csv");
  const Roster roster = collector.finish();
  EXPECT_TRUE(roster.entries.empty());
  EXPECT_EQ(roster.refused.count, 3U);
  EXPECT_TRUE(says(roster.refused, "broken.attempt.json:1:"));
  EXPECT_TRUE(says(roster.refused, "other.csv:1: found no column operator"));
}

TEST(Collector, KeepsGoodRowsBesideBadOnes) {
  Collector collector;
  collector.add(kHeader +
                    "a,freehand,1,2,bench\nb,guided,1,2,bench\nc,sleeve,x,2,\n,sleeve,1,2,\n" +
                    "d,sleeve,0.5,,\ne,sleeve,0.5,1,elsewhere\n",
                "block.csv");
  const Roster roster = collector.finish();
  ASSERT_EQ(roster.entries.size(), 2U);
  EXPECT_EQ(roster.entries[1].source, Source::kBench);
  EXPECT_EQ(roster.entries[1].measures.entry_bl_mm, std::nullopt);
  EXPECT_EQ(roster.refused.count, 4U);
  EXPECT_TRUE(says(roster.refused, "block.csv:3: found \"guided\" in the column approach"));
  EXPECT_TRUE(says(roster.refused, "block.csv:4: found \"x\" in the column entry_md_mm"));
  EXPECT_TRUE(says(roster.refused, "block.csv:7: found \"elsewhere\" in the column source"));
}

TEST(Collector, HoldsATableAgainstTheAttemptFilesWhateverComesFirst) {
  record::Attempt attempt = support::sample_attempt();
  attempt.engine = session::kEngine;
  const std::string table = record::holes_csv_header() + record::holes_csv_row(attempt);
  std::string edited = table;
  edited.replace(edited.rfind(",4.12,"), 6, ",4.02,");
  for (const auto& [text, refused] : {std::pair(table, 0U), std::pair(edited, 1U)}) {
    Collector collector;
    collector.add(text, "holes.csv");
    collector.add(record::write_attempt(attempt), "a.attempt.json");
    const Roster roster = collector.finish();
    ASSERT_EQ(roster.entries.size(), 1U);
    EXPECT_EQ(roster.entries[0].measures.hole_diameter_mm, 4.12);
    EXPECT_EQ(roster.refused.count, refused);
  }
}

}  // namespace
}  // namespace driftbench::classroom
