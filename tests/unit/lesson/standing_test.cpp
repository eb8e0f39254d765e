// How a lesson stands and what may be seen of its attempts.
#include "lesson/standing.h"

#include "unit/lesson/sequence_rig.h"

#include "lesson/instruments.h"

#include <gtest/gtest.h>

namespace driftbench::lesson {
namespace {

/// A set of one lesson whose first block comes back after a week, twice.
LessonSet set_of(const Lesson& lesson) {
  LessonSet set;
  set.id = "one";
  set.lessons = {{lesson.id, "", Opens::kAlways, 0, Retention{7, "by-hand", 2}}};
  return set;
}

EntryProgress entry_at(const Lesson& lesson, const std::vector<PastAttempt>& history, double days) {
  return set_progress(set_of(lesson), std::vector{lesson}, history, days)->entries[0];
}

TEST(Standing, GoesFromNotBegunToPassedToDueAgain) {
  Lesson lesson = two_arms(1);
  lesson.criterion.rule = PassRule::kAllOf;
  std::vector<PastAttempt> history;
  EXPECT_EQ(lesson_state(entry_at(lesson, history, 0.0)), LessonState::kNotBegun);
  history.push_back(made(lesson, next_in_lesson(entry_at(lesson, history, 0.0))->step, true));
  EXPECT_EQ(lesson_state(entry_at(lesson, history, 0.0)), LessonState::kGoingOn);
  history.push_back(made(lesson, next_in_lesson(entry_at(lesson, history, 0.0))->step, true));
  EXPECT_EQ(lesson_state(entry_at(lesson, history, 1.0)), LessonState::kPassed);
  EXPECT_FALSE(next_in_lesson(entry_at(lesson, history, 1.0)).has_value());

  const EntryProgress due = entry_at(lesson, history, 8.0);
  EXPECT_EQ(lesson_state(due), LessonState::kDueAgain);
  ASSERT_TRUE(next_in_lesson(due).has_value());
  EXPECT_TRUE(next_in_lesson(due)->is_retention);
  EXPECT_FALSE(is_choice_free(lesson, due));
}

TEST(Standing, ARoundWithoutAPassIsNotPassedAndMayBeDoneAgain) {
  Lesson lesson = two_arms(1);
  lesson.criterion.rule = PassRule::kAllOf;
  std::vector<PastAttempt> history;
  for (int i = 0; i < 2; ++i) {
    history.push_back(made(lesson, next_in_lesson(entry_at(lesson, history, 0.0))->step, false));
  }
  EXPECT_EQ(lesson_state(entry_at(lesson, history, 0.0)), LessonState::kNotPassed);
  EXPECT_TRUE(next_in_lesson(entry_at(lesson, history, 0.0)).has_value());
  lesson.criterion.rule = PassRule::kNone;
  EXPECT_EQ(lesson_state(entry_at(lesson, history, 0.0)), LessonState::kFinished);
}

TEST(Standing, RetentionShowsNothingBeforeItsLastAttempt) {
  const Lesson lesson = two_arms(1);
  std::vector<PastAttempt> history;
  for (int i = 0; i < 2; ++i) {
    history.push_back(made(lesson, next_in_lesson(entry_at(lesson, history, 0.0))->step, true));
  }
  history.push_back(made(lesson, next_in_lesson(entry_at(lesson, history, 8.0))->step, true, 8.0));
  EXPECT_EQ(seen_of(entry_at(lesson, history, 8.0), 2, 2).now, Shown::kNothing);
  history.push_back(made(lesson, next_in_lesson(entry_at(lesson, history, 8.0))->step, true, 8.0));
  const EntryProgress kept = entry_at(lesson, history, 8.0);
  EXPECT_EQ(seen_of(kept, 2, 2).at_once, Shown::kNothing);
  EXPECT_EQ(seen_of(kept, 2, 2).now, Shown::kEverything);
  EXPECT_EQ(seen_of(kept, 2, 3).at_once, Shown::kEverything);
  EXPECT_EQ(lesson_state(kept), LessonState::kFinished);
}

TEST(Standing, AChosenBlockCountsItsOwnPlaces) {
  const Lesson lesson = two_arms(2);
  std::vector<PastAttempt> history{made(lesson, step_in_block(lesson, 1, 0, 2, {}), true)};
  const EntryProgress entry = entry_on_its_own(lesson, 5, history);
  EXPECT_EQ(chosen_step(lesson, entry, 0, history).place, 0U);
  EXPECT_EQ(chosen_step(lesson, entry, 1, history).place, 1U);
  EXPECT_EQ(chosen_step(lesson, entry, 1, history).attempt_index, 1U);
  EXPECT_EQ(entry.lesson.next->block_index, 0U);
}

TEST(Standing, AMixedOrderLeavesNoChoiceBeforeItsEnd) {
  Lesson lesson = two_arms(1);
  lesson.order.kind = OrderKind::kPermutedBlocks;
  EXPECT_FALSE(is_choice_free(lesson, entry_on_its_own(lesson, 5, {})));
  std::vector<PastAttempt> history;
  for (int i = 0; i < 2; ++i) {
    const EntryProgress entry = entry_on_its_own(lesson, 5, history);
    history.push_back(made(lesson, next_in_lesson(entry)->step, true));
  }
  EXPECT_TRUE(is_choice_free(lesson, entry_on_its_own(lesson, 5, history)));
}

TEST(Standing, AnAttemptWithoutEveryPlannedDrillIsNotGood) {
  const Lesson lesson = two_arms(1);
  PastAttempt attempt = made(lesson, step_in_block(lesson, 0, 0, 1, {}), true);
  EXPECT_TRUE(mark_of(attempt, lesson.tolerance, lesson.criterion).is_good);
  attempt.is_complete = false;
  EXPECT_FALSE(mark_of(attempt, lesson.tolerance, lesson.criterion).is_good);
}

TEST(Standing, PlannedDrillsThatHaveNotCutAreMissing) {
  AttemptSetup setup;
  setup.kit.drills.resize(3);
  setup.kit.drills[0].id = "a";
  setup.kit.drills[1].id = "b";
  setup.kit.drills[2].id = "c";
  setup.plan.drill_ids = {"b", "c"};
  EXPECT_EQ(missing_drills(setup, std::vector<std::int32_t>{1}), std::vector<std::int32_t>{2});
  EXPECT_TRUE(missing_drills(setup, std::vector<std::int32_t>{2, 0, 1}).empty());
}

}  // namespace
}  // namespace driftbench::lesson
