// A set over days: what opens, what comes next, what is due again.
#include "lesson/set_sequence.h"

#include "unit/lesson/sequence_rig.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <set>
#include <utility>

namespace driftbench::lesson {
namespace {

struct Course {
  LessonSet set;
  std::vector<Lesson> lessons;
};

/// Three lessons of two attempts a block; the first one comes back after a week.
Course course(Opens opens, PassRule rule) {
  Course made;
  made.set.id = "course";
  made.set.seed = 12;
  for (const char* id : {"one", "two", "three"}) {
    Lesson lesson = two_arms(2);
    lesson.id = id;
    lesson.criterion.rule = rule;
    lesson.criterion.good = 3;
    lesson.criterion.last = 4;
    lesson.criterion.cap = 8;
    made.lessons.push_back(lesson);
    made.set.lessons.push_back({id, "", opens, 2, std::nullopt});
  }
  made.set.lessons[0].retention = Retention{7, "by-hand", 3};
  return made;
}

SetProgress progress_of(const Course& course, const std::vector<PastAttempt>& history,
                        double now_days) {
  const auto progress = set_progress(course.set, course.lessons, history, now_days);
  EXPECT_TRUE(progress.has_value());
  return progress.value_or(SetProgress{});
}

/// Does what comes next; false when there is nothing to do.
bool do_next(const Course& course, std::vector<PastAttempt>& history, double now_days,
             bool is_good) {
  const SetProgress progress = progress_of(course, history, now_days);
  if (progress.next.has_value()) {
    history.push_back(
        made(course.lessons.at(progress.next->entry), progress.next->step, is_good, now_days));
  }
  return progress.next.has_value();
}

TEST(SetSequence, LessonsOpenOneAfterAnotherWithDaysBetween) {
  const Course days = course(Opens::kAfterFinished, PassRule::kNone);
  std::vector<PastAttempt> history;
  for (int i = 0; i < 4; ++i) {
    ASSERT_TRUE(do_next(days, history, 10.0, false));
    EXPECT_EQ(history.back().lesson_id, "one");
  }
  SetProgress progress = progress_of(days, history, 10.0);
  EXPECT_FALSE(progress.next.has_value());
  EXPECT_FALSE(progress.is_finished);
  EXPECT_EQ(progress.next_days, 12.0);
  EXPECT_FALSE(progress.entries[1].is_open);
  EXPECT_FALSE(progress.entries[2].opens_days.has_value()) << "not known yet";
  EXPECT_FALSE(progress_of(days, history, 11.99).next.has_value());
  progress = progress_of(days, history, 12.0);
  ASSERT_TRUE(progress.next.has_value());
  EXPECT_EQ(progress.next->entry, 1U);
}

TEST(SetSequence, WhatIsAlwaysOpenWaitsForNothing) {
  const Course open = course(Opens::kAlways, PassRule::kAllOf);
  const SetProgress progress = progress_of(open, {}, 0.0);
  EXPECT_TRUE(progress.entries[2].is_open);
  EXPECT_EQ(progress.next->entry, 0U) << "the order of the set all the same";
}

TEST(SetSequence, AMissingPassMeansAnotherRoundOfThatLesson) {
  const Course strict = course(Opens::kAfterPassed, PassRule::kAllOf);
  std::vector<PastAttempt> history;
  for (int i = 0; i < 4; ++i) {
    ASSERT_TRUE(do_next(strict, history, 0.0, false));
  }
  EXPECT_FALSE(progress_of(strict, history, 100.0).entries[1].is_open);
  EXPECT_FALSE(progress_of(strict, history, 100.0).entries[0].retention.due_days.has_value())
      << "nothing was learnt that could be kept";
  for (int i = 0; i < 4; ++i) {
    ASSERT_TRUE(do_next(strict, history, 1.0, true));
    EXPECT_EQ(history.back().lesson_id, "one");
  }
  const SetProgress progress = progress_of(strict, history, 3.0);
  EXPECT_EQ(progress.entries[0].lesson.round, 1U);
  EXPECT_EQ(progress.next->entry, 1U);
  const Course lenient = course(Opens::kAfterFinished, PassRule::kAllOf);
  history.resize(4);
  EXPECT_EQ(progress_of(lenient, history, 3.0).next->entry, 1U);
}

TEST(SetSequence, WhatIsDueAgainComesAfterAWeekButInterruptsNoLesson) {
  const Course days = course(Opens::kAfterFinished, PassRule::kNone);
  std::vector<PastAttempt> history;
  while (do_next(days, history, 0.0, true)) {
  }
  ASSERT_EQ(history.size(), 4U);
  ASSERT_TRUE(do_next(days, history, 5.0, true));
  EXPECT_EQ(history.back().lesson_id, "two");
  EXPECT_EQ(progress_of(days, history, 8.0).entries[0].retention.due_days, 7.0);
  EXPECT_EQ(progress_of(days, history, 8.0).next->entry, 1U) << "under way";
  for (int i = 0; i < 3; ++i) {
    ASSERT_TRUE(do_next(days, history, 8.0, true));
  }
  for (std::size_t place = 0; place < 3; ++place) {
    const SetProgress progress = progress_of(days, history, 8.5);
    ASSERT_TRUE(progress.next.has_value() && progress.next->is_retention);
    EXPECT_EQ(progress.next->step.place, place);
    EXPECT_EQ(progress.next->step.attempt_index, 2 + place) << "challenges never used before";
    ASSERT_TRUE(do_next(days, history, 8.5, true));
  }
  const SetProgress progress = progress_of(days, history, 8.5);
  EXPECT_EQ(progress.entries[0].retention.done, 3U);
  EXPECT_FALSE(progress.next.has_value());
  EXPECT_EQ(progress.next_days, 10.0) << "the third lesson";
}

TEST(SetSequence, PracticeBeforeItIsDueKeepsNothing) {
  const Course days = course(Opens::kAfterFinished, PassRule::kNone);
  std::vector<PastAttempt> history;
  while (do_next(days, history, 0.0, true)) {
  }
  PastAttempt practice = history[0];
  practice.attempt_index = 40;
  practice.finished_days = 6.9;
  history.push_back(practice);
  EXPECT_EQ(progress_of(days, history, 7.0).entries[0].retention.done, 0U);
  history.back().finished_days = 7.0;
  EXPECT_EQ(progress_of(days, history, 7.0).entries[0].retention.done, 1U);
  history.back().block_id = "by-sleeve";
  EXPECT_EQ(progress_of(days, history, 7.0).entries[0].retention.done, 0U) << "another block";
}

// Laws: every learner who ever learns comes to the end, nothing to do always says when there will
// be, no challenge comes twice, and every beginning of the history leads to what came next.
TEST(SetSequence, NoDeadEndNoRepetitionAndResumingIsReplaying) {
  for (const Opens opens : {Opens::kAfterFinished, Opens::kAfterPassed, Opens::kAlways}) {
    for (const PassRule rule : {PassRule::kNone, PassRule::kAllOf, PassRule::kOfLast}) {
      for (std::uint64_t seed = 0; seed < 8; ++seed) {
        Course all = course(opens, rule);
        all.set.seed = seed;
        base::Rng luck(seed);
        std::vector<PastAttempt> history;
        double now = 0.0;
        SetProgress progress = progress_of(all, history, now);
        while (!progress.is_finished && history.size() < 2000) {
          if (progress.next.has_value()) {
            const bool is_good = luck.uniform01() < 0.8;
            ASSERT_TRUE(do_next(all, history, now, is_good));
            ASSERT_EQ(progress_of(all, std::vector(history.begin(), history.end() - 1), now).next,
                      progress.next);
          } else {
            ASSERT_TRUE(progress.next_days.has_value());
            ASSERT_GT(*progress.next_days, now);
            now = *progress.next_days;
          }
          progress = progress_of(all, history, now);
        }
        ASSERT_TRUE(progress.is_finished) << seed;
        std::set<std::pair<std::string, std::pair<specimen::Approach, std::uint64_t>>> challenges;
        for (const PastAttempt& attempt : history) {
          challenges.insert({attempt.lesson_id, {attempt.approach, attempt.attempt_index}});
        }
        ASSERT_EQ(challenges.size(), history.size());
      }
    }
  }
}

TEST(SetSequence, LessonsOfAnotherSetAreRefused) {
  Course all = course(Opens::kAlways, PassRule::kNone);
  std::swap(all.lessons[0], all.lessons[1]);
  const auto swapped = set_progress(all.set, all.lessons, {}, 0.0);
  ASSERT_FALSE(swapped.has_value());
  EXPECT_EQ(swapped.error().code, base::ErrorCode::kMismatch);
  all.lessons.clear();
  EXPECT_FALSE(set_progress(all.set, all.lessons, {}, 0.0).has_value());
}

TEST(SetSequence, RetentionIsShownAfterItsLastAttempt) {
  EXPECT_EQ(shown_after_retention(0, 3), Shown::kNothing);
  EXPECT_EQ(shown_after_retention(2, 3), Shown::kEverything);
}

}  // namespace
}  // namespace driftbench::lesson
