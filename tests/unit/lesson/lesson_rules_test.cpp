// Rules of a lesson in files: the complete examples of the authors' page, defaults, and round
// trips.
#include "support/edit_text.h"
#include "support/read_file.h"

#include "lesson/lesson.h"
#include "lesson/lesson_set.h"

#include <gtest/gtest.h>

namespace driftbench::lesson {
namespace {

/// The n-th block of JSON on the authors' page.
std::string example(std::size_t n) {
  const std::string page = support::read_file("lessons/AUTHORING.md");
  const std::string open = "```json\n";
  std::size_t begin = page.find(open);
  for (; n > 0 && begin != std::string::npos; --n) {
    begin = page.find(open, begin + open.size());
  }
  begin += open.size();
  return page.substr(begin, page.find("```", begin) - begin);
}

TEST(LessonRules, TheCompleteLessonIsReadAndWrittenBackByteForByte) {
  const auto outcome = read_lesson(example(0), "example");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_TRUE(outcome.problems.empty());
  EXPECT_EQ(write_lesson(*outcome.value), example(0));
  const Lesson& lesson = *outcome.value;
  EXPECT_EQ(lesson.order.kind, OrderKind::kPermutedBlocks);
  EXPECT_EQ(lesson.blocks[0].estimate, (EstimatePlan{EstimateKind::kEveryNth, 3}));
  EXPECT_EQ(lesson.blocks[0].feedback.kind, FeedbackKind::kFading);
  EXPECT_EQ(lesson.blocks[0].feedback.delay_s, 4.0);
  EXPECT_EQ(lesson.blocks[1].feedback.between, Between::kNothing);
  EXPECT_EQ(lesson.criterion.rule, PassRule::kLearningEvidence);
  EXPECT_EQ(lesson.criterion.cap, 30);
  EXPECT_EQ(lesson.criterion.never, std::vector<CriticalEvent>{CriticalEvent::kPastDepth});
  EXPECT_EQ(lesson.device.allow, (std::vector<Device>{Device::kMouse, Device::kPen}));
  EXPECT_TRUE(lesson.device.one_per_lesson);
  EXPECT_FALSE(lesson.blocks[0].example.has_value());
  EXPECT_EQ(lesson.blocks[1].example, (WorkedExample{"expert", 12}));
  ASSERT_TRUE(lesson.prediction.has_value());
  EXPECT_EQ(lesson.prediction->ask, PredictionAsk::kWidest);
  EXPECT_EQ(lesson.prediction->groups.at(1).block_id, "through-the-sleeve");
}

TEST(LessonRules, TheCompleteSetNamesTheCompleteLesson) {
  const auto set = read_set(example(1), "example");
  ASSERT_TRUE(set.value.has_value()) << set.first_error();
  EXPECT_TRUE(set.problems.empty());
  EXPECT_EQ(write_set(*set.value), example(1));
  const auto lesson = read_lesson(example(0), "example");
  ASSERT_TRUE(lesson.value.has_value());
  EXPECT_TRUE(misfits(set.value->lessons.at(1), *lesson.value).empty());
}

TEST(LessonRules, ALessonWithoutRulesHasTheirDefaultsAndIsWrittenWithoutThem) {
  std::string text = support::read_file("lessons/find-the-centre.lesson.json");
  const std::size_t rules = text.find(",\n  \"criterion\"");
  ASSERT_NE(rules, std::string::npos);
  const auto outcome = read_lesson(text.substr(0, rules) + "\n}\n", "lesson");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_EQ(outcome.value->order, OrderPlan{});
  EXPECT_EQ(outcome.value->criterion, Criterion{});
  EXPECT_EQ(outcome.value->device, DevicePolicy{});
  EXPECT_EQ(outcome.value->blocks[0].feedback, FeedbackPlan{});
  EXPECT_EQ(write_lesson(*outcome.value).find("criterion"), std::string::npos);
}

TEST(LessonRules, PartsOfARuleHaveDefaults) {
  std::string text = support::with(example(0), ", \"run_sizes\": [2, 4]", "");
  text = support::with(text, ", \"full_first\": 2, \"between\": \"in-or-out\"", "");
  text =
      support::with(text, "    \"measures\": [\"entry\", \"apex\", \"angle\", \"depth\"],\n", "");
  const auto outcome = read_lesson(text, "example");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_EQ(write_lesson(*outcome.value), example(0));
}

// The words for own estimates before there were more of them.
TEST(LessonRules, EveryWordForTheOwnEstimateIsRead) {
  for (const auto& [word, kind] :
       {std::pair{"every", EstimateKind::kEvery}, std::pair{"none", EstimateKind::kNone},
        std::pair{"first-and-last", EstimateKind::kFirstAndLast},
        std::pair{"every-nth", EstimateKind::kEveryNth}}) {
    const auto outcome = read_lesson(
        support::with(example(0), "\"every-nth\"", "\"" + std::string(word) + "\""), "example");
    ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
    EXPECT_EQ(outcome.value->blocks[0].estimate.kind, kind) << word;
  }
}

TEST(LessonRules, MixedBlocksStandSideBySide) {
  std::string text = example(0);
  const std::size_t begin = text.find("    {\n      \"id\": \"by-hand\"");
  const std::size_t end = text.find("    {\n      \"id\": \"through-the-sleeve\"");
  const std::string between =
      support::with(text.substr(begin, end - begin), "\"by-hand\"", "\"between\"");
  text.insert(end, between);
  const auto outcome = read_lesson(text, "example");
  EXPECT_FALSE(outcome.value.has_value());
  EXPECT_NE(outcome.first_error().find("order.mix: found blocks that stand apart"),
            std::string::npos)
      << outcome.first_error();
}

}  // namespace
}  // namespace driftbench::lesson
