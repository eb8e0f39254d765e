// Draws every screen without a window and uses it as a person would.
#include "example.h"
#include "page.h"

#include "session/session.h"
#include "ui/strings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace driftbench::ui_test {
namespace {

struct Size {
  float width = 0;
  float height = 0;
};

constexpr std::array kSizes{Size{1440, 900}, Size{1280, 720}, Size{1024, 768}};

/// Every screen with the set-ups that change it.
struct Shown {
  std::string name;
  ui::Model model;
};

std::vector<Shown> all_screens(Example& example) {
  ui::Model with_banner = example.model(ui::Screen::kShelf, example.freehand);
  with_banner.unfinished = ui::Unfinished{"u", "By hand", "today, 13:10", 12.0};
  example.sleeve.show.section = true;
  example.implant = example.freehand;
  example.implant.place_implant = true;
  ui::Model quiet = example.model(ui::Screen::kDebrief, example.freehand);
  quiet.shown = lesson::Shown::kInOrOut;
  return {{"shelf", with_banner},
          {"lesson", example.model(ui::Screen::kLesson, example.freehand)},
          {"logbook", example.model(ui::Screen::kLogbook, example.freehand)},
          {"quiet debrief", quiet},
          {"briefing free-hand", example.model(ui::Screen::kBriefing, example.freehand)},
          {"briefing sleeve", example.model(ui::Screen::kBriefing, example.sleeve)},
          {"bench free-hand", example.model(ui::Screen::kBench, example.freehand)},
          {"bench sleeve", example.model(ui::Screen::kBench, example.sleeve)},
          {"bench with implant", example.model(ui::Screen::kBench, example.implant)},
          {"estimate", example.model(ui::Screen::kEstimate, example.freehand)},
          {"debrief", example.model(ui::Screen::kDebrief, example.freehand)},
          {"worked example", example.example_model(true, 4000)},
          {"prediction", example.prediction_model(true, true)}};
}

void settle(Page& page, const ui::Model& model) {
  for (int i = 0; i < 3; ++i) {
    static_cast<void>(page.frame(model));
  }
}

TEST(Screens, ABriefingForOneDrillSaysNothingOfTheNext) {
  Example example = make_example();
  example.implant = example.freehand;
  example.implant.plan.drill_ids.resize(1);
  for (const auto& [setup, wanted] :
       {std::pair{&example.freehand, true}, std::pair{&example.implant, false}}) {
    Page page(1440, 900);
    const ui::Model model = example.model(ui::Screen::kBriefing, *setup);
    settle(page, model);
    EXPECT_EQ(!page.find(ui::tr(ui::Str::kStepWiden)).label.empty(), wanted);
  }
}

TEST(Screens, EverythingIsInsideThePageAndNamed) {
  Example example = make_example();
  for (const Size& size : kSizes) {
    for (const Shown& shown : all_screens(example)) {
      Page page(size.width, size.height);
      settle(page, shown.model);
      const auto items = page.items();
      EXPECT_GT(items.size(), 6U) << shown.name;
      for (const Item& item : items) {
        EXPECT_FALSE(item.label.empty()) << shown.name;
        if (!item.visible) {
          continue;
        }
        const std::string where = shown.name + ": " + item.label;
        EXPECT_GE(item.x, 0.0F) << where;
        EXPECT_GE(item.y, 0.0F) << where;
        EXPECT_LE(item.x + item.w, size.width + 0.5F) << where;
        EXPECT_LE(item.y + item.h, size.height + 0.5F) << where;
      }
    }
  }
}

bool overlaps(const Item& a, const Item& b) {
  return a.x < b.x + b.w - 0.6F && b.x < a.x + a.w - 0.6F && a.y < b.y + b.h - 0.6F &&
         b.y < a.y + a.h - 0.6F;
}

TEST(Screens, NoTwoControlsOverlap) {
  Example example = make_example();
  for (const Size& size : kSizes) {
    for (const Shown& shown : all_screens(example)) {
      Page page(size.width, size.height);
      settle(page, shown.model);
      std::vector<Item> controls;
      for (const Item& item : page.items()) {
        if (item.id != 0 && item.visible) {
          controls.push_back(item);
        }
      }
      for (std::size_t i = 0; i < controls.size(); ++i) {
        for (std::size_t k = i + 1; k < controls.size(); ++k) {
          EXPECT_FALSE(overlaps(controls[i], controls[k]))
              << shown.name << " at " << size.width << ": " << controls[i].label << " and "
              << controls[k].label;
        }
      }
    }
  }
}

TEST(Screens, NoTwoTextsOverlap) {
  Example example = make_example();
  for (const Size& size : kSizes) {
    for (const Shown& shown : all_screens(example)) {
      Page page(size.width, size.height);
      settle(page, shown.model);
      std::vector<Item> texts;
      for (const Item& item : page.items()) {
        if (item.id == 0 && item.visible) {
          texts.push_back(item);
        }
      }
      for (std::size_t i = 0; i < texts.size(); ++i) {
        for (std::size_t k = i + 1; k < texts.size(); ++k) {
          Item a = texts[i];
          Item b = texts[k];
          a.h -= 4.0F;  // line boxes may touch; letters may not
          b.h -= 4.0F;
          EXPECT_FALSE(overlaps(a, b) && a.role != "text" && b.role != "text")
              << shown.name << " at " << size.width << ": " << a.label << " and " << b.label;
        }
      }
    }
  }
}

TEST(Screens, TabReachesEveryEnabledControl) {
  Example example = make_example();
  for (const Shown& shown : all_screens(example)) {
    Page page(1440, 900);
    settle(page, shown.model);
    std::set<std::uint32_t> wanted;
    for (const Item& item : page.items()) {
      if (item.id != 0 && item.enabled) {
        wanted.insert(item.id);
      }
    }
    for (int i = 0; i < 120 && !wanted.empty(); ++i) {
      static_cast<void>(page.key(shown.model, ImGuiKey_Tab));
      for (const Item& item : page.items()) {
        if (item.focused) {
          wanted.erase(item.id);
        }
      }
    }
    for (const Item& item : page.items()) {
      EXPECT_EQ(wanted.count(item.id), 0U) << shown.name << ": Tab never reaches " << item.label;
    }
  }
}

TEST(Screens, GradedFreehandBenchShowsNoLiveNumbers) {
  Example example = make_example();
  example.view.shoulder_depth_mm = 7.3;
  example.view.load.press_n = 13.7;
  example.view.drill_index = 1;
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  settle(page, model);
  for (const Item& item : page.items()) {
    EXPECT_EQ(item.label.find("7.3"), std::string::npos) << item.label;
    EXPECT_EQ(item.value.find("7.3"), std::string::npos) << item.label;
    EXPECT_EQ(item.value.find("13.7"), std::string::npos) << item.label;
  }
  lesson::AttemptSetup practice = example.freehand;
  practice.show.numbers = true;
  settle(page, example.model(ui::Screen::kBench, practice));
  EXPECT_NE(page.find("depth 7.3 of 10.0 mm · lean 0.0°").label, "");
}

TEST(Screens, NoticeLiesOverThePageAndCanBeClosed) {
  Example example = make_example();
  for (Shown shown : all_screens(example)) {
    Page page(1024, 768);
    shown.model.notice = "This file could not be read.";
    settle(page, shown.model);
    EXPECT_NE(page.find("This file could not be read.").label, "") << shown.name;
    const auto actions = page.click(shown.model, "Close");
    EXPECT_EQ(of_kind<ui::DismissNotice>(actions).size(), 1U) << shown.name;
  }
}

TEST(Screens, ScreenWithoutItsAttemptStillLeadsBack) {
  for (const ui::Screen screen :
       {ui::Screen::kBriefing, ui::Screen::kBench, ui::Screen::kEstimate, ui::Screen::kDebrief}) {
    Page page(1024, 768);
    ui::Model model;
    model.screen = screen;
    settle(page, model);
    EXPECT_EQ(of_kind<ui::GoToShelf>(page.click(model, "Shelf")).size(), 1U);
  }
}

TEST(Screens, VerySmallWindowsDoNotBreak) {
  Example example = make_example();
  for (const Size& size : {Size{320, 480}, Size{390, 844}, Size{1, 1}}) {
    for (const Shown& shown : all_screens(example)) {
      Page page(size.width, size.height);
      settle(page, shown.model);
      EXPECT_FALSE(page.items().empty()) << shown.name;
    }
  }
}

TEST(Screens, KeysThatAreShownWork) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kShelf, example.freehand);
  settle(page, model);
  EXPECT_EQ(of_kind<ui::ToggleMute>(page.key(model, ImGuiKey_M)).size(), 1U);
}

