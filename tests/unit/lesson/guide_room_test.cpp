// Room of a guided drill against closed geometry and published openings.
#include "lesson/guide_room.h"

#include "support/jaw_sites.h"
#include "support/shipped.h"

#include "specimen/clearance.h"

#include <gtest/gtest.h>

namespace driftbench::lesson {
namespace {

/// The shipped guided block's kit and guide over a molar site.
AttemptSetup molar_setup(int fdi = 36) {
  AttemptSetup setup = support::shipped_setup(1);
  setup.specimen = support::molar_site(fdi);
  return setup;
}

GuideRoom room_of(const AttemptSetup& setup) {
  const std::optional<GuideRoom> room = guide_room(setup);
  EXPECT_TRUE(room.has_value());
  return room.value_or(GuideRoom{});
}

specimen::JawSite& jaw_of(AttemptSetup& setup) {
  return std::get<specimen::JawSite>(setup.specimen);
}

// Common teaching practice: implant + gap + sleeve height + key collar = stop to shoulder.
TEST(GuideRoom, LengthsAddUpAndTheKitHasThem) {
  const AttemptSetup setup = support::shipped_setup(1);
  const GuideRoom room = room_of(setup);
  ASSERT_FALSE(room.lengths.empty());
  EXPECT_DOUBLE_EQ(room.lengths.front().sum_mm(), 10.0 + 3.5 + 4.5 + 1.5);
  for (const GuidedLength& length : room.lengths) {
    EXPECT_EQ(length.too_deep_mm(), 0.0);
  }
  EXPECT_FALSE(room.sleeve.has_value());  // a block has no neighbours and no mouth
  EXPECT_FALSE(room.mouth.has_value());
}

TEST(GuideRoom, ALengthThatTheKitLacksIsTooDeepOrTooShallowByTheRest) {
  AttemptSetup setup = support::shipped_setup(1);
  setup.guide->gap_mm = 3.8;  // 0.3 mm off the kit's steps of 1 mm
  EXPECT_NEAR(room_of(setup).lengths.front().too_deep_mm(), -0.3, 1e-9);
  setup.guide->gap_mm = 3.0;  // halfway: the longer one, which is the one to fear
  EXPECT_NEAR(room_of(setup).lengths.front().too_deep_mm(), 0.5, 1e-9);
  for (specimen::Drill& drill : setup.kit.drills) {
    drill.stop_lengths_mm = {12.0};
  }
  EXPECT_NEAR(room_of(setup).lengths.front().too_deep_mm(), 12.0 - 19.0, 1e-9);
  for (specimen::Drill& drill : setup.kit.drills) {
    drill.stop_lengths_mm.clear();
  }
  EXPECT_EQ(room_of(setup).lengths.front().nearest_mm, 0.0);
}

TEST(GuideRoom, NothingWithoutAGuide) {
  EXPECT_FALSE(guide_room(support::shipped_setup(0)).has_value());
}

// Law: a wider sleeve comes nearer by half of what it gains; its wall round it by the wall.
TEST(GuideRoom, AWiderSleeveComesNearerByHalfItsGain) {
  AttemptSetup setup = molar_setup();
  const GuideRoom before = room_of(setup);
  for (specimen::Sleeve& sleeve : setup.kit.sleeves) {
    sleeve.outer_diameter_mm += 1.0;
  }
  const GuideRoom after = room_of(setup);
  ASSERT_TRUE(before.sleeve && after.sleeve && before.body);
  EXPECT_NEAR(before.sleeve->distance_mm - after.sleeve->distance_mm, 0.5, 0.04);
  EXPECT_NEAR(before.sleeve->distance_mm - before.body->distance_mm, kGuideWall_mm, 0.04);
  EXPECT_EQ(before.sleeve->fdi,
            37);  // 11.2 mm less half a molar are less than 9.8 less half a premolar
}

// Law: moving a neighbour away by 1 mm gives 1 mm, until the other one is nearer.
TEST(GuideRoom, ANeighbourMovedAwayGivesAsMuch) {
  AttemptSetup setup = molar_setup();
  jaw_of(setup).jaw.teeth[0].at_mm = -8.0;
  const double near_mm = room_of(setup).sleeve->distance_mm;
  jaw_of(setup).jaw.teeth[0].at_mm = -8.5;
  EXPECT_NEAR(room_of(setup).sleeve->distance_mm - near_mm, 0.5, 0.04);
  jaw_of(setup).jaw.teeth[0].at_mm = -5.0;  // half a crown and half a sleeve are more
  EXPECT_LT(room_of(setup).sleeve->distance_mm, 0.0);
}

// A guide on teeth lies on the crowns by its nature: only its sleeve is checked against them.
TEST(GuideRoom, AGuideOnTeethMayTouchThem) {
  AttemptSetup setup = molar_setup();
  setup.guide->support = specimen::GuideSupport{};
  EXPECT_FALSE(room_of(setup).body.has_value());
  EXPECT_TRUE(room_of(setup).sleeve.has_value());
}

// The head hangs over the key: a higher gap lifts it away from crowns that stand high.
TEST(GuideRoom, AHigherGapLiftsTheHead) {
  AttemptSetup setup = molar_setup();
  for (specimen::ToothSpec& tooth : jaw_of(setup).jaw.teeth) {
    tooth.neck_mm = 6.0;
    tooth.at_mm *= 0.8;
  }
  const double low_mm = room_of(setup).head->distance_mm;
  setup.guide->gap_mm = 6.5;
  EXPECT_GT(room_of(setup).head->distance_mm, low_mm);
}

// Geometry along the axis: key top + point + drill + shank + head, less the height of the teeth.
TEST(GuideRoom, TheMouthTakesKeyDrillAndHead) {
  AttemptSetup setup = molar_setup();
  setup.plan.drill_ids.resize(1);
  const MouthRoom mouth = room_of(setup).mouth.value_or(MouthRoom{});
  AttemptSetup lower = setup;
  for (specimen::ToothSpec& tooth : jaw_of(lower).jaw.teeth) {
    tooth.neck_mm -= 1.0;
  }
  EXPECT_NEAR(room_of(lower).mouth->needed_mm - mouth.needed_mm, 1.0, 1e-6);
  AttemptSetup bare = setup;
  jaw_of(bare).jaw.teeth.clear();
  EXPECT_NEAR(room_of(bare).mouth->needed_mm, 9.5 + 0.6 + 19.5 + 3.4 + 13.2 - 8.0, 1e-9);
  EXPECT_FALSE(mouth.opens_mm.has_value());
  setup.guide->mouth_opening_mm = 41.0;
  EXPECT_EQ(room_of(setup).mouth->opens_mm, 41.0);
}

// Common knowledge: the farther back, the less room. Published: 51.3 mm (39 to 70) and 44.3 mm (36
// to 56) between the incisors, PMC3428458.
TEST(GuideRoom, TheMouthOpensLessFartherBack) {
  for (const int quadrant : {10, 20, 30, 40}) {
    EXPECT_EQ(opening_share(quadrant + 1), 1.0);
    for (int position = 2; position <= 8; ++position) {
      EXPECT_LT(opening_share(quadrant + position), opening_share(quadrant + position - 1));
      EXPECT_GT(opening_share(quadrant + position), 0.4);
    }
  }
  EXPECT_NEAR(kMeanOpening_mm, 0.5 * (51.3 + 44.3), 0.05);
  const MouthRoom mouth = room_of(molar_setup(46)).mouth.value_or(MouthRoom{});
  EXPECT_NEAR(mouth.needed_between_incisors_mm() * mouth.share, mouth.needed_mm, 1e-12);
  EXPECT_GT(mouth.needed_between_incisors_mm(), mouth.needed_mm);
}

}  // namespace
}  // namespace driftbench::lesson
