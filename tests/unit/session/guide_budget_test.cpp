// What a guide lets through: each source against its closed form, and the laws of the sum.
#include "session/guide_budget.h"

#include "support/shipped.h"

#include "math/angle.h"
#include "specimen/drill_length.h"
#include "specimen/guide_support.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::session {
namespace {

/// A shipped guided block whose guide is made exactly.
lesson::AttemptSetup exact_setup() {
  lesson::AttemptSetup setup = support::shipped_setup(1);
  setup.guide->fit_sd_mm = 0.0;
  setup.guide->fit_tilt_sd_deg = 0.0;
  return setup;
}

OperatorProfile still_hand() {
  OperatorProfile hand;
  hand.guided_lean_sd_deg = 0.0;
  hand.guided_side_sd_mm = 0.0;
  return hand;
}

const BudgetLine& line_of(const GuideBudget& budget, BudgetSource source) {
  return budget.lines[static_cast<std::size_t>(source)];
}

TEST(GuideBudget, AnExactGuideAndAStillHandGiveNoError) {
  const GuideBudget budget = guide_budget(exact_setup(), still_hand(), 0.0);
  EXPECT_EQ(budget.mean.entry_mm, 0.0);
  EXPECT_EQ(budget.mean.apex_mm, 0.0);
  EXPECT_EQ(budget.within_95.angle_deg, 0.0);
  for (const BudgetLine& line : budget.lines) {
    EXPECT_EQ(line.apex_share, 0.0);
  }
}

// A drill of 5.0 mm straight in the sleeve of 5.2 x 4.5 mm: the limit is that of one fit, which
// `driftbench sleeve` gives to first order.
TEST(GuideBudget, PlayAloneIsThatOfTheSleeve) {
  lesson::AttemptSetup setup = exact_setup();
  setup.kit.keys.clear();
  for (specimen::Drill& drill : setup.kit.drills) {
    drill.diameter_mm = 5.0;
  }
  const auto geometry =
      specimen::sleeve_geometry({5.2, 5.0, 4.5, setup.guide->gap_mm, setup.plan.depth_mm, 0.0});
  ASSERT_TRUE(geometry.has_value());
  const double tilt = 0.2 / 4.5;
  const HoleError limit =
      line_of(guide_budget(setup, still_hand(), 0.0), BudgetSource::kPlay).limit;
  EXPECT_NEAR(limit.angle_deg, math::to_degrees(geometry->tilt_first_order).value, 1e-9);
  EXPECT_NEAR(limit.entry_mm, (2.25 + setup.guide->gap_mm) * tilt, 1e-9);
  EXPECT_NEAR(limit.apex_mm, (2.25 + setup.guide->gap_mm + setup.plan.depth_mm) * tilt, 1e-9);
  EXPECT_NEAR(limit.apex_mm, geometry->apex_mm, 0.03 * limit.apex_mm)
      << "exact against first order";
}

// Key in sleeve and drill in key: both plays and both tilts add.
TEST(GuideBudget, TheKeysPlayIsAddedToTheDrills) {
  const lesson::AttemptSetup setup = exact_setup();
  const specimen::Key& key = setup.kit.keys.front();
  const double in_sleeve = 5.2 - key.spigot_diameter_mm;
  const double in_key = key.bore_mm - 2.0;
  const double low = 0.5 * (in_sleeve + in_key);
  const double high = in_sleeve * (0.5 + key.collar_mm / 4.5) + 0.5 * in_key;
  const HoleError limit =
      line_of(guide_budget(setup, still_hand(), 0.0), BudgetSource::kPlay).limit;
  EXPECT_NEAR(std::tan(limit.angle_deg * math::kPi / 180.0), (low + high) / (4.5 + key.collar_mm),
              1e-12);
}

// A gap over a span tilts by atan(g/S): 0.2, 0.5 and 1.0 mm over 20 mm give 0.57, 1.43 and 2.86
// degrees (geometry).
TEST(GuideBudget, ASeatGapTiltsByItsShareOfTheSpan) {
  lesson::AttemptSetup setup = exact_setup();
  setup.guide->foot_span_mm = 20.0;
  const double expected_deg[] = {0.57, 1.43, 2.86};
  const double gaps_mm[] = {0.2, 0.5, 1.0};
  for (int i = 0; i < 3; ++i) {
    const GuideBudget budget = guide_budget(setup, still_hand(), gaps_mm[i]);
    const BudgetLine& seat = line_of(budget, BudgetSource::kSeat);
    EXPECT_NEAR(seat.limit.angle_deg, expected_deg[i], 0.005);
    // Even between nothing and the gap: half of it on average.
    EXPECT_NEAR(seat.mean.apex_mm, 0.5 * seat.limit.apex_mm, 0.02 * seat.limit.apex_mm);
    EXPECT_EQ(seat.mean.entry_mm, 0.0) << "it tilts about the platform";
    EXPECT_DOUBLE_EQ(seat.apex_share, 1.0);
  }
}

// The length of two equal normal components has mean sd sqrt(pi/2) (Rayleigh); draws end at three
// SD, which takes about one percent.
TEST(GuideBudget, MakingAloneIsRayleigh) {
  lesson::AttemptSetup setup = exact_setup();
  setup.guide->fit_sd_mm = 0.27;
  const GuideBudget budget = guide_budget(setup, still_hand(), 0.0);
  const double rayleigh_mm = 0.27 * std::sqrt(0.5 * math::kPi);
  const BudgetLine& making = line_of(budget, BudgetSource::kMaking);
  EXPECT_NEAR(making.mean.entry_mm, rayleigh_mm, 0.03 * rayleigh_mm);
  EXPECT_EQ(budget.mean.entry_mm, making.mean.entry_mm) << "nothing else adds to it";
  EXPECT_NEAR(making.limit.entry_mm, 0.81, 1e-12);
}

// A strong pull to one side far above the sleeve uses up the whole play: the drill touches the
// upper ring on that side and the lower ring on the other.
TEST(GuideBudget, AStrongPullUsesUpTheWholePlay) {
  OperatorProfile hand = still_hand();
  hand.guided_side_sd_mm = 500.0;
  lesson::AttemptSetup stiff = exact_setup();
  stiff.hand.wrist_stiffness_nmm_per_rad = 1e-6;
  const GuideBudget budget = guide_budget(stiff, hand, 0.0);
  const BudgetLine& play = line_of(budget, BudgetSource::kPlay);
  EXPECT_NEAR(play.mean.angle_deg, play.limit.angle_deg, 0.02 * play.limit.angle_deg);
  EXPECT_NEAR(play.mean.apex_mm, play.limit.apex_mm, 0.02 * play.limit.apex_mm);
}

TEST(GuideBudget, TheSumKeepsItsOrder) {
  lesson::AttemptSetup setup = exact_setup();
  setup.guide->fit_sd_mm = 0.2;
  setup.guide->fit_tilt_sd_deg = 1.0;
  const GuideBudget budget = guide_budget(setup, OperatorProfile{}, 0.3);
  const auto in_order = [](double mean, double upper, double limit) {
    EXPECT_LT(mean, upper);
    EXPECT_LT(upper, limit);
  };
  in_order(budget.mean.entry_mm, budget.within_95.entry_mm, budget.limit.entry_mm);
  in_order(budget.mean.apex_mm, budget.within_95.apex_mm, budget.limit.apex_mm);
  in_order(budget.mean.angle_deg, budget.within_95.angle_deg, budget.limit.angle_deg);
  double shares = 0.0;
  for (const BudgetLine& line : budget.lines) {
    EXPECT_LE(line.mean.apex_mm, line.limit.apex_mm);
    EXPECT_GT(line.apex_share, 0.0);
    shares += line.apex_share;
  }
  EXPECT_NEAR(shares, 1.0, 1e-12);
  const GuideBudget again = guide_budget(setup, OperatorProfile{}, 0.3);
  EXPECT_EQ(budget.mean.apex_mm, again.mean.apex_mm);
  EXPECT_EQ(budget.within_95.apex_mm, again.within_95.apex_mm);
}

TEST(GuideBudget, MoreOfAnySourceIsMoreError) {
  const lesson::AttemptSetup setup = exact_setup();
  const auto apex_mm = [](const lesson::AttemptSetup& of, BudgetSource source, double gap_mm) {
    return line_of(guide_budget(of, OperatorProfile{}, gap_mm), source).mean.apex_mm;
  };
  EXPECT_GT(apex_mm(setup, BudgetSource::kSeat, 0.6), apex_mm(setup, BudgetSource::kSeat, 0.1));
  lesson::AttemptSetup higher = setup;
  higher.guide->gap_mm += 2.0;
  EXPECT_GT(apex_mm(higher, BudgetSource::kPlay, 0.1), apex_mm(setup, BudgetSource::kPlay, 0.1));
  lesson::AttemptSetup looser = setup;
  looser.kit.keys.front().bore_mm += 0.2;
  EXPECT_GT(apex_mm(looser, BudgetSource::kPlay, 0.1), apex_mm(setup, BudgetSource::kPlay, 0.1));
  lesson::AttemptSetup softer = setup;
  softer.guide->support_stiffness_n_per_mm = 15.0;
  softer.guide->foot_stiffness_n_per_mm = 5.0;
  EXPECT_GT(apex_mm(softer, BudgetSource::kSupport, 0.1),
            apex_mm(setup, BudgetSource::kSupport, 0.1));
  EXPECT_GT(guide_budget(setup, OperatorProfile{}, 2.0).mean.apex_mm,
            guide_budget(setup, OperatorProfile{}, 0.1).mean.apex_mm);
}

/// The same block's guide on another support, feet 20 mm apart.
GuideBudget budget_on(const specimen::GuideSupport& support) {
  lesson::AttemptSetup setup = support::shipped_setup(1);
  specimen::Guide guide = specimen::typical_guide(support);
  guide.sleeve_id = setup.guide->sleeve_id;
  guide.foot_span_mm = 20.0;
  setup.guide = guide;
  return guide_budget(setup, OperatorProfile{}, 0.0);
}

// Published order: on teeth 2.91 deg, on mucosa 4.51, on bone 4.63 (Ozan et al. 2009); a fixed
// guide is more accurate (Cassetta et al. 2013).
TEST(GuideBudget, SupportsKeepThePublishedOrder) {
  using specimen::SupportKind;
  const GuideBudget teeth = budget_on({SupportKind::kTeeth, 0, false});
  const GuideBudget mucosa = budget_on({SupportKind::kMucosa, 0, true});
  const GuideBudget bone = budget_on({SupportKind::kBone, 0, false});
  const GuideBudget pinned = budget_on({SupportKind::kMucosa, 3, true});
  EXPECT_LT(teeth.mean.angle_deg, mucosa.mean.angle_deg);
  EXPECT_LT(teeth.mean.apex_mm, bone.mean.apex_mm);
  EXPECT_LT(pinned.mean.angle_deg, mucosa.mean.angle_deg);
  EXPECT_LT(line_of(mucosa, BudgetSource::kMaking).mean.angle_deg,
            line_of(bone, BudgetSource::kMaking).mean.angle_deg);
  // What gives way on gum is held by pins.
  EXPECT_GT(line_of(mucosa, BudgetSource::kSupport).mean.apex_mm,
            line_of(teeth, BudgetSource::kSupport).mean.apex_mm);
  EXPECT_LT(line_of(pinned, BudgetSource::kSupport).mean.apex_mm,
            line_of(mucosa, BudgetSource::kSupport).mean.apex_mm);
}

}  // namespace
}  // namespace driftbench::session