TEST(Screens, BriefingSheetAsksForTheSumAndDoesNotGiveIt) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBriefing, example.sleeve);
  settle(page, model);
  EXPECT_NE(page.find("10.0 + 3.5 + 4.5 + 1.5").label, "");
  for (const Item& item : page.items()) {
    EXPECT_EQ(item.label.find("19.5"), std::string::npos) << item.label;
    EXPECT_EQ(item.label.find("20.5"), std::string::npos) << item.label;
  }
  EXPECT_EQ(of_kind<ui::StartAttempt>(page.click(model, "I have read the sheet: start")).size(),
            1U);
}

std::vector<record::Command> sent(const ui::Actions& actions) {
  std::vector<record::Command> commands;
  for (const ui::Send& send : of_kind<ui::Send>(actions)) {
    commands.push_back(send.command);
  }
  return commands;
}

TEST(Screens, BenchKeysSendTheirCommands) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  settle(page, model);

  struct Row {
    ImGuiKey key;
    record::Op op;
    std::int32_t first;
  };

  for (const Row& row :
       {Row{ImGuiKey_Space, record::Op::kMotor, 1200}, Row{ImGuiKey_I, record::Op::kIrrigation, 1},
        Row{ImGuiKey_R, record::Op::kLift, 1}, Row{ImGuiKey_P, record::Op::kProbe, 0},
        Row{ImGuiKey_3, record::Op::kTakeDrill, 2}, Row{ImGuiKey_Enter, record::Op::kFinish, 0}}) {
    const auto commands = sent(page.key(model, row.key));
    ASSERT_EQ(commands.size(), 1U) << ImGui::GetKeyName(row.key);
    EXPECT_EQ(commands[0].op, row.op);
    EXPECT_EQ(commands[0].arguments[0], row.first);
  }
  EXPECT_EQ(of_kind<ui::ToggleMute>(page.key(model, ImGuiKey_M)).size(), 1U);
  const auto arrow = sent(page.key(model, ImGuiKey_RightArrow));
  ASSERT_EQ(arrow.size(), 1U);
  EXPECT_EQ(arrow[0].op, record::Op::kHand);
  EXPECT_EQ(arrow[0].arguments[0], 250);
}

