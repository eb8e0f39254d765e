// What virtual operators show: a worked example, and holes to judge.
#include "example.h"
#include "page.h"

#include "ui/remark_words.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::ui_test {
namespace {

void settle(Page& page, const ui::Model& model) {
  for (int i = 0; i < 3; ++i) {
    static_cast<void>(page.frame(model));
  }
}

std::size_t count_with(const Page& page, std::string_view words) {
  const auto items = page.items();
  return static_cast<std::size_t>(std::count_if(items.begin(), items.end(), [&](const Item& item) {
    return item.label.find(words) != std::string::npos;
  }));
}

TEST(ShowingScreens, ALessonOffersItsExampleFirstAndItCanBeSkipped) {
  Example example = make_example();
  example.lesson.blocks[0].example = lesson::WorkedExample{"expert", 1};
  Page page(1440, 900);
  ui::Model model = example.model(ui::Screen::kLesson, example.freehand);
  model.shelf[0].lessons[0].state = lesson::LessonState::kNotBegun;
  model.shelf[0].lessons[0].done_per_block = {0, 0};
  model.shelf[0].lessons[0].next->step.place = 0;
  settle(page, model);
  const auto watch = of_kind<ui::WatchExample>(page.click(model, "Watch it done first"));
  ASSERT_EQ(watch.size(), 1U);
  EXPECT_EQ(watch[0].block_index, 0U);
  EXPECT_EQ(of_kind<ui::OpenBriefing>(page.click(model, "Begin: Free-hand, hole 1 of 3")).size(),
            1U);
  // Watched once, it steps back; after the first own attempt it is gone from here.
  model.seen_shown = {"find-the-centre/by-hand"};
  settle(page, model);
  EXPECT_EQ(page.find("Watch it done first").id, 0U);
  EXPECT_NE(page.find("Watch it done").id, 0U);
  model.shelf[0].lessons[0].done_per_block = {1, 0};
  settle(page, model);
  EXPECT_EQ(page.find("Watch it done").id, 0U);
}

TEST(ShowingScreens, ABriefingOffersTheExampleOfItsBlock) {
  Example example = make_example();
  Page page(1024, 768);
  const ui::Model model = example.model(ui::Screen::kBriefing, example.sleeve);
  settle(page, model);
  const auto watch = of_kind<ui::WatchExample>(page.click(model, "Watch it done"));
  ASSERT_EQ(watch.size(), 1U);
  EXPECT_EQ(watch[0].block_index, 1U);
}

TEST(ShowingScreens, WhileItIsSimulatedTheProgressIsSaidAndTheWayOnIsOpen) {
  Example example = make_example();
  Page page(1280, 720);
  const ui::Model model = example.example_model(false, 0);
  settle(page, model);
  EXPECT_NE(page.find("Expert is drilling").label, "");
  EXPECT_NE(page.find("40 % done").label, "");
  EXPECT_EQ(of_kind<ui::OpenBriefing>(page.click(model, "Skip")).size(), 1U);
}

TEST(ShowingScreens, RemarksAppearAsTheReplayReachesThemAndLeadBackToTheirMoment) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.example_model(true, 0);
  settle(page, model);
  EXPECT_EQ(count_with(page, "touches lightly"), 0U);
  EXPECT_NE(page.find("Remarks come as the replay reaches them.").label, "");
  model = example.example_model(true, 600);
  settle(page, model);
  EXPECT_EQ(count_with(page, "touches lightly, with 4.2 N. The full 15.8 N"), 1U);
  EXPECT_EQ(count_with(page, "comes down"), 0U);
  const auto items = page.items();
  const auto touch = std::find_if(items.begin(), items.end(), [](const Item& item) {
    return item.label.find("touches lightly") != std::string::npos;
  });
  ASSERT_NE(touch, items.end());
  const auto scrub = of_kind<ui::ScrubTo>(page.click(model, touch->label));
  ASSERT_EQ(scrub.size(), 1U);
  EXPECT_EQ(scrub[0].step, 500);
  // Wound back, what was said stays.
  model.scrub_step = 0;
  settle(page, model);
  EXPECT_EQ(count_with(page, "touches lightly"), 1U);
}

