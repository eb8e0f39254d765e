// A lesson from its first attempt to its end: laws over many seeds and many learners.
#include "unit/lesson/sequence_rig.h"

#include "lesson/sequence_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <utility>

namespace driftbench::lesson {
namespace {

Lesson with_rule(PassRule rule) {
  Lesson lesson = two_arms(4);
  lesson.order = {OrderKind::kPermutedBlocks, {}, {2, 4}};
  lesson.criterion.rule = rule;
  lesson.criterion.good = 6;
  lesson.criterion.last = 8;
  lesson.criterion.cap = 20;
  return lesson;
}

constexpr PassRule kRules[] = {PassRule::kNone, PassRule::kAllOf, PassRule::kOfLast,
                               PassRule::kLearningEvidence};

/// Works through one round; attempts are good with probability `skill`.
std::vector<PastAttempt> worked_through(const Lesson& lesson, std::uint64_t seed, double skill) {
  base::Rng luck(seed + 1000);
  std::vector<PastAttempt> history;
  while (history.size() < 1000) {
    const LessonProgress progress = lesson_progress(lesson, seed, history);
    if (progress.is_round_done || !progress.next.has_value()) {
      break;
    }
    const bool is_good = luck.uniform01() < skill;
    history.push_back(made(lesson, *progress.next, is_good, static_cast<double>(history.size())));
  }
  return history;
}

TEST(Sequence, EveryLearnerComesToAnEndWithinPlanAndCap) {
  for (const PassRule rule : kRules) {
    const Lesson lesson = with_rule(rule);
    for (std::uint64_t seed = 0; seed < 40; ++seed) {
      const double skill = static_cast<double>(seed % 5) / 4.0;
      const std::vector<PastAttempt> history = worked_through(lesson, seed, skill);
      const LessonProgress progress = lesson_progress(lesson, seed, history);
      ASSERT_TRUE(progress.is_round_done);
      ASSERT_GE(history.size(), 8U) << "the planned attempts are always made";
      ASSERT_LE(history.size(), 20U);
      ASSERT_EQ(progress.is_passed, progress.evidence.passed_at.has_value());
      ASSERT_EQ(progress.finished_days, history.back().finished_days);
      const bool is_complete = progress.is_passed || rule == PassRule::kNone;
      ASSERT_EQ(progress.complete_days.has_value(), is_complete);
      ASSERT_EQ(progress.next.has_value(), !is_complete) << "no dead end: another round";
      if (skill == 1.0 && rule != PassRule::kNone) {
        ASSERT_TRUE(progress.is_passed);
        ASSERT_EQ(history.size(), 8U);
      }
      if (skill == 0.0) {
        ASSERT_FALSE(progress.is_passed);
      }
    }
  }
}

TEST(Sequence, NoChallengeComesTwiceAndTheOrderIsThePlannedOne) {
  for (const PassRule rule : kRules) {
    const Lesson lesson = with_rule(rule);
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
      const std::vector<PastAttempt> history = worked_through(lesson, seed, 0.5);
      const std::vector<std::size_t> order = planned_order(lesson, seed, 0);
      std::set<std::pair<specimen::Approach, std::uint64_t>> challenges;
      for (std::size_t i = 0; i < history.size(); ++i) {
        challenges.insert({history[i].approach, history[i].attempt_index});
        if (i < order.size()) {
          ASSERT_EQ(history[i].block_id, lesson.blocks[order[i]].id) << i;
        }
      }
      ASSERT_EQ(challenges.size(), history.size());
    }
  }
}

// Resuming is replaying: every beginning of a history leads to the attempt that came next.
TEST(Sequence, TakenUpAtAnyPointItGoesOnAsWithoutABreak) {
  for (const PassRule rule : kRules) {
    const Lesson lesson = with_rule(rule);
    const std::vector<PastAttempt> history = worked_through(lesson, 3, 0.6);
    for (std::size_t length = 0; length < history.size(); ++length) {
      const auto begun = std::span<const PastAttempt>(history).first(length);
      const LessonProgress progress = lesson_progress(lesson, 3, begun);
      ASSERT_TRUE(progress.next.has_value());
      const PastAttempt& came = history[length];
      ASSERT_EQ(lesson.blocks[progress.next->block_index].id, came.block_id);
      ASSERT_EQ(progress.next->attempt_index, came.attempt_index);
      ASSERT_EQ(progress.done, length);
    }
  }
}

TEST(Sequence, AttemptsOfOtherLessonsAndLostBlocksChangeNothing) {
  const Lesson lesson = with_rule(PassRule::kOfLast);
  std::vector<PastAttempt> history = worked_through(lesson, 3, 0.6);
  history.resize(5);
  const std::optional<Step> next = lesson_progress(lesson, 3, history).next;
  PastAttempt other = history[0];
  other.lesson_id = "another";
  other.attempt_index = 70;
  history.insert(history.begin() + 2, other);
  other = history[0];
  other.block_id = "of-an-older-revision";
  other.attempt_index = 0;
  history.insert(history.begin() + 4, other);
  EXPECT_EQ(lesson_progress(lesson, 3, history).next, next);
}

TEST(Sequence, ExtraAttemptsComeFromTheBlocksThatCountAndNothingGetsEasier) {
  Lesson lesson = with_rule(PassRule::kLearningEvidence);
  lesson.criterion.blocks = {"by-hand"};
  lesson.criterion.cap = 12;
  const std::vector<PastAttempt> history = worked_through(lesson, 9, 0.0);
  ASSERT_EQ(history.size(), 16U) << "8 planned, and by-hand until 12 of them";
  for (std::size_t i = 0; i < history.size(); ++i) {
    const Step step = lesson_progress(lesson, 9, std::span<const PastAttempt>(history).first(i))
                          .next.value_or(Step{});
    EXPECT_EQ(step.is_extra, i >= 8);
    EXPECT_EQ(step.show, lesson.blocks[step.block_index].show);
    EXPECT_TRUE(i < 8 || step.block_index == 0);
  }
}

TEST(Sequence, ARoundWithoutAPassMayBeFollowedByAnotherThatCountsAlone) {
  const Lesson lesson = with_rule(PassRule::kAllOf);
  std::vector<PastAttempt> history = worked_through(lesson, 4, 0.0);
  LessonProgress progress = lesson_progress(lesson, 4, history);
  EXPECT_FALSE(progress.is_passed);
  EXPECT_EQ(progress.round, 0U);
  for (int i = 0; i < 8; ++i) {
    progress = lesson_progress(lesson, 4, history);
    ASSERT_TRUE(progress.next.has_value());
    history.push_back(made(lesson, *progress.next, true, 50.0 + i));
  }
  progress = lesson_progress(lesson, 4, history);
  EXPECT_EQ(progress.round, 1U);
  EXPECT_TRUE(progress.is_passed);
  EXPECT_EQ(progress.finished_days, 7.0) << "end of the first round";
  EXPECT_EQ(progress.complete_days, 57.0);
  EXPECT_FALSE(progress.next.has_value());
  history.push_back(made(lesson, {0, 99, 0, 0, {}, true, false}, false, 60.0));
  progress = lesson_progress(lesson, 4, history);
  EXPECT_TRUE(progress.is_passed) << "practice afterwards takes no pass away";
  EXPECT_EQ(progress.practice, std::vector<std::size_t>{16});
}

TEST(Sequence, ASummaryOpensWhenItsBlockIsDoneAndEverythingWhenTheRoundIs) {
  Lesson lesson = two_arms(3);
  lesson.blocks[0].feedback.kind = FeedbackKind::kSummary;
  lesson.blocks[1].feedback = {FeedbackKind::kBand, 2, Between::kNothing, 1.0, 0.0};
  std::vector<PastAttempt> history;
  const auto now = [&] {
    std::string text;
    for (const SeenAttempt& attempt : lesson_progress(lesson, 1, history).attempts) {
      text += attempt.now == Shown::kEverything ? 'E' : attempt.now == Shown::kInOrOut ? 'i' : '-';
    }
    return text;
  };
  std::vector<std::string> after;
  for (int i = 0; i < 6; ++i) {
    const std::optional<Step> next = lesson_progress(lesson, 1, history).next;
    ASSERT_TRUE(next.has_value());
    history.push_back(made(lesson, *next, true));
    after.push_back(now());
  }
  EXPECT_EQ(after, (std::vector<std::string>{"i", "ii", "EEE", "EEE-", "EEE--", "EEEEEE"}));
  EXPECT_EQ(lesson_progress(lesson, 1, history).attempts[0].at_once, Shown::kInOrOut);
}

}  // namespace
}  // namespace driftbench::lesson
