// What a recorded attempt says to the sequencing engine.
#include "record/past_attempt.h"

#include "support/shipped.h"

#include "lesson/guide_room.h"
#include "lesson/instruments.h"

#include <gtest/gtest.h>

namespace driftbench::record {
namespace {

Attempt measured() {
  Attempt attempt;
  attempt.setup.lesson_id = "lesson";
  attempt.setup.block_id = "by-hand";
  attempt.setup.attempt_index = 4;
  attempt.setup.tolerance.depth_high_mm = 0.5;
  scoring::Results results;
  results.hole.emplace();
  results.hole->deviation.entry_lateral_mm = 0.7;
  results.hole->depth_error_mm = -0.3;
  attempt.results = results;
  return attempt;
}

TEST(PastAttempt, TakesTheHoleUnlessAnImplantWasPlaced) {
  Attempt attempt = measured();
  const lesson::PastAttempt past = past_attempt(attempt, {}, {}, 3.5);
  EXPECT_EQ(past.lesson_id, "lesson");
  EXPECT_EQ(past.attempt_index, 4U);
  EXPECT_EQ(past.finished_days, 3.5);
  ASSERT_TRUE(past.errors.has_value());
  EXPECT_EQ(past.errors->entry_mm, 0.7);
  EXPECT_EQ(past.errors->depth_mm, -0.3);
  attempt.results->implant.emplace();
  attempt.results->implant->depth_error_mm = 0.2;
  EXPECT_EQ(past_attempt(attempt, {}, {}, 0.0).errors->depth_mm, 0.2);
}

TEST(PastAttempt, AWantedImplantThatIsMissingLeavesNoErrors) {
  Attempt attempt = measured();
  attempt.setup.place_implant = true;
  EXPECT_FALSE(past_attempt(attempt, {}, {}, 0.0).errors.has_value());
  attempt.results.reset();
  EXPECT_FALSE(past_attempt(attempt, {}, {}, 0.0).errors.has_value());
}

TEST(PastAttempt, NamesPastDepthAndPlunge) {
  Attempt attempt = measured();
  attempt.results->process.plunge_mm = 0.4;
  EXPECT_TRUE(past_attempt(attempt, {}, {}, 0.0).events.empty());
  attempt.results->process.plunge_mm = 0.6;
  scoring::Moment plunge;
  plunge.kind = scoring::MomentKind::kPlunge;
  const std::vector<scoring::Moment> moments{plunge};
  EXPECT_EQ(past_attempt(attempt, {}, moments, 0.0).events,
            (std::vector{lesson::CriticalEvent::kPastDepth, lesson::CriticalEvent::kPlunge}));
}

TEST(PastAttempt, IsCompleteOnlyWithEveryPlannedDrill) {
  Attempt attempt = measured();
  attempt.setup.kit.drills.resize(2);
  attempt.setup.kit.drills[0].id = "narrow";
  attempt.setup.kit.drills[1].id = "wide";
  attempt.setup.plan.drill_ids = {"narrow", "wide"};
  attempt.trace = {
      {0, {Op::kTakeDrill, {0, 0}}}, {9, {Op::kMotor, {1}}}, {9, {Op::kTakeDrill, {0}}}};
  EXPECT_EQ(drills_taken(attempt.trace), std::vector<std::int32_t>{0});
  EXPECT_FALSE(past_attempt(attempt, drills_taken(attempt.trace), {}, 0.0).is_complete);
  attempt.trace.push_back({20, {Op::kTakeDrill, {1}}});
  EXPECT_TRUE(past_attempt(attempt, drills_taken(attempt.trace), {}, 0.0).is_complete);
}

TEST(PastAttempt, NamesGuidedDrillsOfAWrongLength) {
  const lesson::AttemptSetup setup = support::shipped_setup(1);
  const std::int32_t first = lesson::drill_index_of(setup, setup.plan.drill_ids[0]);
  const std::int32_t second = lesson::drill_index_of(setup, setup.plan.drill_ids[1]);
  const auto right_mm = [&setup](std::size_t i) {
    return lesson::guided_lengths(setup)[i].nearest_mm;
  };
  const auto take = [](std::int32_t drill, double mm) {
    return TraceEntry{0, {Op::kTakeDrill, {drill, static_cast<std::int32_t>(1000.0 * mm)}}};
  };
  EXPECT_TRUE(wrong_lengths(setup, {}).empty());
  // Common teaching practice: implant + gap + sleeve height + key collar = stop to shoulder.
  EXPECT_DOUBLE_EQ(right_mm(0), 10.0 + 3.5 + 4.5 + 1.5);
  EXPECT_TRUE(wrong_lengths(setup, {take(first, 25.0), take(first, right_mm(0))}).empty())
      << "the last length counts";
  const auto wrong =
      wrong_lengths(setup, {take(first, right_mm(0)), take(second, right_mm(1) + 2.0)});
  ASSERT_EQ(wrong.size(), 1U);
  EXPECT_EQ(wrong[0].drill_index, second);
  EXPECT_DOUBLE_EQ(wrong[0].taken_mm, right_mm(1) + 2.0);
  EXPECT_DOUBLE_EQ(wrong[0].right_mm, right_mm(1));
  EXPECT_TRUE(wrong_lengths(support::shipped_setup(0), {take(first, 25.0)}).empty()) << "free-hand";
}

}  // namespace
}  // namespace driftbench::record
