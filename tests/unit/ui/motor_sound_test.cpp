// The motor's sound for those who do not hear it.
#include "ui/motor_sound.h"

#include "example.h"

#include <gtest/gtest.h>

#include <vector>

namespace driftbench::ui_test {
namespace {

using ui::Listener;
using ui::MotorSound;
using ui::Str;

/// What is said while so many frames sound like this.
std::vector<Str> told(Listener& listener, double roughness_share, int frames = 60) {
  std::vector<Str> said;
  for (int i = 0; i < frames; ++i) {
    const MotorSound sound{1.0, roughness_share > 0.0 ? 0.5 : 0.0, roughness_share};
    if (const auto sentence = listener.hear(sound)) {
      said.push_back(*sentence);
    }
  }
  return said;
}

TEST(Listener, TellsAStepOnceAndNothingElse) {
  Listener listener;
  EXPECT_TRUE(told(listener, 0.2).empty());  // first contact has its own sentence
  EXPECT_EQ(told(listener, 0.9).front(), Str::kSayDenser);
  EXPECT_TRUE(told(listener, 0.9).empty());
  EXPECT_EQ(told(listener, 0.2).front(), Str::kSaySofter);
  EXPECT_TRUE(told(listener, 0.21).empty());
}

TEST(Listener, ForgetsWhatItHeardWhenTheDrillLeaves) {
  Listener listener;
  EXPECT_TRUE(told(listener, 0.9).empty());
  EXPECT_TRUE(told(listener, 0.0).empty());
  EXPECT_TRUE(told(listener, 0.1).empty());
}

TEST(Listener, ASingleRoughFrameIsNoLayer) {
  Listener listener;
  EXPECT_TRUE(told(listener, 0.3).empty());
  EXPECT_TRUE(told(listener, 0.6, 1).empty());
  EXPECT_TRUE(told(listener, 0.3).empty());
}

TEST(MotorSound, IsHeardOnlyWhereTheLessonGivesIt) {
  Example example = make_example();
  session::SessionView& view = example.view;
  view.phase = session::Phase::kDrilling;
  view.drill_index = 1;
  view.motor_rpm = example.kit.drills[1].speed_rpm;
  view.load.in_contact = true;
  view.load.power_w = 5.0;
  view.load.strength_mpa = 3.0;
  example.freehand.show.sound = true;
  const MotorSound heard = ui::motor_sound(view, example.freehand);
  EXPECT_DOUBLE_EQ(heard.motor_share, 1.0);
  EXPECT_GT(heard.load_share, 0.0);
  EXPECT_GT(heard.roughness_share, 0.0);
  view.load.strength_mpa = 6.0;
  EXPECT_GT(ui::motor_sound(view, example.freehand).roughness_share, heard.roughness_share);
  example.freehand.show.sound = false;
  EXPECT_EQ(ui::motor_sound(view, example.freehand).motor_share, 0.0);
  EXPECT_EQ(ui::motor_sound(view, example.freehand).roughness_share, 0.0);
}

}  // namespace
}  // namespace driftbench::ui_test
