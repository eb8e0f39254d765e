// Shelf, lesson, logbook, and what the debrief says and keeps back.
#include "example.h"
#include "page.h"

#include "session/session.h"
#include "ui/course_words.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::ui_test {
namespace {

void settle(Page& page, const ui::Model& model) {
  for (int i = 0; i < 3; ++i) {
    static_cast<void>(page.frame(model));
  }
}

TEST(CourseScreens, AVerdictWithoutEveryPlannedDrillIsIncomplete) {
  Example example = make_example();
  example.results.inside_tolerance = true;
  example.results.reasons.clear();
  Page page(1440, 900);
  ui::Model model = example.model(ui::Screen::kDebrief, example.freehand);
  settle(page, model);
  EXPECT_NE(page.find("\xE2\x9C\x93  Inside every tolerance").label, "");
  model.missing_drills = {2, 4};
  settle(page, model);
  EXPECT_EQ(page.find("\xE2\x9C\x93  Inside every tolerance").label, "");
  EXPECT_NE(page.find("\xE2\x96\xB3  The sequence is incomplete").label, "");
  EXPECT_NE(page.find("Planned, but not used: 2.7, 4.0 mm.").label, "");
}

TEST(CourseScreens, AnAttemptThatIsNotShownYetGivesNoNumberAway) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.model(ui::Screen::kDebrief, example.freehand);
  model.shown = lesson::Shown::kNothing;
  settle(page, model);
  for (const Item& item : page.items()) {
    EXPECT_EQ(item.label.find("mm"), std::string::npos) << item.label;
    EXPECT_EQ(item.label.find("olerance"), std::string::npos) << item.label;
  }
  EXPECT_NE(page.find("Kept").label, "");
  model.shown = lesson::Shown::kInOrOut;
  settle(page, model);
  EXPECT_NE(page.find("\xE2\x96\xB3  Outside the tolerance").label, "");
  model.reveal_in_s = 2.2;
  settle(page, model);
  EXPECT_EQ(page.find("\xE2\x96\xB3  Outside the tolerance").label, "");
  EXPECT_NE(page.find("3 s").label, "");
}

TEST(CourseScreens, ShelfLeadsIntoALessonAndTheLessonIntoItsNextAttempt) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.model(ui::Screen::kShelf, example.freehand);
  settle(page, model);
  EXPECT_NE(page.find("Opens in 2 days").label, "");
  const auto opened = of_kind<ui::OpenLesson>(page.click(model, "Find the centre: Go on"));
  ASSERT_EQ(opened.size(), 1U);
  EXPECT_EQ(opened[0].place, (ui::Place{0, 0}));
  model = example.model(ui::Screen::kLesson, example.freehand);
  settle(page, model);
  const auto next = of_kind<ui::OpenBriefing>(page.click(model, "Go on: Free-hand, hole 2 of 3"));
  ASSERT_EQ(next.size(), 1U);
  EXPECT_FALSE(next[0].block_index.has_value());
  const auto chosen = of_kind<ui::OpenBriefing>(page.click(model, "Drill-guided: Start"));
  ASSERT_EQ(chosen.size(), 1U);
  EXPECT_EQ(chosen[0].block_index, 1U);
  model.is_locked = true;
  settle(page, model);
  EXPECT_EQ(page.find("Drill-guided: Start").label, "");
}

TEST(CourseScreens, ALessonSaysWhatItAsksOfTheDeviceAndLeadsToTheCheck) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.model(ui::Screen::kLesson, example.freehand);
  settle(page, model);
  EXPECT_EQ(page.find("In use now: mouse.").label, "") << "it asks for nothing";
  example.lesson.device.allow = {lesson::Device::kMouse, lesson::Device::kPen};
  example.lesson.device.check = lesson::DeviceCheck::kRequired;
  model.device.now = lesson::Device::kTouch;
  model.device.check = ui::Place{0, 1};
  model.device.is_checked = false;
  settle(page, model);
  EXPECT_NE(page.find("Only with: mouse, pen.").label, "");
  EXPECT_NE(
      page.find("The device must be checked first: pass the lesson \"Find the centre\" with it.")
          .label,
      "");
  EXPECT_NE(page.find("In use now: finger. It has not passed the check yet.").label, "");
  const auto opened = of_kind<ui::OpenLesson>(page.click(model, "To the device check"));
  ASSERT_EQ(opened.size(), 1U);
  EXPECT_EQ(opened[0].place, (ui::Place{0, 1}));
  model.device.is_checked = true;
  settle(page, model);
  EXPECT_NE(page.find("In use now: finger. It passed the check.").label, "");
  EXPECT_EQ(page.find("To the device check").id, 0U);
}

TEST(CourseScreens, WithOneDeviceForAllTheOneBeforeIsNamed) {
  lesson::DevicePolicy policy;
  EXPECT_TRUE(ui::device_words(policy, {}, "").empty());
  policy.one_per_lesson = true;
  ui::DeviceView device;
  EXPECT_EQ(ui::device_words(policy, device, "").front(), "All holes with the same device.");
  device.before = lesson::Device::kPen;
  EXPECT_EQ(ui::device_words(policy, device, "").front(), "Only with: pen.");
  EXPECT_EQ(ui::devices_words(policy, device.before), "pen");
}

TEST(CourseScreens, DeletingAllTakesASecondPress) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kLogbook, example.freehand);
  settle(page, model);
  EXPECT_TRUE(of_kind<ui::DeleteAll>(page.click(model, "Delete all")).empty());
  EXPECT_EQ(of_kind<ui::DeleteAll>(page.click(model, "Delete all 3 for good?")).size(), 1U);
}

TEST(CourseScreens, DeletingTakesASecondPress) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kLogbook, example.freehand);
  settle(page, model);
  const std::string name = "By hand, 25 Nov, 14:00";
  EXPECT_TRUE(of_kind<ui::DeleteSaved>(page.click(model, "Delete: " + name)).empty());
  const auto deleted = of_kind<ui::DeleteSaved>(page.click(model, "Delete for good?: " + name));
  ASSERT_EQ(deleted.size(), 1U);
  EXPECT_EQ(deleted[0].id, "saved-0");
  // A click elsewhere disarms it.
  static_cast<void>(page.click(model, "Delete: " + name));
  static_cast<void>(page.click(model, 5.0F, 300.0F));
  EXPECT_EQ(page.find("Delete for good?: " + name).id, 0U);
}

TEST(CourseScreens, ASavedAttemptOfAnotherEngineSaysSo) {
  Example example = make_example();
  Page page(1440, 900);
  ui::Model model = example.model(ui::Screen::kLogbook, example.freehand);
  ASSERT_FALSE(model.saved.empty());
  const auto says_engine = [&page] {
    const auto items = page.items();
    return std::any_of(items.begin(), items.end(), [](const Item& item) {
      return item.label.find("recorded by engine") != std::string::npos;
    });
  };
  settle(page, model);
  EXPECT_FALSE(says_engine());
  model.saved.front().engine = session::kEngine + 1;
  settle(page, model);
  EXPECT_TRUE(says_engine());
}

}  // namespace
}  // namespace driftbench::ui_test
