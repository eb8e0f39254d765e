// The shipped lesson, and what the reader makes of it.
#include "lesson/lesson.h"

#include "support/edit_text.h"
#include "support/read_file.h"

#include "base/sha256.h"

#include <gtest/gtest.h>

namespace driftbench::lesson {
namespace {

constexpr const char* kLessonPath = "lessons/find-the-centre.lesson.json";

std::string shipped_text() {
  return support::read_file(kLessonPath);
}

TEST(Lesson, ShippedFileReadsWithoutAnyFinding) {
  const auto outcome = read_lesson(shipped_text(), kLessonPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_TRUE(outcome.problems.empty());
  const Lesson& lesson = *outcome.value;
  EXPECT_EQ(lesson.id, "find-the-centre");
  ASSERT_EQ(lesson.blocks.size(), 2U);
  EXPECT_EQ(lesson.blocks[0].approach, specimen::Approach::kFreehand);
  EXPECT_FALSE(lesson.blocks[0].guide.has_value());
  EXPECT_EQ(lesson.blocks[1].approach, specimen::Approach::kSleeve);
  ASSERT_TRUE(lesson.blocks[1].guide.has_value());
  EXPECT_EQ(lesson.blocks[0].specimen, lesson.blocks[1].specimen) << "the same block twice";
  EXPECT_EQ(lesson.blocks[0].plan.depth_mm, 10.0);
  EXPECT_TRUE(lesson.blocks[0].show.start_mark);
  EXPECT_FALSE(lesson.blocks[0].show.numbers);
  EXPECT_EQ(lesson.blocks[0].estimate.kind, EstimateKind::kEvery);
}

// The file leaves the guide's calibrated numbers to their defaults; written out, they are all
// there.
TEST(Lesson, WhatIsWrittenReadsAsTheSameBytesAgain) {
  const auto outcome = read_lesson(shipped_text(), kLessonPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  const std::string written = write_lesson(*outcome.value);
  const auto again = read_lesson(written, kLessonPath);
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_TRUE(again.problems.empty());
  EXPECT_EQ(write_lesson(*again.value), written);
  EXPECT_EQ(again.value->blocks[1].guide, outcome.value->blocks[1].guide);
  EXPECT_EQ(again.value->blocks[1].specimen, outcome.value->blocks[1].specimen);
}

TEST(Lesson, KnowsTheDigestOfItsExactBytes) {
  const std::string text = shipped_text();
  const auto outcome = read_lesson(text + "\n", kLessonPath);
  ASSERT_TRUE(outcome.value.has_value());
  EXPECT_EQ(outcome.value->sha256, base::sha256_hex(text + "\n"));
  EXPECT_NE(outcome.value->sha256, base::sha256_hex(text));
}

TEST(Lesson, UnknownFieldIsAWarningAndTheLessonStillReads) {
  const auto outcome = read_lesson(
      support::with(shipped_text(), "\"minutes\": 20,", "\"minutes\": 20, \"points\": 3,"),
      kLessonPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  ASSERT_EQ(outcome.problems.size(), 1U);
  EXPECT_EQ(outcome.problems[0].severity, base::Problem::Severity::kWarning);
  EXPECT_EQ(outcome.problems[0].path, "points");
  EXPECT_GT(outcome.problems[0].line, 1);
  EXPECT_EQ(outcome.problems[0].column, 18);
}

TEST(Lesson, EveryErrorOfAFileIsReportedAtOnce) {
  std::string text = support::with(shipped_text(), "\"minutes\": 20", "\"minutes\": -3");
  text = support::with(text, "\"edge_mm\": 25.4", "\"edge_mm\": 254");
  text = support::with(text, "\"attempts\": 3", "\"attempts\": \"three\"");
  const auto outcome = read_lesson(text, kLessonPath);
  EXPECT_FALSE(outcome.value.has_value());
  EXPECT_EQ(outcome.problems.size(), 3U);
}

TEST(Lesson, TextFallsBackToEnglish) {
  const LocalText text{{"en", "hole"}, {"de", "Loch"}};
  EXPECT_EQ(text_in(text, "de"), "Loch");
  EXPECT_EQ(text_in(text, "fr"), "hole");
}

TEST(Lesson, ABlockMayTurnItsBoundaryAndLeaveOutWhatHasADefault) {
  std::string text = support::with(shipped_text(), "\"boundary_deg\": 0", "\"boundary_deg\": 37.5");
  text = support::with(text, "        \"voxel_mm\": 0.15,\n", "");
  const auto outcome = read_lesson(text, kLessonPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_EQ(outcome.value->blocks[0].specimen.boundary_deg, 37.5);
  EXPECT_EQ(outcome.value->blocks[0].specimen.voxel_mm, specimen::BlockSpec{}.voxel_mm);
}

}  // namespace
}  // namespace driftbench::lesson
