#include "ui/explain_words.h"

#include "example.h"

#include <gtest/gtest.h>

namespace driftbench::ui {
namespace {

using scoring::Moment;
using scoring::MomentKind;

Moment moment(MomentKind kind, std::int64_t step, std::int32_t drill = 1) {
  Moment result;
  result.kind = kind;
  result.step = step;
  result.drill_index = drill;
  return result;
}

TEST(ExplainWords, SaysWhatPushedTheDrillAtFirstContact) {
  const ui_test::Example example = ui_test::make_example();
  Moment pushed = moment(MomentKind::kSideForce, 340);
  pushed.force_n = 5.2;
  pushed.amount_mm = 1.1;
  pushed.direction_md = 1.0;
  const std::vector<Moment> moments{moment(MomentKind::kFirstContact, 320), pushed};
  const auto said = explain_words(moments, example.freehand, example.results);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].sentence,
            "At 0.34 s the 2.0 mm drill met the block and was pushed sideways with 5.2 N, toward "
            "the soft half; it moved 1.1 mm before it bit.");
  EXPECT_EQ(said[0].step, 340);
}

TEST(ExplainWords, LaterPushNamesItsDepth) {
  const ui_test::Example example = ui_test::make_example();
  Moment pushed = moment(MomentKind::kSideForce, 4000, 2);
  pushed.force_n = 3.0;
  pushed.depth_mm = 6.5;
  pushed.direction_bl = -1.0;
  const std::vector<Moment> moments{moment(MomentKind::kFirstContact, 3000, 2), pushed};
  const auto said = explain_words(moments, example.freehand, example.results);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].sentence,
            "At 4.00 s, 6.5 mm deep, the 2.7 mm drill was pushed sideways with 3.0 N, toward you; "
            "it held its place.");
}

TEST(ExplainWords, AtMostThreeSentencesInOrderOfTime) {
  const ui_test::Example example = ui_test::make_example();
  std::vector<Moment> moments;
  for (int i = 0; i < 4; ++i) {
    Moment deep = moment(MomentKind::kPastDepth, 9000 - 1000 * i, 1 + i);
    deep.amount_mm = 0.3 + 0.1 * i;
    moments.push_back(deep);
  }
  Moment plunge = moment(MomentKind::kPlunge, 3000, 1);
  plunge.speed_mm_per_s = 40.0;
  moments.push_back(plunge);
  moments.push_back(moment(MomentKind::kSofter, 2900, 1));
  Moment pushed = moment(MomentKind::kSideForce, 500);
  pushed.force_n = 8.0;
  pushed.amount_mm = 1.0;
  pushed.direction_md = 1.0;
  moments.push_back(pushed);
  const auto said = explain_words(moments, example.freehand, example.results);
  ASSERT_EQ(said.size(), 3U);
  EXPECT_EQ(said[0].step, 500);
  EXPECT_EQ(said[1].step, 3000);
  EXPECT_EQ(said[2].step, 6000) << "the deepest of the four";
}

TEST(ExplainWords, WiderDrillsAreSaidToFollowThePilot) {
  const ui_test::Example example = ui_test::make_example();
  std::vector<Moment> moments{moment(MomentKind::kFirstContact, 540, 1)};
  for (int i = 0; i < 3; ++i) {
    Moment left = moment(MomentKind::kLeftLine, 570 + 3000 * i, 1 + i);
    left.force_n = 0.9;
    left.amount_mm = 0.9 + 0.1 * i;
    left.direction_md = 1.0;
    moments.push_back(left);
  }
  const auto said = explain_words(moments, example.freehand, example.results);
  ASSERT_EQ(said.size(), 2U);
  EXPECT_EQ(said[0].sentence,
            "At 0.57 s the 2.0 mm drill met the block and was pushed sideways with 0.9 N, toward "
            "the soft half; it moved 0.9 mm before it bit.");
  EXPECT_EQ(
      said[1].sentence,
      "The wider drills followed its path and stood 1.1 mm off at the end, toward the soft half.");
}

TEST(ExplainWords, OnePushIsSaidOnce) {
  const ui_test::Example example = ui_test::make_example();
  Moment pushed = moment(MomentKind::kSideForce, 560);
  pushed.force_n = 5.0;
  pushed.amount_mm = 1.0;
  pushed.direction_md = 1.0;
  Moment left = pushed;
  left.kind = MomentKind::kLeftLine;
  left.step = 570;
  const auto said =
      explain_words(std::vector<Moment>{pushed, left}, example.freehand, example.results);
  EXPECT_EQ(said.size(), 1U);
}

TEST(ExplainWords, QuietTraceSaysSoWithTheMeasuredError) {
  const ui_test::Example example = ui_test::make_example();
  const auto outside = explain_words({}, example.freehand, example.results);
  ASSERT_EQ(outside.size(), 1U);
  EXPECT_NE(outside[0].sentence.find("1.1 mm off"), std::string::npos) << outside[0].sentence;
  scoring::Results near = example.results;
  near.hole->deviation.entry_lateral_mm = 0.3;
  const auto inside = explain_words({}, example.freehand, near);
  ASSERT_EQ(inside.size(), 1U);
  EXPECT_NE(inside[0].sentence.find("0.3 mm from the plan"), std::string::npos);
}

TEST(ExplainWords, SleeveThatCarriesTheForceIsNamed) {
  const ui_test::Example example = ui_test::make_example();
  Moment carried = moment(MomentKind::kGuideCarries, 800);
  carried.force_n = 4.4;
  carried.direction_md = 1.0;
  const auto said = explain_words(std::vector<Moment>{carried}, example.sleeve, example.results);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].sentence,
            "At 0.80 s the sleeve took 4.4 N that would have pushed the 2.0 mm drill toward the "
            "soft half; it held.");
  carried.amount_mm = 0.2;
  Moment left = carried;
  left.kind = MomentKind::kLeftLine;
  const auto once =
      explain_words(std::vector<Moment>{carried, left}, example.sleeve, example.results);
  EXPECT_EQ(once.size(), 1U) << "one push, one sentence";
}

TEST(ExplainWords, NoHoleGivesTheReason) {
  const ui_test::Example example = ui_test::make_example();
  scoring::Results none;
  none.no_hole_reason = "Nothing was removed.";
  const auto said = explain_words({}, example.freehand, none);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].sentence, "Nothing was removed.");
}

TEST(ExplainWords, UnknownDrillIsJustTheDrill) {
  const ui_test::Example example = ui_test::make_example();
  const auto said = explain_words(std::vector<Moment>{moment(MomentKind::kSofter, 100, 99)},
                                  example.freehand, example.results);
  EXPECT_NE(said[0].sentence.find("the drill came into softer ground"), std::string::npos);
}

}  // namespace
}  // namespace driftbench::ui
