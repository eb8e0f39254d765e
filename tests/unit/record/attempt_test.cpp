// Attempt files: what is written comes back, bit for bit.
#include "record/attempt.h"

#include "support/sample_attempt.h"

#include <gtest/gtest.h>

namespace driftbench::record {
namespace {

AttemptFile read_back(const std::string& text) {
  const auto outcome = read_attempt(text, "x.attempt.json");
  EXPECT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_TRUE(outcome.problems.empty());
  return outcome.value.value_or(AttemptFile{});
}

TEST(AttemptFile, WritingWhatWasReadGivesTheSameBytes) {
  for (const std::size_t block : {0U, 1U}) {
    const std::string text = write_attempt(support::sample_attempt(block));
    EXPECT_EQ(write_attempt(read_back(text).attempt), text);
  }
}

TEST(AttemptFile, EveryPartComesBack) {
  const Attempt attempt = support::sample_attempt(1);
  const Attempt again = read_back(write_attempt(attempt)).attempt;
  EXPECT_EQ(again.attempt_id, attempt.attempt_id);
  EXPECT_EQ(again.engine, attempt.engine);
  EXPECT_EQ(again.operator_name, attempt.operator_name);
  EXPECT_EQ(again.cohort, attempt.cohort);
  EXPECT_EQ(again.device, attempt.device);
  EXPECT_EQ(again.period, attempt.period);
  EXPECT_EQ(again.setup, attempt.setup);
  EXPECT_EQ(again.trace, attempt.trace);
  EXPECT_EQ(again.end_step, attempt.end_step);
  EXPECT_EQ(again.state_hashes, attempt.state_hashes);
  ASSERT_TRUE(again.estimate.has_value());
  EXPECT_EQ(again.estimate->confidence, 2);
  EXPECT_EQ(again.estimate->depth_error_mm, -0.5);
  ASSERT_TRUE(again.results.has_value());
  ASSERT_TRUE(again.results->hole.has_value());
  EXPECT_EQ(again.results->hole->apex_mm, attempt.results->hole->apex_mm);
  EXPECT_EQ(again.results->hole->slices.size(), 2U);
  EXPECT_EQ(again.results->process.peak_side_step, 340);
  EXPECT_EQ(again.results->reasons[0].measure, "entry_lateral_mm");
}

TEST(AttemptFile, WhatIsAbsentStaysAbsent) {
  Attempt attempt = support::sample_attempt();
  attempt.estimate.reset();
  attempt.results.reset();
  const Attempt broken_off = read_back(write_attempt(attempt)).attempt;
  EXPECT_FALSE(broken_off.estimate.has_value());
  EXPECT_FALSE(broken_off.results.has_value());

  attempt.results = scoring::Results{};
  attempt.results->no_hole_reason = "nothing was drilled";
  const Attempt without_hole = read_back(write_attempt(attempt)).attempt;
  ASSERT_TRUE(without_hole.results.has_value());
  EXPECT_FALSE(without_hole.results->hole.has_value());
  EXPECT_EQ(without_hole.results->no_hole_reason, "nothing was drilled");
}

// Contract: the attempt's stream uses all 64 bits, so it is written as text and not as a number.
TEST(AttemptFile, KeepsAllBitsOfTheAttemptSeed) {
  Attempt attempt = support::sample_attempt();
  attempt.setup.seed = 0xffffffffffffffffU;
  EXPECT_EQ(read_back(write_attempt(attempt)).attempt.setup.seed, 0xffffffffffffffffU);
}

TEST(AttemptFile, ASetUpWithoutALessonComesBackToo) {
  Attempt attempt = support::sample_attempt();
  attempt.setup.lesson_id.clear();
  attempt.setup.lesson_sha256.clear();
  attempt.setup.block_id.clear();
  EXPECT_EQ(read_back(write_attempt(attempt)).attempt.setup, attempt.setup);
}

}  // namespace
}  // namespace driftbench::record