TEST(Screens, FocusedButtonKeepsSpaceForItself) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  settle(page, model);
  ASSERT_TRUE(page.tab_to(model, "Probe"));
  const auto commands = sent(page.key(model, ImGuiKey_Space));
  ASSERT_EQ(commands.size(), 1U);
  EXPECT_EQ(commands[0].op, record::Op::kProbe);
  // Escape gives the keys back to the hand.
  static_cast<void>(page.key(model, ImGuiKey_Escape));
  const auto motor = sent(page.key(model, ImGuiKey_Space));
  ASSERT_EQ(motor.size(), 1U);
  EXPECT_EQ(motor[0].op, record::Op::kMotor);
}

TEST(Screens, MouseInTheFrontLookMovesAndPresses) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  settle(page, model);
  const Item look = page.find("Front look");
  ASSERT_NE(look.id, 0U);
  ImGuiIO& io = ImGui::GetIO();
  io.AddMousePosEvent(look.x + 200.0F, look.y + 200.0F);
  settle(page, model);
  io.AddMousePosEvent(look.x + 240.0F, look.y + 200.0F);
  auto commands = sent(page.frame(model));
  ASSERT_EQ(commands.size(), 1U);
  EXPECT_EQ(commands[0].arguments[0], 2000);
  io.AddMouseButtonEvent(0, true);
  commands = sent(page.frame(model));
  ASSERT_EQ(commands.size(), 1U);
  EXPECT_EQ(commands[0].arguments[4], 16000);
  io.AddMouseButtonEvent(0, false);
  commands = sent(page.frame(model));
  ASSERT_EQ(commands.size(), 1U);
  EXPECT_EQ(commands[0].arguments[4], 0);
}

