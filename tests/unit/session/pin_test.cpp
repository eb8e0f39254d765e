// The direction pin: it stands as the hole does, and is never in the way of the work.
#include "support/shipped.h"

#include "lesson/instruments.h"
#include "math/angle.h"
#include "record/attempt.h"
#include "session/replay.h"
#include "session/session.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::session {
namespace {

using record::Op;

constexpr std::int32_t kLean_urad = 90'000;  // a little over five degrees

base::Result<void> give(Session& session, Op op,
                        std::array<std::int32_t, record::kMaxArguments> arguments = {}) {
  return session.submit({op, arguments});
}

std::int32_t drill_of(const char* id) {
  return lesson::drill_index_of(support::shipped_setup(0), id);
}

/// A hole of the pilot, leaning toward +x, drill out and motor off.
void drill_leaning(Session& session, double depth_mm) {
  ASSERT_TRUE(give(session, Op::kTakeDrill, {drill_of("twist-20"), 0}));
  ASSERT_TRUE(give(session, Op::kLift, {0}));
  ASSERT_TRUE(give(session, Op::kHand, {-5000, 0, kLean_urad, 0, 0}));
  ASSERT_TRUE(give(session, Op::kMotor, {1200}));
  session.advance(500);
  ASSERT_TRUE(give(session, Op::kHand, {-5000, 0, kLean_urad, 0, 16000}));
  for (int i = 0; i < 600 && session.view().shoulder_depth_mm < depth_mm; ++i) {
    session.advance(20);
  }
  ASSERT_TRUE(give(session, Op::kHand, {-5000, 0, kLean_urad, 0, 0}));
  ASSERT_TRUE(give(session, Op::kLift, {1}));
  session.advance(1500);
  ASSERT_TRUE(give(session, Op::kMotor, {0}));
  ASSERT_TRUE(session.view().is_out);
}

TEST(DirectionPin, NeedsAHoleWithNothingInIt) {
  Session session = std::move(*Session::create(support::shipped_setup(0)));
  EXPECT_FALSE(give(session, Op::kPin, {1})) << "nothing drilled";
  drill_leaning(session, 1.0);
  EXPECT_FALSE(give(session, Op::kPin, {1})) << "too shallow to stand in";
  EXPECT_FALSE(session.view().pin.has_value());
  drill_leaning(session, 5.0);
  ASSERT_TRUE(give(session, Op::kLift, {0}));
  ASSERT_TRUE(give(session, Op::kHand, {-5000, 0, kLean_urad, 0, 3000}));
  session.advance(800);
  ASSERT_FALSE(session.view().is_out);
  EXPECT_FALSE(give(session, Op::kPin, {1})) << "the drill is in the hole";
}

TEST(DirectionPin, StandsAsTheHoleDoes) {
  Session session = std::move(*Session::create(support::shipped_setup(0)));
  drill_leaning(session, 6.0);
  ASSERT_TRUE(give(session, Op::kPin, {1}));
  ASSERT_TRUE(session.view().pin.has_value());
  const PinView pin = *session.view().pin;
  EXPECT_EQ(pin.diameter_mm, 2.0);
  ASSERT_TRUE(give(session, Op::kProbe));
  EXPECT_NEAR(pin.depth_mm, session.view().probe->floor_mm, 1e-9);
  EXPECT_NEAR(pin.pose.tip_mm.z, -pin.depth_mm, 1e-9);
  ASSERT_TRUE(give(session, Op::kFinish));
  const scoring::Results results = session.measure();
  ASSERT_TRUE(results.hole.has_value());
  const double lean_deg =
      math::to_degrees(math::Radians{std::acos(pin.pose.axis_out_unit.z)}).value;
  EXPECT_NEAR(lean_deg, results.hole->deviation.angle_deg, 1.0) << "the measured hole's angle";
  EXPECT_GT(lean_deg, 2.0);
}

TEST(DirectionPin, TheWorkTakesItOutAndARefusalDoesNot) {
  Session session = std::move(*Session::create(support::shipped_setup(0)));
  drill_leaning(session, 5.0);
  const auto stands = [&] { return session.view().pin.has_value(); };
  ASSERT_TRUE(give(session, Op::kPin, {1}));
  EXPECT_FALSE(give(session, Op::kTakeDrill, {999, 0}));
  EXPECT_TRUE(stands()) << "a refused command changes nothing";
  ASSERT_TRUE(give(session, Op::kHand, {0, 0, 0, 0, 0}));
  EXPECT_TRUE(stands()) << "a hand that does not press is away";
  ASSERT_TRUE(give(session, Op::kPin, {0}));
  EXPECT_FALSE(stands());
  ASSERT_TRUE(give(session, Op::kPin, {1}));
  ASSERT_TRUE(give(session, Op::kTakeDrill, {drill_of("twist-27"), 0}));
  EXPECT_FALSE(stands());
  ASSERT_TRUE(give(session, Op::kPin, {1}));
  ASSERT_TRUE(give(session, Op::kMotor, {1000}));
  EXPECT_FALSE(stands());
}

TEST(DirectionPin, IsRepeatedWithTheAttemptAndMovesNothing) {
  Session looked = std::move(*Session::create(support::shipped_setup(0)));
  drill_leaning(looked, 5.0);
  const std::uint64_t before = looked.state_hash();
  ASSERT_TRUE(give(looked, Op::kPin, {1}));
  looked.advance(1000);
  EXPECT_NE(looked.state_hash(), before) << "what stands there is part of the state";
  ASSERT_TRUE(give(looked, Op::kPin, {0}));
  ASSERT_TRUE(give(looked, Op::kFinish));
  record::AttemptFile file;
  file.attempt = looked.record();
  file.attempt.attempt_id = std::string(32, 'a');
  file.stated = record::digest_chain(file.attempt);
  base::Result<Replay> repeated = Replay::start(file);
  ASSERT_TRUE(repeated.has_value());
  while (repeated->advance(1000)) {
  }
  EXPECT_TRUE(repeated->report().equal);
}

}  // namespace
}  // namespace driftbench::session