TEST(ShowingScreens, AtItsEndTheExampleHandsOverToTheLearner) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.example_model(true, 0);
  model = example.example_model(true, model.end_step);
  settle(page, model);
  EXPECT_EQ(count_with(page, "Outside the tolerance: experts miss, too."), 1U);
  EXPECT_EQ(of_kind<ui::OpenBriefing>(page.click(model, "Go on: Free-hand, hole 2 of 3")).size(),
            1U);
  const auto again = page.click(model, "Once more");
  EXPECT_EQ(of_kind<ui::PlayReplay>(again).size(), 1U);
}

TEST(ShowingScreens, HolesAreJudgedBeforeTheNumbersCome) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.prediction_model(true, false);
  settle(page, model);
  EXPECT_EQ(count_with(page, "Middle"), 0U);
  EXPECT_FALSE(page.find("Show me").enabled) << "first choose";
  const auto said = of_kind<ui::JudgeGroup>(page.click(model, "Operator B: Off in one direction"));
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].group, 1U);
  EXPECT_TRUE(said[0].is_bias);
  example.judged.groups[0].said_bias = true;
  example.judged.groups[1].said_bias = true;
  settle(page, model);
  EXPECT_EQ(of_kind<ui::RevealPrediction>(page.click(model, "Show me")).size(), 1U);
  example.judged.is_revealed = true;
  settle(page, model);
  EXPECT_EQ(count_with(page, "Middle"), 2U);
  EXPECT_EQ(count_with(page, "You saw it."), 1U);
  EXPECT_EQ(count_with(page, "You judged otherwise."), 1U);
  EXPECT_EQ(count_with(page, "What helps against the one"), 1U);
}

TEST(ShowingScreens, NumbersWaitUntilAllHolesAreMade) {
  Example example = make_example();
  Page page(1024, 768);
  const ui::Model model = example.prediction_model(false, false);
  example.judged.groups[0].said_bias = true;
  example.judged.groups[1].said_bias = true;
  settle(page, model);
  EXPECT_FALSE(page.find("Show me").enabled);
  EXPECT_EQ(count_with(page, "3 of 6 holes"), 2U);
}

// Sentences of a guided drill: the sum of its stop, and what the sleeve carried.
TEST(RemarkWords, AGuidedDrillNamesItsSum) {
  const Example example = make_example();
  session::Remark remark;
  remark.kind = session::RemarkKind::kTakesDrill;
  remark.drill_index = 1;
  remark.count = 1;
  remark.amount = 19.5;
  EXPECT_EQ(
      ui::remark_words(remark, example.sleeve, example.results),
      "First the 2.0 mm drill. Its stop: 19.5 mm = 10.0 depth + 3.5 gap + 4.5 sleeve + 1.5 key.");
  remark.count = 2;
  remark.amount = 0.0;
  remark.second = 0.42;
  EXPECT_EQ(ui::remark_words(remark, example.freehand, example.results),
            "Now the 2.0 mm drill. It goes into the hole that is there, whose mouth lies 0.4 mm "
            "beside the plan.");
}

TEST(RemarkWords, APressThatStaysTheSameIsNotCalledEased) {
  const Example example = make_example();
  session::Remark remark;
  remark.kind = session::RemarkKind::kMeetsHarder;
  remark.depth_mm = 3.0;
  remark.amount = 12.0;
  remark.second = 12.4;
  EXPECT_EQ(ui::remark_words(remark, example.freehand, example.results),
            "3.0 mm deep the ground gets harder.");
  remark.second = 6.0;
  EXPECT_EQ(ui::remark_words(remark, example.freehand, example.results),
            "3.0 mm deep the ground gets harder. The hand eases from 12 to 6 N.");
}

}  // namespace
}  // namespace driftbench::ui_test