TEST(Screens, FingerSteersAndTheGaugePresses) {
  Example example = make_example();
  Page page(1024, 768);
  ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  model.touch = true;
  settle(page, model);
  const Item look = page.find("Front look");
  ImGuiIO& io = ImGui::GetIO();
  io.AddMousePosEvent(look.x + 200.0F, look.y + 200.0F);
  io.AddMouseButtonEvent(0, true);
  settle(page, model);
  io.AddMousePosEvent(look.x + 220.0F, look.y + 200.0F);
  const auto moved = sent(page.frame(model));
  ASSERT_EQ(moved.size(), 1U);
  EXPECT_EQ(moved[0].arguments[0], 1000);
  EXPECT_EQ(moved[0].arguments[4], 0) << "a finger in the look does not press";
  io.AddMouseButtonEvent(0, false);
  settle(page, model);
  const Item gauge = page.find("Press level");
  const auto pressed = sent(page.click(model, gauge.x + 0.5F * gauge.w, gauge.y + 0.5F * gauge.h));
  ASSERT_EQ(pressed.size(), 2U);
  EXPECT_GT(pressed[0].arguments[4], 4000);
  EXPECT_EQ(pressed[1].arguments[4], 0) << "letting go ends it at once";
  EXPECT_EQ(pressed[1].arguments[0], 1000) << "and the hand stays where it was";
}

TEST(Screens, GuidedDrillAsksForItsLength) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBench, example.sleeve);
  settle(page, model);
  EXPECT_TRUE(sent(page.key(model, ImGuiKey_2)).empty()) << "no drill without a length";
  const auto commands = sent(page.click(model, "19.5"));
  ASSERT_GE(commands.size(), 1U);
  EXPECT_EQ(commands[0].op, record::Op::kTakeDrill);
  EXPECT_EQ(commands[0].arguments[0], 1);
  EXPECT_EQ(commands[0].arguments[1], 19500);
}

TEST(Screens, HeldFootPressesTheGuideUntilLetGo) {
  Example example = make_example();
  example.view.guide.placed = true;
  example.view.guide.gap_mm = {0.0, 0.8, 0.0, 0.0};
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kBench, example.sleeve);
  settle(page, model);
  EXPECT_EQ(page.find("Press far left foot").value, "window shows a gap");
  EXPECT_EQ(page.find("Press far right foot").value, "window shows no gap");
  const auto commands = sent(page.click(model, "Press far left foot"));
  ASSERT_EQ(commands.size(), 2U);
  EXPECT_EQ(commands[0].op, record::Op::kPressGuide);
  EXPECT_EQ(commands[0].arguments[0], -10000);
  EXPECT_EQ(commands[0].arguments[1], 10000);
  EXPECT_GT(commands[0].arguments[2], 0);
  EXPECT_EQ(commands[1].arguments[2], 0);
}

