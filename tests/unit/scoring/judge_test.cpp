// The conjunctive verdict.
#include "scoring/judge.h"

#include <gtest/gtest.h>

#include <limits>

namespace driftbench::scoring {
namespace {

TEST(Judge, APerfectHoleIsInside) {
  const Judgement judgement = judge(HoleMeasures{}, Tolerance{});
  EXPECT_TRUE(judgement.inside_tolerance);
  EXPECT_TRUE(judgement.reasons.empty());
}

TEST(Judge, TheLimitItselfIsInside) {
  const Tolerance tolerance;
  HoleMeasures hole;
  hole.deviation.entry_lateral_mm = tolerance.entry_mm;
  hole.deviation.apex_lateral_mm = tolerance.apex_mm;
  hole.deviation.angle_deg = tolerance.angle_deg;
  hole.depth_error_mm = tolerance.depth_low_mm;
  EXPECT_TRUE(judge(hole, tolerance).inside_tolerance);
  hole.depth_error_mm = tolerance.depth_high_mm;
  EXPECT_TRUE(judge(hole, tolerance).inside_tolerance);
}

TEST(Judge, OneMeasureOutsideIsEnoughAndIsNamed) {
  const Tolerance tolerance;
  HoleMeasures hole;
  hole.deviation.angle_deg = 5.01;
  const Judgement judgement = judge(hole, tolerance);
  EXPECT_FALSE(judgement.inside_tolerance);
  ASSERT_EQ(judgement.reasons.size(), 1U);
  EXPECT_EQ(judgement.reasons[0].measure, "angle_deg");
  EXPECT_EQ(judgement.reasons[0].found, 5.01);
  EXPECT_EQ(judgement.reasons[0].high, tolerance.angle_deg);
}

TEST(Judge, EveryReasonIsGiven) {
  HoleMeasures hole;
  hole.deviation.entry_lateral_mm = 1.2;
  hole.deviation.apex_lateral_mm = 2.0;
  hole.deviation.angle_deg = 7.0;
  hole.depth_error_mm = -1.4;
  const Judgement judgement = judge(hole, Tolerance{});
  ASSERT_EQ(judgement.reasons.size(), 4U);
  EXPECT_EQ(judgement.reasons[0].measure, "entry_lateral_mm");
  EXPECT_EQ(judgement.reasons[1].measure, "apex_lateral_mm");
  EXPECT_EQ(judgement.reasons[3].measure, "depth_error_mm");
  EXPECT_EQ(judgement.reasons[3].low, -1.0);
}

TEST(Judge, WhatIsNotANumberIsOutside) {
  HoleMeasures hole;
  hole.deviation.apex_lateral_mm = std::numeric_limits<double>::quiet_NaN();
  EXPECT_FALSE(judge(hole, Tolerance{}).inside_tolerance);
}

}  // namespace
}  // namespace driftbench::scoring
