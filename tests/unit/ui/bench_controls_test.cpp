#include "ui/bench_controls.h"

#include <gtest/gtest.h>

namespace driftbench::ui {
namespace {

constexpr double kLevel_n = 16.0;

PointerSample at(Look look, double x, double y, bool press = false, bool lean = false) {
  PointerSample sample;
  sample.look = look;
  sample.x_px = x;
  sample.y_px = y;
  sample.press_button = press;
  sample.lean_button = lean;
  return sample;
}

BenchControls fresh() {
  BenchControls controls;
  session::SessionView view;
  view.hand_tip_mm = {1.0, -2.0, 8.0};
  controls.start(view);
  return controls;
}

std::array<std::int32_t, 5> arguments(BenchControls& controls) {
  const auto command = controls.command(kLevel_n);
  EXPECT_TRUE(command.has_value());
  if (!command.has_value()) {
    return {};
  }
  EXPECT_EQ(command->op, record::Op::kHand);
  return command->arguments;
}

TEST(BenchControls, PressLevelsRunFrom4To30Newton) {
  EXPECT_DOUBLE_EQ(press_of_level_n(0), 4.0);
  EXPECT_DOUBLE_EQ(press_of_level_n(kPressLevels - 1), 30.0);
  for (int level = 0; level < kPressLevels; ++level) {
    EXPECT_EQ(level_of_press(press_of_level_n(level)), level);
  }
  EXPECT_EQ(level_of_press(-5.0), 0);
  EXPECT_EQ(level_of_press(1000.0), kPressLevels - 1);
}

TEST(BenchControls, RestingHandSendsNothing) {
  BenchControls controls = fresh();
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
  controls.pointer(at(Look::kFront, 100.0, 100.0), false);
  EXPECT_FALSE(controls.command(kLevel_n).has_value()) << "entering a picture must not move";
}

TEST(BenchControls, ResumedSessionIsToldToLetGo) {
  BenchControls controls;
  session::SessionView view;
  view.step = 500;
  view.hand_tip_mm = {0.5, 0.0, 0.0};
  controls.start(view);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{500, 0, 0, 0, 0}));
}

TEST(BenchControls, FrontLookMovesRightAndAway) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 100.0, 100.0), false);
  controls.pointer(at(Look::kFront, 120.0, 90.0), false);
  // 20 px right, 10 px up at 0.05 mm per px.
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{2000, -1500, 0, 0, 0}));
}

TEST(BenchControls, SideLookMovesAsItIsSeen) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kSide, 100.0, 100.0), false);
  controls.pointer(at(Look::kSide, 120.0, 90.0), false);
  // Seen from +x: right is +y, up (away) is -x.
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{500, -1000, 0, 0, 0}));
}

TEST(BenchControls, FractionsOfPixelsAddUp) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 100.0, 100.0), false);
  for (int i = 1; i <= 10; ++i) {
    controls.pointer(at(Look::kFront, 100.0 + 0.3 * i, 100.0), false);
  }
  EXPECT_EQ(arguments(controls)[0], 1150);  // 3 px
}

TEST(BenchControls, OneCommandAFrameAndOnlyWhenSomethingChanged) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 7.0, 0.0), false);
  EXPECT_TRUE(controls.command(kLevel_n).has_value());
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
  // Less than half a micrometre is nothing.
  controls.pointer(at(Look::kFront, 7.004, 0.0), false);
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
}

TEST(BenchControls, RightButtonLeansOnlyBeforeContact) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0, false, true), false);
  controls.pointer(at(Look::kFront, 40.0, -20.0, false, true), false);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1000, -2000, 100000, 50000, 0}));
  controls.pointer(at(Look::kFront, 50.0, -20.0, false, true), true);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1500, -2000, 100000, 50000, 0}));
}

TEST(BenchControls, ReturnsToTheSamePlaceForTheSameWayBack) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 33.0, 21.0), false);
  static_cast<void>(controls.command(kLevel_n));
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1000, -2000, 0, 0, 0}));
}

TEST(BenchControls, PressBeginsInThePictureAndEndsAtOnce) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 0.0, 0.0, true), false);
  EXPECT_TRUE(controls.is_pressing());
  EXPECT_EQ(arguments(controls)[4], 16000);
  controls.pointer(at(Look::kFront, 0.0, 0.0, false), false);
  EXPECT_EQ(arguments(controls)[4], 0);
}

TEST(BenchControls, ButtonHeldWhileEnteringDoesNotPress) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0, true), false);
  controls.pointer(at(Look::kFront, 1.0, 0.0, true), false);
  EXPECT_FALSE(controls.is_pressing());
}

TEST(BenchControls, LeavingThePictureLetsGoUntilPressedAgain) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 0.0, 0.0, true), true);
  EXPECT_TRUE(controls.is_pressing());
  controls.pointer(at(Look::kNone, 0.0, 0.0, true), true);
  EXPECT_FALSE(controls.is_pressing());
  controls.pointer(at(Look::kFront, 0.0, 0.0, true), true);
  EXPECT_FALSE(controls.is_pressing()) << "still the old press";
  controls.pointer(at(Look::kFront, 0.0, 0.0, false), true);
  controls.pointer(at(Look::kFront, 0.0, 0.0, true), true);
  EXPECT_TRUE(controls.is_pressing());
}

TEST(BenchControls, CrossingToTheOtherLookDoesNotJump) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kSide, 900.0, 300.0), false);
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
}

TEST(BenchControls, ReleaseLetsGoOfEverything) {
  BenchControls controls = fresh();
  KeyInput keys;
  keys.press = true;
  controls.keys(keys);
  controls.gauge(10.0);
  EXPECT_TRUE(controls.is_pressing());
  controls.release();
  EXPECT_FALSE(controls.is_pressing());
}

TEST(BenchControls, ArrowsMoveAQuarterMillimetreAndFinerWithShift) {
  BenchControls controls = fresh();
  KeyInput keys;
  keys.right = 1;
  keys.away = -1;
  controls.keys(keys);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1250, -2250, 0, 0, 0}));
  keys.fine = true;
  controls.keys(keys);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1300, -2300, 0, 0, 0}));
}

TEST(BenchControls, ArrowsLeanWithTheLeanKey) {
  BenchControls controls = fresh();
  KeyInput keys;
  keys.right = 1;
  keys.lean = true;
  controls.keys(keys);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1000, -2000, 17453, 0, 0}));
}

TEST(BenchControls, HandStaysWithinReach) {
  BenchControls controls = fresh();
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 100000.0, 100000.0), false);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{15000, -15000, 0, 0, 0}));
}

TEST(BenchControls, GainScalesTheMotion) {
  BenchControls controls = fresh();
  controls.set_gain(2.0);
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 10.0, 0.0), false);
  EXPECT_EQ(arguments(controls)[0], 2000);
}

TEST(BenchControls, GaugePressesAtItsOwnLevel) {
  BenchControls controls = fresh();
  controls.gauge(7.5);
  EXPECT_EQ(arguments(controls)[4], 7500);
  controls.gauge(0.0);
  EXPECT_EQ(arguments(controls)[4], 0);
}

}  // namespace
}  // namespace driftbench::ui
