#include "session/session.h"

#include "support/shipped.h"

#include "session/scrub.h"

#include <gtest/gtest.h>

namespace driftbench {
namespace {

using record::Op;
using session::Hint;
using session::Phase;
using session::Session;
using support::shipped_setup;

Session fresh(std::size_t block = 0) {
  return std::move(*Session::create(shipped_setup(block)));
}

bool give(Session& session, Op op, std::array<std::int32_t, record::kMaxArguments> arguments = {}) {
  return session.submit({op, arguments}).has_value();
}

/// Index of the 2.0 mm twist drill in the shipped kit.
std::int32_t pilot() {
  const auto& drills = support::shipped_kit().drills;
  for (std::size_t i = 0; i < drills.size(); ++i) {
    if (drills[i].id == "twist-20") {
      return static_cast<std::int32_t>(i);
    }
  }
  return -1;
}

/// Takes the pilot, starts the motor and presses in the dense half for some steps.
void drill_a_little(Session& session, std::int64_t steps) {
  ASSERT_TRUE(give(session, Op::kTakeDrill, {pilot(), 0}));
  ASSERT_TRUE(give(session, Op::kMotor, {1200}));
  ASSERT_TRUE(give(session, Op::kHand, {-5000, 0, 0, 0, 0}));
  session.advance(400);
  ASSERT_TRUE(give(session, Op::kHand, {-5000, 0, 0, 0, 16000}));
  session.advance(steps);
}

TEST(Session, ResetReturnsExactlyToTheStart) {
  Session session = fresh();
  const std::uint64_t start = session.state_hash();
  drill_a_little(session, 1500);
  EXPECT_NE(session.state_hash(), start);
  session.reset();
  EXPECT_EQ(session.state_hash(), start);
  EXPECT_TRUE(session.trace().empty());
  EXPECT_EQ(session.view().step, 0);
  EXPECT_EQ(session.view().volume->lost_coverage, 0U);
}

TEST(Session, PortionsOfStepsDoNotMatter) {
  Session whole = fresh();
  Session parts = fresh();
  drill_a_little(whole, 1200);
  ASSERT_TRUE(give(parts, Op::kTakeDrill, {pilot(), 0}));
  ASSERT_TRUE(give(parts, Op::kMotor, {1200}));
  ASSERT_TRUE(give(parts, Op::kHand, {-5000, 0, 0, 0, 0}));
  parts.advance(150);
  parts.advance(250);
  ASSERT_TRUE(give(parts, Op::kHand, {-5000, 0, 0, 0, 16000}));
  for (int i = 0; i < 1200; i += 16) {
    parts.advance(16);
  }
  EXPECT_EQ(whole.state_hash(), parts.state_hash());
}

TEST(Session, HintsLeadAFreeHandThroughTheWork) {
  Session session = fresh();
  EXPECT_EQ(session.view().hint, Hint::kTakeDrill);
  give(session, Op::kTakeDrill, {pilot(), 0});
  EXPECT_EQ(session.view().hint, Hint::kStartMotor);
  give(session, Op::kMotor, {1200});
  EXPECT_EQ(session.view().hint, Hint::kPlaceTip);
  session.advance(400);
  give(session, Op::kHand, {-2000, 0, 0, 0, 16000});
  session.advance(1500);
  EXPECT_EQ(session.view().hint, Hint::kPressing);
}

TEST(Session, HintsTellTheDepthOnlyWhereTheLessonShowsNumbers) {
  for (const bool numbers : {true, false}) {
    lesson::AttemptSetup setup = shipped_setup(0);
    setup.show.numbers = numbers;
    Session session = std::move(*Session::create(setup));
    give(session, Op::kTakeDrill, {pilot(), 0});
    give(session, Op::kMotor, {1200});
    session.advance(1200);
    give(session, Op::kHand, {0, 0, 0, 0, 16000});
    std::vector<Hint> seen;
    const double too_deep_mm = setup.plan.depth_mm + setup.tolerance.depth_high_mm + 0.2;
    for (int i = 0; i < 4000 && session.view().shoulder_depth_mm < too_deep_mm; ++i) {
      session.advance(10);
      if (seen.empty() || seen.back() != session.view().hint) {
        seen.push_back(session.view().hint);
      }
    }
    ASSERT_GE(session.view().shoulder_depth_mm, too_deep_mm);
    const std::vector<Hint> told{Hint::kPlaceTip, Hint::kPressing, Hint::kNearDepth, Hint::kEaseOff,
                                 Hint::kTooDeep};
    const std::vector<Hint> silent{Hint::kPlaceTip, Hint::kPressing};
    EXPECT_EQ(seen, numbers ? told : silent);
    give(session, Op::kHand, {0, 0, 0, 0, 0});
    session.advance(200);
    EXPECT_EQ(session.view().hint, numbers ? Hint::kLift : Hint::kJudgeDepth);
    give(session, Op::kMotor, {0});
    EXPECT_EQ(session.view().hint, Hint::kLift) << "a drill that stands in its hole comes out next";
    give(session, Op::kMotor, {1200});
    give(session, Op::kLift, {1});
    session.advance(20);
    EXPECT_EQ(session.view().hint, Hint::kLifting);
    give(session, Op::kLift, {0});
    give(session, Op::kHand, {0, 0, 0, 0, 30000});
    for (int i = 0; i < 4000 && session.view().hint != Hint::kThrough; ++i) {
      session.advance(10);
    }
    EXPECT_EQ(session.view().hint, Hint::kThrough);
    EXPECT_GT(session.view().shoulder_depth_mm, 25.4);
  }
}

TEST(Session, HintsLeadAGuidedHandThroughSeatHoldKeyEngageMotor) {
  Session session = fresh(1);
  EXPECT_EQ(session.view().hint, Hint::kPlaceGuide);
  give(session, Op::kPlaceGuide, {1});
  EXPECT_EQ(session.view().hint, Hint::kSeatGuide);
  for (int i = 0; i < 40 && session.view().hint == Hint::kSeatGuide; ++i) {
    math::Vec2 at(0.0);
    double weight = 1e-9;
    for (std::size_t k = 0; k < 4; ++k) {
      const double gap = session.view().guide.gap_mm[k];
      at += gap * math::Vec2(k == 0 || k == 3 ? 10.0 : -10.0, k < 2 ? 10.0 : -10.0);
      weight += gap;
    }
    give(session, Op::kPressGuide,
         {static_cast<std::int32_t>(1000.0 * at.x / weight),
          static_cast<std::int32_t>(1000.0 * at.y / weight), 45000});
    session.advance(200);
  }
  give(session, Op::kPressGuide, {0, 0, 0});
  EXPECT_EQ(session.view().hint, Hint::kHoldGuide);
  give(session, Op::kHoldGuide, {1});
  EXPECT_EQ(session.view().hint, Hint::kTakeDrill);
  give(session, Op::kTakeDrill, {pilot(), 19500});
  EXPECT_EQ(session.view().hint, Hint::kKeyIn);
  give(session, Op::kKey, {1});
  EXPECT_EQ(session.view().hint, Hint::kChangeKey);
  give(session, Op::kKey, {-1});
  EXPECT_EQ(session.view().hint, Hint::kKeyIn);
  give(session, Op::kKey, {0});
  EXPECT_EQ(session.view().hint, Hint::kEngageDrill);
  give(session, Op::kHand, {0, 0, 0, 0, 1000});
  session.advance(6000);
  give(session, Op::kHand, {0, 0, 0, 0, 0});
  EXPECT_EQ(session.view().hint, Hint::kStartMotor);
  give(session, Op::kMotor, {1200});
  session.advance(400);
  EXPECT_EQ(session.view().hint,
            Hint::kPressGuided);  // nothing of a free hand's search for the site
  give(session, Op::kLift, {1});
  session.advance(3000);
  EXPECT_EQ(session.view().hint, Hint::kStopMotor);  // it must not come back turning
  give(session, Op::kMotor, {0});
  EXPECT_EQ(session.view().hint, Hint::kEngageDrill);
}

TEST(Session, RefusesWhatTheSituationDoesNotAllowAndRecordsNothing) {
  Session session = fresh();
  EXPECT_FALSE(give(session, Op::kMotor, {1200}));       // no drill in hand
  EXPECT_FALSE(give(session, Op::kTakeDrill, {99, 0}));  // no such drill
  EXPECT_FALSE(give(session, Op::kHand, {999'000'000, 0, 0, 0, 0}));
  EXPECT_FALSE(give(session, Op::kPlaceGuide, {1}));  // free-hand has no guide
  EXPECT_FALSE(session.submit({static_cast<Op>(77), {}}).has_value());
  EXPECT_TRUE(session.trace().empty());
  drill_a_little(session, 2500);
  EXPECT_FALSE(give(session, Op::kTakeDrill, {pilot() + 1, 0}));  // still in the hole
  EXPECT_FALSE(give(session, Op::kFinish));
  EXPECT_FALSE(give(session, Op::kProbe));
}

TEST(Session, LiftBringsTheDrillOutAndProbeFindsFloorAndWalls) {
  Session session = fresh();
  drill_a_little(session, 2500);
  const double deepest = -session.view().pose.tip_mm.z;
  give(session, Op::kHand, {-5000, 0, 0, 0, 0});
  give(session, Op::kLift, {1});
  session.advance(4000);
  EXPECT_TRUE(session.view().is_out);
  EXPECT_FALSE(session.view().lifting);
  ASSERT_TRUE(give(session, Op::kProbe));
  ASSERT_TRUE(session.view().probe.has_value());
  EXPECT_NEAR(session.view().probe->floor_mm, deepest, 0.25);
  for (const bool wall : session.view().probe->wall_present) {
    EXPECT_TRUE(wall);
  }
}

TEST(Session, MeasuresNothingWhereNothingWasDrilled) {
  Session session = fresh();
  ASSERT_TRUE(give(session, Op::kFinish));
  EXPECT_EQ(session.view().phase, Phase::kFinished);
  const scoring::Results results = session.measure();
  EXPECT_FALSE(results.hole.has_value());
  EXPECT_FALSE(results.no_hole_reason.empty());
  EXPECT_FALSE(give(session, Op::kMotor, {100}));
}

TEST(Session, StopsWithAReasonWhenTheDrillSlipsAway) {
  lesson::AttemptSetup setup = shipped_setup(0);
  specimen::block_in(setup.specimen)->second.reset();
  specimen::block_in(setup.specimen)->slope_deg = 45.0;
  Session session = std::move(*Session::create(setup));
  give(session, Op::kTakeDrill, {pilot(), 0});
  give(session, Op::kMotor, {1200});
  session.advance(400);
  give(session, Op::kHand, {0, 0, 0, 0, 30000});
  session.advance(20'000);
  EXPECT_EQ(session.view().phase, Phase::kStopped);
  EXPECT_NE(session.view().status & session::kStepRunaway, 0U);
  EXPECT_FALSE(session.trace().empty());
}

TEST(Scrub, WindsBackToTheFreshBlockAndForwardToTheEnd) {
  Session session = fresh();
  drill_a_little(session, 2500);
  session::Scrub scrub(session);
  scrub.wind_to(0);
  EXPECT_EQ(scrub.volume().coverage, session.view().volume->initial_coverage);
  EXPECT_EQ(scrub.sample(), nullptr);
  scrub.wind_to(session.view().step);
  EXPECT_EQ(scrub.volume().coverage, session.view().volume->coverage);
  ASSERT_NE(scrub.sample(), nullptr);
  EXPECT_LE(scrub.sample()->step, session.view().step);
}

}  // namespace
}  // namespace driftbench
