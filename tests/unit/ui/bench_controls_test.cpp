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

TEST(BenchControls, TheWayFromTheEdgeToTheDrillMovesNothing) {
  BenchControls controls = fresh();
  const auto away_from_drill = [](double x, double y) {
    PointerSample sample = at(Look::kFront, x, y);
    sample.at_drill = false;
    return sample;
  };
  controls.pointer(away_from_drill(900.0, 300.0), false);
  controls.pointer(away_from_drill(600.0, 300.0), false);
  EXPECT_FALSE(controls.has_hold());
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
  controls.pointer(at(Look::kFront, 420.0, 300.0), false);
  EXPECT_TRUE(controls.has_hold());
  controls.pointer(away_from_drill(320.0, 300.0), false);
  EXPECT_EQ(arguments(controls)[0], 1000 - 5000) << "100 px left, after it was held";
  controls.pointer(at(Look::kNone, 0.0, 0.0), false);
  EXPECT_FALSE(controls.has_hold()) << "leaving the look lets go";
}

TEST(BenchControls, APressTakesHoldAnywhereInTheLook) {
  BenchControls controls = fresh();
  PointerSample sample = at(Look::kFront, 900.0, 300.0);
  sample.at_drill = false;
  controls.pointer(sample, false);
  sample.press_button = true;
  sample.began = true;
  controls.pointer(sample, false);
  EXPECT_TRUE(controls.has_hold());
  EXPECT_TRUE(controls.is_pressing());
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

PointerSample with_pen(double pressure, double tilt_x_deg, double tilt_y_deg, bool down = true) {
  PointerSample sample = at(Look::kFront, 0.0, 0.0, down);
  sample.pen = PenReading{pressure, tilt_x_deg, tilt_y_deg};
  return sample;
}

TEST(BenchControls, PenPressesByItsPressure) {
  BenchControls controls = fresh();
  controls.pointer(with_pen(0.0, 0.0, 0.0, false), false);
  controls.pointer(with_pen(0.3, 0.0, 0.0), false);
  const std::int32_t light = arguments(controls)[4];
  controls.pointer(with_pen(0.7, 0.0, 0.0), false);
  const std::int32_t hard = arguments(controls)[4];
  EXPECT_GT(light, 0);
  EXPECT_GT(hard, 2 * light);
  EXPECT_LE(hard, 30000);
  controls.pointer(with_pen(0.0, 0.0, 0.0, false), false);
  EXPECT_EQ(arguments(controls)[4], 0);
}

TEST(BenchControls, PenThatOnlyRestsDoesNotPress) {
  BenchControls controls = fresh();
  controls.pointer(with_pen(0.0, 0.0, 0.0, false), false);
  controls.pointer(with_pen(kPenRest, 0.0, 0.0), false);
  EXPECT_FALSE(controls.is_pressing());
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
}

TEST(BenchControls, PenWithoutPressureSensorPressesAsTheMouseDoes) {
  BenchControls controls = fresh();
  controls.pointer(with_pen(0.0, 0.0, 0.0, false), false);
  for (int i = 0; i < 5; ++i) {
    controls.pointer(with_pen(0.5, 0.0, 0.0), false);
  }
  EXPECT_EQ(arguments(controls)[4], 16000);
}

TEST(BenchControls, PenThatKnowsNoHoverPressesFromItsFirstTouch) {
  BenchControls controls = fresh();
  PointerSample first = with_pen(0.6, 0.0, 0.0);
  first.began = true;
  controls.pointer(first, false);
  EXPECT_TRUE(controls.is_pressing());
}

TEST(BenchControls, PenLeansByItsTiltFromWhereItCameDown) {
  BenchControls controls = fresh();
  controls.pointer(with_pen(0.0, 40.0, -10.0, false), false);
  controls.pointer(with_pen(0.01, 40.0, -10.0), false);
  EXPECT_FALSE(controls.command(kLevel_n).has_value()) << "the grip itself is no lean";
  controls.pointer(with_pen(0.01, 50.0, -10.0), true);
  // 10 degrees at half gain, a little less by the soft bound: 25 x 5 / hypot(25, 5) = 4.90 degrees.
  auto now = arguments(controls);
  EXPECT_NEAR(now[2], 85570, 60);
  EXPECT_EQ(now[3], 0);
  // Its upper end toward the person is away from +y.
  controls.pointer(with_pen(0.01, 40.0, 0.0), true);
  now = arguments(controls);
  EXPECT_EQ(now[2], 0);
  EXPECT_NEAR(now[3], -85570, 60);
  // Lifted, it keeps its lean; put down again, it goes on from there.
  controls.pointer(with_pen(0.0, 0.0, 0.0, false), true);
  controls.pointer(with_pen(0.01, 20.0, 20.0), true);
  EXPECT_FALSE(controls.command(kLevel_n).has_value());
}

TEST(BenchControls, PenWithoutTiltSensorLeansByTheButton) {
  BenchControls controls = fresh();
  PointerSample held = with_pen(0.01, 0.0, 0.0);
  held.began = held.lean_button = true;
  controls.pointer(held, false);
  held.x_px = 40.0;
  controls.pointer(held, false);
  EXPECT_EQ(arguments(controls)[2], 100000);
}

TEST(PenCurve, RisesFromRestToFullWithoutASudden) {
  EXPECT_EQ(pen_press_n(0.0), 0.0);
  EXPECT_EQ(pen_press_n(kPenRest), 0.0);
  EXPECT_EQ(pen_press_n(kPenFull), kPenHardest_n);
  EXPECT_EQ(pen_press_n(1.0), kPenHardest_n);
  double before = 0.0;
  for (double pressure = 0.0; pressure <= 1.0; pressure += 0.01) {
    const double now = pen_press_n(pressure);
    EXPECT_GE(now, before);
    EXPECT_LE(now - before, 0.76) << pressure;  // steepest: 30 N x 1.5 / 0.79 a unit, and one step
    before = now;
  }
}

TEST(PenCurve, LeanIsOddAndBounded) {
  EXPECT_EQ(pen_lean_rad(0.0), 0.0);
  for (const double tilt_deg : {1.0, 20.0, 90.0, 180.0}) {
    EXPECT_DOUBLE_EQ(pen_lean_rad(-tilt_deg), -pen_lean_rad(tilt_deg));
    EXPECT_LT(pen_lean_rad(tilt_deg), kPenLeanMost_deg * 0.0174533);
  }
  EXPECT_NEAR(pen_lean_rad(2.0), 0.0174533, 0.0001);  // half of a small tilt
}

TEST(BenchControls, TurnedLooksTurnTheMotionWithThem) {
  BenchControls controls = fresh();
  controls.look_from({30.0, -90.0});
  controls.pointer(at(Look::kFront, 0.0, 0.0), false);
  controls.pointer(at(Look::kFront, 20.0, 0.0), false);
  // 1 mm to the right of someone who stands 30 degrees to the right of the front.
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1866, -1500, 0, 0, 0}));
  controls = fresh();
  controls.look_from({0.0, -90.0});
  controls.pointer(at(Look::kSide, 0.0, 0.0), false);
  controls.pointer(at(Look::kSide, 20.0, -10.0), false);
  // Seen from -x: right is -y, up (away) is +x.
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{1500, -3000, 0, 0, 0}));
}

TEST(BenchControls, GamepadMovesByRateAndPressesByItsTrigger) {
  BenchControls controls = fresh();
  PadInput half_second;
  half_second.move_s = {0.5, 0.0};
  half_second.lean_s = {0.0, 0.5};
  half_second.trigger = 0.5;
  controls.pad(half_second);
  EXPECT_EQ(arguments(controls), (std::array<std::int32_t, 5>{4000, -2000, 0, 150000, 15000}));
  EXPECT_TRUE(controls.is_pressing());
  controls.release();
  EXPECT_FALSE(controls.is_pressing());
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
