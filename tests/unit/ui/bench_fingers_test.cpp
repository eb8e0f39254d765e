#include "ui/bench_fingers.h"

#include <gtest/gtest.h>

namespace driftbench::ui {
namespace {

constexpr double kLevel_n = 16.0;

struct Hand {
  BenchControls controls;
  BenchFingers fingers;

  Hand() {
    controls.start(session::SessionView{});
    static_cast<void>(controls.command(kLevel_n));
  }

  void put(std::int32_t id, FingerHold under, double x, double y, bool in_contact = false) {
    fingers.feed({id, x, y, true, under}, in_contact, controls);
  }

  void lift(std::int32_t id) {
    fingers.feed({id, 0.0, 0.0, false, FingerHold::kNothing}, false, controls);
  }

  std::array<std::int32_t, 5> sent() {
    const auto command = controls.command(kLevel_n);
    return command.has_value() ? command->arguments : std::array<std::int32_t, 5>{-1};
  }
};

TEST(BenchFingers, OneFingerSteersRelativeToWhereItCameDown) {
  Hand hand;
  hand.put(5, FingerHold::kFront, 300.0, 300.0);
  EXPECT_EQ(hand.sent()[0], -1) << "coming down moves nothing";
  hand.put(5, FingerHold::kFront, 320.0, 290.0);
  EXPECT_EQ(hand.sent(), (std::array<std::int32_t, 5>{1000, 500, 0, 0, 0}));
  // Lifted and put down elsewhere: no jump.
  hand.lift(5);
  hand.put(6, FingerHold::kFront, 10.0, 10.0);
  EXPECT_EQ(hand.sent()[0], -1);
}

TEST(BenchFingers, AFingerKeepsWhatItCameDownOn) {
  Hand hand;
  hand.put(1, FingerHold::kFront, 300.0, 300.0);
  hand.put(1, FingerHold::kPress, 340.0, 300.0);
  EXPECT_FALSE(hand.fingers.press_x_px().has_value());
  EXPECT_EQ(hand.sent()[0], 2000);
}

TEST(BenchFingers, OneThumbSteersWhileTheOtherPresses) {
  Hand hand;
  hand.put(1, FingerHold::kFront, 300.0, 300.0);
  hand.put(2, FingerHold::kPress, 900.0, 700.0);
  hand.put(1, FingerHold::kFront, 310.0, 300.0);
  ASSERT_TRUE(hand.fingers.press_x_px().has_value());
  EXPECT_EQ(*hand.fingers.press_x_px(), 900.0);
  hand.put(2, FingerHold::kPress, 930.0, 705.0);
  EXPECT_EQ(*hand.fingers.press_x_px(), 930.0);
  EXPECT_EQ(hand.sent()[0], 500);
  hand.lift(2);
  EXPECT_FALSE(hand.fingers.press_x_px().has_value()) << "let go is at once";
}

TEST(BenchFingers, PadLeansBeforeContactAndMovesInIt) {
  Hand hand;
  hand.put(1, FingerHold::kLean, 900.0, 700.0);
  hand.put(1, FingerHold::kLean, 940.0, 680.0);
  EXPECT_EQ(hand.sent(), (std::array<std::int32_t, 5>{0, 0, 100000, 50000, 0}));
  hand.put(1, FingerHold::kLean, 960.0, 680.0, true);
  EXPECT_EQ(hand.sent(), (std::array<std::int32_t, 5>{1000, 0, 100000, 50000, 0}));
}

TEST(BenchFingers, TwoFingersOnALookTurnAndZoomItAndMoveNothing) {
  Hand hand;
  hand.put(1, FingerHold::kFront, 300.0, 300.0);
  hand.put(2, FingerHold::kFront, 400.0, 300.0);
  hand.put(1, FingerHold::kFront, 250.0, 300.0);
  hand.put(2, FingerHold::kFront, 450.0, 300.0);
  EXPECT_DOUBLE_EQ(hand.fingers.front().zoom, 2.0);
  EXPECT_DOUBLE_EQ(hand.fingers.front().heading_deg, 0.0);
  // Both 50 px to the right and 20 px down: the block turns with them, and is seen from higher up.
  hand.put(1, FingerHold::kFront, 300.0, 320.0);
  hand.put(2, FingerHold::kFront, 500.0, 320.0);
  EXPECT_NEAR(hand.fingers.front().heading_deg, -10.0, 1e-9);
  EXPECT_NEAR(hand.fingers.front().elevation_deg, 4.0, 1e-9);
  EXPECT_NEAR(hand.fingers.front().zoom, 2.0, 0.01);
  EXPECT_EQ(hand.fingers.side(), LookTurn{});
  EXPECT_EQ(hand.sent()[0], -1);
  // The finger that stays steers again, from where it is.
  hand.lift(1);
  hand.put(2, FingerHold::kFront, 520.0, 320.0);
  EXPECT_EQ(hand.sent()[0], 1000);
}

TEST(BenchFingers, AHeadDoesNotWalkRoundTheBlock) {
  BenchFingers fingers;
  fingers.turn(Look::kSide, 500.0, 500.0, 500.0);
  EXPECT_EQ(fingers.side(), (LookTurn{kTurnMost_deg, kTurnUpMost_deg, kZoomMost}));
  fingers.turn(Look::kSide, -500.0, -500.0, 1e-9);
  EXPECT_EQ(fingers.side(), (LookTurn{-kTurnMost_deg, -kTurnDownMost_deg, kZoomLeast}));
  fingers.straighten();
  EXPECT_EQ(fingers.side(), LookTurn{});
}

TEST(BenchFingers, ReleaseForgetsEveryFinger) {
  Hand hand;
  hand.put(1, FingerHold::kPress, 900.0, 700.0);
  hand.fingers.release();
  EXPECT_FALSE(hand.fingers.press_x_px().has_value());
}

}  // namespace
}  // namespace driftbench::ui
