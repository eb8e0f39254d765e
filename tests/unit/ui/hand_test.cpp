// Devices at the bench: a finger's layout, the left hand, step by step, and the hand in words.
#include "example.h"
#include "page.h"

#include "ui/bench_layout.h"
#include "ui/hand_words.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::ui_test {
namespace {

void settle(Page& page, const ui::Model& model) {
  for (int i = 0; i < 3; ++i) {
    static_cast<void>(page.frame(model));
  }
}

TEST(HandWords, SayWhatAnEyeSeesAndNoFiner) {
  Example example = make_example();
  session::SessionView& view = example.view;
  view.drill_index = -1;
  EXPECT_EQ(ui::hand_words(view, example.kit), "");
  view.drill_index = 1;
  view.pose.tip_mm = {0.3, -0.49, 1.0};
  view.pose.axis_out_unit = math::unit(math::Vec3(-0.035, 0.004, 1.0));
  view.shoulder_depth_mm = -1.0;
  EXPECT_EQ(ui::hand_words(view, example.kit), "tip 0.25 mm right, 0.50 mm near; leans 2° left");
  view.pose.tip_mm = {0.1, 0.1, 1.0};
  view.pose.axis_out_unit = {0.0, 0.0, 1.0};
  view.shoulder_depth_mm = 9.3;
  EXPECT_EQ(ui::hand_words(view, example.kit), "tip in the middle; upright; in past the 8 mm line");
}

TEST(TouchBench, EverythingIsBigEnoughForAFinger) {
  constexpr float kTarget_px = 44.0F;
  Example example = make_example();
  example.sleeve.show.section = true;
  example.view.drill_index = 1;
  for (const lesson::AttemptSetup* setup : {&example.freehand, &example.sleeve}) {
    Page page(1024, 768);
    ui::Model model = example.model(ui::Screen::kBench, *setup);
    model.touch = true;
    settle(page, model);
    EXPECT_NE(page.find("Lean").id, 0U);
    for (const Item& item : page.items()) {
      if (item.id == 0 || !item.visible) {
        continue;
      }
      EXPECT_GE(item.w, kTarget_px) << item.label;
      EXPECT_GE(item.h, kTarget_px) << item.label;
      EXPECT_GE(item.x, 0.0F) << item.label;
      EXPECT_LE(item.x + item.w, 1024.5F) << item.label;
      EXPECT_LE(item.y + item.h, 768.5F) << item.label;
    }
  }
}

ui::PointerReading finger(std::int32_t id, float x, float y, bool down = true) {
  ui::PointerReading reading;
  reading.pointer_id = id;
  reading.x_px = static_cast<double>(x);
  reading.y_px = static_cast<double>(y);
  reading.left = down;
  return reading;
}

TEST(TouchBench, TwoFingersSteerAndPressAtOnceAndLiftingEndsThePress) {
  Example example = make_example();
  example.view.drill_index = 1;
  Page page(1024, 768);
  ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  model.touch = true;
  model.has_pointer_readings = true;
  settle(page, model);
  const Item look = page.find("Front look");
  const Item gauge = page.find("Press level");
  const float gauge_y = gauge.y + 0.5F * gauge.h;
  model.pointers = {finger(1, look.x + 50.0F, look.y + 100.0F),
                    finger(2, gauge.x + 0.9F * gauge.w, gauge_y)};
  static_cast<void>(page.frame(model));
  model.pointers = {finger(1, look.x + 70.0F, look.y + 100.0F)};
  const auto sends = of_kind<ui::Send>(page.frame(model));
  ASSERT_EQ(sends.size(), 1U);
  EXPECT_EQ(sends[0].command.op, record::Op::kHand);
  EXPECT_EQ(sends[0].command.arguments[0], 1000);
  EXPECT_EQ(sends[0].command.arguments[4], 30000) << "the last of eight levels";
  model.pointers = {finger(2, gauge.x, gauge_y, false)};
  const auto after = of_kind<ui::Send>(page.frame(model));
  ASSERT_EQ(after.size(), 1U);
  EXPECT_EQ(after[0].command.arguments[4], 0);
}

TEST(LeftHand, MirrorsThePartsAndOnlyThem) {
  const ui::Rect page{0, 0, 1280, 720};
  for (const bool touch : {false, true}) {
    const auto right = ui::bench_layout(page, {true, true, touch, false}, 1.0F);
    const auto left = ui::bench_layout(page, {true, true, touch, true}, 1.0F);
    const auto mirrored = [&page](const ui::Rect& rect) {
      return ui::Rect{page.width - rect.x - rect.width, rect.y, rect.width, rect.height};
    };
    EXPECT_EQ(left.front, mirrored(right.front));
    EXPECT_EQ(left.side, mirrored(right.side));
    EXPECT_EQ(left.rack, mirrored(right.rack));
    EXPECT_EQ(left.gauge, mirrored(right.gauge));
    EXPECT_EQ(left.seating, mirrored(right.seating));
    EXPECT_EQ(left.top_bar, right.top_bar);
    EXPECT_EQ(left.bottom_line, right.bottom_line);
    if (touch) {
      EXPECT_EQ(left.lean, mirrored(right.lean));
    }
  }
}

TEST(LeftHand, TakesTheSideLookFromTheLeftAndMovesAsItIsSeen) {
  Example example = make_example();
  Page page(1280, 720);
  ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  model.has_pointer_readings = true;
  model.left_handed = true;
  settle(page, model);
  EXPECT_DOUBLE_EQ(page.interface().rects().side_turn.heading_deg, -180.0);
  EXPECT_DOUBLE_EQ(page.interface().rects().front_turn.heading_deg, 0.0);
  const Item side = page.find("Side look");
  EXPECT_LT(side.x, page.find("Front look").x);
  ImGui::GetIO().AddMousePosEvent(side.x + 50.0F, side.y + 50.0F);
  model.pointers = {finger(0, side.x + 50.0F, side.y + 50.0F, false)};
  settle(page, model);
  model.pointers = {finger(0, side.x + 70.0F, side.y + 50.0F, false)};
  const auto sends = of_kind<ui::Send>(page.frame(model));
  ASSERT_EQ(sends.size(), 1U);
  EXPECT_EQ(sends[0].command.arguments[1], -1000) << "right from the left is toward the operator";
}

TEST(StepByStep, XAsksForAPeckAndTStays) {
  Example example = make_example();
  example.view.drill_index = 1;
  Page page(1280, 720);
  ui::Model model = example.model(ui::Screen::kBench, example.freehand);
  model.step_by_step = true;
  settle(page, model);
  auto actions = page.key(model, ImGuiKey_X);
  ASSERT_EQ(of_kind<ui::Peck>(actions).size(), 1U);
  EXPECT_TRUE(of_kind<ui::Send>(actions).empty()) << "the press comes when the bench pecks";
  model.is_pecking = true;
  actions = page.frame(model);
  ASSERT_EQ(of_kind<ui::Send>(actions).size(), 1U);
  EXPECT_GT(of_kind<ui::Send>(actions)[0].command.arguments[4], 0);
  model.is_pecking = false;
  actions = page.frame(model);
  ASSERT_EQ(of_kind<ui::Send>(actions).size(), 1U);
  EXPECT_EQ(of_kind<ui::Send>(actions)[0].command.arguments[4], 0);

  static_cast<void>(page.key(model, ImGuiKey_T));
  actions = page.key(model, ImGuiKey_RightArrow);
  ASSERT_EQ(of_kind<ui::Send>(actions).size(), 1U);
  EXPECT_EQ(of_kind<ui::Send>(actions)[0].command.arguments[2], 17453);
}

TEST(StepByStep, SwitchesStandOnTheBriefingUnlessTheLessonKeepsThem) {
  Example example = make_example();
  Page page(1024, 768);
  ui::Model model = example.model(ui::Screen::kBriefing, example.freehand);
  settle(page, model);
  EXPECT_EQ(of_kind<ui::ToggleSteps>(page.click(model, "Step by step")).size(), 1U);
  EXPECT_EQ(of_kind<ui::ToggleLeftHand>(page.click(model, "Left hand")).size(), 1U);
  EXPECT_EQ(of_kind<ui::ToggleSteps>(page.key(model, ImGuiKey_S)).size(), 1U);
  model.is_hand_kept = true;
  settle(page, model);
  EXPECT_TRUE(of_kind<ui::ToggleSteps>(page.key(model, ImGuiKey_S)).empty());
  EXPECT_TRUE(of_kind<ui::ToggleLeftHand>(page.click(model, "Left hand")).empty());
}

}  // namespace
}  // namespace driftbench::ui_test
