// Middle, scatter, weakest part, and the lesson that trains it.
#include "lesson/own_record.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftbench::lesson {
namespace {

TEST(OwnRecord, SeparatesTheMiddleFromTheScatter) {
  const std::vector<math::Vec2> points{{1.0, 0.5}, {2.0, 0.5}, {3.0, 0.5}};
  const OwnCloud cloud = own_cloud(points);
  EXPECT_EQ(cloud.count, 3U);
  EXPECT_DOUBLE_EQ(cloud.bias_mm.x, 2.0);
  EXPECT_DOUBLE_EQ(cloud.bias_mm.y, 0.5);
  // Variances 1 and 0: sqrt((1 + 0) / 2).
  EXPECT_NEAR(cloud.spread_mm.value(), std::sqrt(0.5), 1e-12);
  EXPECT_FALSE(own_cloud(std::span(points).first(1)).spread_mm.has_value());
  EXPECT_DOUBLE_EQ(own_cloud(std::span(points).first(1)).bias_mm.x, 1.0);
}

TEST(OwnRecord, WeakestIsTheLargestPartOfItsTolerance) {
  const scoring::Tolerance tolerance{1.0, 1.5, 5.0, -1.0, 0.5};
  const std::vector<AttemptErrors> attempts{{0.5, 0.6, 1.0, 0.4}, {0.5, 0.6, 1.0, -0.1}};
  const auto weakest = weakest_part(attempts, tolerance);
  ASSERT_TRUE(weakest.has_value());
  // Depth: sqrt((0.8^2 + 0.1^2) / 2) = 0.570; entry 0.5, apex 0.4, angle 0.2.
  EXPECT_EQ(weakest->measure, Measure::kDepth);
  EXPECT_NEAR(weakest->share, std::sqrt(0.325), 1e-12);
  EXPECT_FALSE(weakest_part({}, tolerance).has_value());
}

TEST(OwnRecord, TheNarrowestCriterionTrains) {
  using specimen::Approach;
  Lesson all;
  all.blocks.resize(1);
  all.criterion.rule = PassRule::kAllOf;
  Lesson depth = all;
  depth.criterion.measures = {Measure::kDepth, Measure::kAngle};
  Lesson unasked = depth;
  unasked.criterion.rule = PassRule::kNone;
  unasked.criterion.measures = {Measure::kDepth};
  Lesson guided = depth;
  guided.criterion.measures = {Measure::kDepth};
  guided.blocks[0].approach = Approach::kSleeve;
  const std::vector<const Lesson*> lessons{&unasked, &all, &depth, &guided};
  EXPECT_EQ(trainer_of(Measure::kDepth, Approach::kFreehand, lessons), 2U);
  EXPECT_EQ(trainer_of(Measure::kDepth, Approach::kSleeve, lessons), 3U);  // not a free hand's
  EXPECT_EQ(trainer_of(Measure::kEntry, Approach::kFreehand, lessons), 1U);
  EXPECT_FALSE(
      trainer_of(Measure::kEntry, Approach::kFreehand, std::span(lessons).first(1)).has_value());
}

}  // namespace
}  // namespace driftbench::lesson