TEST(Screens, EstimateIsGivenAsDragged) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kEstimate, example.freehand);
  settle(page, model);
  const Item target = page.find("Your entry");
  ASSERT_NE(target.id, 0U);
  static_cast<void>(page.click(model, target.x + 0.75F * target.w, target.y + 0.5F * target.h));
  static_cast<void>(page.click(model, "High"));
  const auto given = of_kind<ui::GiveEstimate>(page.click(model, "Show me"));
  ASSERT_EQ(given.size(), 1U);
  EXPECT_NEAR(given[0].estimate.entry_md_mm, 1.5, 0.06);
  EXPECT_NEAR(given[0].estimate.entry_bl_mm, 0.0, 0.06);
  EXPECT_EQ(given[0].estimate.confidence, 2);
}

TEST(Screens, EstimateWorksByArrowKeys) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kEstimate, example.freehand);
  settle(page, model);
  ASSERT_TRUE(page.tab_to(model, "Your entry"));
  for (int i = 0; i < 5; ++i) {
    static_cast<void>(page.key(model, ImGuiKey_RightArrow));
  }
  EXPECT_TRUE(page.find("Your entry").focused) << "arrows belong to the target";
  EXPECT_EQ(page.find("Your entry").value, "0.5 mm toward the soft half");
}

TEST(Screens, DebriefSaysTheSignedNumbersAndWhy) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kDebrief, example.freehand);
  settle(page, model);
  for (const char* label :
       {"Entry: 1.1 mm toward the soft half", "Entry, across: 0.2 mm toward you",
        "Depth: 0.4 mm too deep", "Lean: apex leans 3.1° toward the soft half",
        "Lean, across: apex leans 0.4° away from you"}) {
    EXPECT_NE(page.find(label).id, 0U) << label;
  }
  EXPECT_NE(page.find("Entry 1.1 mm off, limit 1.0 mm.").label, "");
}

TEST(Screens, ScrubberFollowsTheMouseAndTheKeys) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kDebrief, example.freehand);
  settle(page, model);
  const Item time = page.find("Time");
  ASSERT_NE(time.id, 0U);
  auto scrubs =
      of_kind<ui::ScrubTo>(page.click(model, time.x + 0.5F * time.w, time.y + 0.5F * time.h));
  ASSERT_FALSE(scrubs.empty());
  EXPECT_NEAR(static_cast<double>(scrubs[0].step), 5000.0, 15.0);
  ASSERT_TRUE(page.tab_to(model, "Time"));
  scrubs = of_kind<ui::ScrubTo>(page.key(model, ImGuiKey_RightArrow));
  ASSERT_EQ(scrubs.size(), 1U);
  EXPECT_EQ(scrubs[0].step, 2100);
  scrubs = of_kind<ui::ScrubTo>(page.key(model, ImGuiKey_End));
  ASSERT_EQ(scrubs.size(), 1U);
  EXPECT_EQ(scrubs[0].step, 10000);
}

TEST(Screens, MirrorCanPressFocusAndMoveThings) {
  Example example = make_example();
  Page page(1440, 900);
  const ui::Model model = example.model(ui::Screen::kDebrief, example.freehand);
  settle(page, model);
  page.interface().activate(page.find("Again").id);
  ui::Actions actions = page.frame(model);
  EXPECT_EQ(of_kind<ui::Again>(actions).size(), 1U);
  page.interface().adjust(page.find("Time").id, 3);
  const auto scrubs = of_kind<ui::ScrubTo>(page.frame(model));
  ASSERT_EQ(scrubs.size(), 1U);
  EXPECT_EQ(scrubs[0].step, 2300);
  page.interface().focus(page.find("Export").id);
  settle(page, model);
  EXPECT_TRUE(page.find("Export").focused);
}

TEST(Screens, ScaleAndLightThemeKeepEverythingInside) {
  Example example = make_example();
  for (const Shown& shown : all_screens(example)) {
    Page page(1440, 900, 1.25F, ui::Theme::kLight);
    settle(page, shown.model);
    for (const Item& item : page.items()) {
      EXPECT_LE(item.x + item.w, 1440.5F) << shown.name << ": " << item.label;
    }
  }
}

}  // namespace
}  // namespace driftbench::ui_test
