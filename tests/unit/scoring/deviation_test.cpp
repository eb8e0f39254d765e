// Laws of the deviation between a planned and an achieved placement.
#include "scoring/deviation.h"

#include "base/random.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "math/rotation.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace driftbench::scoring {
namespace {

using math::Vec3;

/// One plan with its hints and one placement.
struct Case {
  Vec3 plan_entry{0.0, 0.0, 0.0};
  Vec3 plan_apex{0.0, 0.0, -10.0};
  Vec3 entry{0.0, 0.0, 0.0};
  Vec3 apex{0.0, 0.0, -10.0};
  Vec3 md_hint{1.0, 0.0, 0.0};
  Vec3 bl_hint{0.0, 1.0, 0.0};
};

Deviation measured(const Case& c) {
  const base::Result<Deviation> result =
      deviation(c.plan_entry, c.plan_apex, c.entry, c.apex, c.md_hint, c.bl_hint);
  EXPECT_TRUE(result.has_value()) << (result ? "" : result.error().message);
  return result.value_or(Deviation{});
}

std::array<double, 14> fields(const Deviation& d) {
  return {d.entry_global_mm, d.entry_lateral_mm, d.entry_piercing_mm, d.depth_mm,
          d.apex_global_mm,  d.apex_lateral_mm,  d.apex_depth_mm,     d.angle_deg,
          d.entry_md_mm,     d.entry_bl_mm,      d.apex_md_mm,        d.apex_bl_mm,
          d.tilt_md_deg,     d.tilt_bl_deg};
}

/// Placements a few millimetres and degrees off the plan.
std::vector<Case> some_cases(int count) {
  base::Rng rng(20260101);
  const auto within = [&rng](double limit) { return (2.0 * rng.uniform01() - 1.0) * limit; };
  std::vector<Case> cases;
  for (int i = 0; i < count; ++i) {
    Case c;
    c.entry = {within(3.0), within(3.0), within(2.0)};
    c.apex = c.plan_apex + Vec3(within(4.0), within(4.0), within(2.0));
    cases.push_back(c);
  }
  return cases;
}

TEST(Deviation, IsZeroWithoutError) {
  for (const double value : fields(measured(Case{}))) {
    EXPECT_EQ(value, 0.0);
  }
}

TEST(Deviation, KnownTriangle) {
  // 0.3 mm distal, 0.4 mm lingual, 1.2 mm too deep: lateral 0.5, global 1.3.
  Case c;
  c.entry = {0.3, 0.4, -1.2};
  c.apex = {0.3, 0.4, -11.2};
  const Deviation d = measured(c);
  EXPECT_NEAR(d.entry_lateral_mm, 0.5, 1e-15);
  EXPECT_NEAR(d.entry_global_mm, 1.3, 1e-15);
  EXPECT_NEAR(d.depth_mm, 1.2, 1e-15);
  EXPECT_NEAR(d.entry_piercing_mm, 0.5, 1e-15);
  EXPECT_NEAR(d.apex_depth_mm, 1.2, 1e-14);
  EXPECT_EQ(d.angle_deg, 0.0);
  EXPECT_NEAR(d.entry_md_mm, 0.3, 1e-15);
  EXPECT_NEAR(d.entry_bl_mm, 0.4, 1e-15);
}

TEST(Deviation, GlobalIsTheHypotenuseOfLateralAndDepth) {
  for (const Case& c : some_cases(200)) {
    const Deviation d = measured(c);
    EXPECT_NEAR(d.entry_global_mm * d.entry_global_mm,
                d.entry_lateral_mm * d.entry_lateral_mm + d.depth_mm * d.depth_mm, 1e-13);
    EXPECT_NEAR(d.apex_global_mm * d.apex_global_mm,
                d.apex_lateral_mm * d.apex_lateral_mm + d.apex_depth_mm * d.apex_depth_mm, 1e-13);
    EXPECT_NEAR(d.entry_lateral_mm, std::hypot(d.entry_md_mm, d.entry_bl_mm), 1e-14);
  }
}

TEST(Deviation, TheTwoLateralsDifferByDepthTimesTangent) {
  // Entry on the planned axis but 2 mm too deep, axis leaning by 6 deg: the axis pierces the
  // platform plane 2 tan(6 deg) aside although the perpendicular lateral error is zero.
  const double lean = 6.0 * math::kPi / 180.0;
  Case c;
  c.entry = {0.0, 0.0, -2.0};
  c.apex = c.entry + 10.0 * Vec3(std::sin(lean), 0.0, -std::cos(lean));
  const Deviation d = measured(c);
  EXPECT_EQ(d.entry_lateral_mm, 0.0);
  EXPECT_NEAR(d.entry_piercing_mm, 2.0 * std::tan(lean), 1e-14);
}

TEST(Deviation, MirroringDistalFlipsOnlyMesioDistalSigns) {
  for (Case c : some_cases(50)) {
    const std::array<double, 14> before = fields(measured(c));
    for (Vec3* v : {&c.plan_entry, &c.plan_apex, &c.entry, &c.apex}) {
      v->x = -v->x;
    }
    const std::array<double, 14> after = fields(measured(c));
    for (std::size_t i = 0; i < before.size(); ++i) {
      const bool is_mesio_distal = i == 8 || i == 10 || i == 12;
      EXPECT_EQ(after[i], is_mesio_distal ? -before[i] : before[i]) << "field " << i;
    }
  }
}

TEST(Deviation, TurningPlanAndPlacementTogetherChangesNothing) {
  const Vec3 axis = math::unit(Vec3(0.3, -0.5, 0.8));
  const Vec3 shift(11.0, -7.0, 3.0);
  for (Case c : some_cases(50)) {
    const std::array<double, 14> before = fields(measured(c));
    const math::Radians turn(2.1);
    for (Vec3* v : {&c.plan_entry, &c.plan_apex, &c.entry, &c.apex}) {
      *v = math::rotated(*v, axis, turn) + shift;
    }
    c.md_hint = math::rotated(c.md_hint, axis, turn);
    c.bl_hint = math::rotated(c.bl_hint, axis, turn);
    const std::array<double, 14> after = fields(measured(c));
    for (std::size_t i = 0; i < before.size(); ++i) {
      EXPECT_NEAR(after[i], before[i], 1e-12) << "field " << i;
    }
  }
}

TEST(Deviation, ApexLeaningDistallyIsPositive) {
  Case c;
  c.apex = {1.0, 0.0, -10.0};
  const Deviation distal = measured(c);
  EXPECT_NEAR(distal.tilt_md_deg, std::atan(0.1) * 180.0 / math::kPi, 1e-13);
  EXPECT_EQ(distal.tilt_bl_deg, 0.0);
  EXPECT_NEAR(distal.apex_md_mm, 1.0, 1e-15);
  c.apex = {0.0, -1.0, -10.0};
  EXPECT_LT(measured(c).tilt_bl_deg, 0.0);
}

TEST(Deviation, AnglesOfAHundredthOfADegreeAreExact) {
  // acos(u . v) would lose half of the digits here; atan2 must not.
  for (const double angle_deg : {0.0001, 0.01, 0.02, 1.0, 45.0}) {
    const double angle = angle_deg * math::kPi / 180.0;
    Case c;
    c.apex = c.entry + 10.0 * Vec3(0.6 * std::sin(angle), 0.8 * std::sin(angle), -std::cos(angle));
    EXPECT_NEAR(measured(c).angle_deg, angle_deg, 1e-12);
  }
}

TEST(Deviation, QuadrantsReportTheSameWords) {
  // Core frames are right-handed; a site in quadrants 2 and 4 mirrors at the border, so its
  // 'lingual' hint makes a left-handed report. The same clinical error gives the same numbers
  // everywhere.
  struct Site {
    int tooth;
    Vec3 distal, lingual, apical;
  };

  const std::array<Site, 4> sites{{{16, {-1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}},
                                   {26, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}},
                                   {36, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, -1.0}},
                                   {46, {-1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, -1.0}}}};
  for (const Site& site : sites) {
    const auto at = [&site](double distal, double lingual, double apical) {
      return distal * site.distal + lingual * site.lingual + apical * site.apical;
    };
    Case c;
    c.plan_apex = at(0.0, 0.0, 10.0);
    c.entry = at(0.4, -0.2, 0.5);
    c.apex = at(1.1, 0.3, 10.7);
    c.md_hint = site.distal + 0.1 * site.apical;  // hints need not be perpendicular
    c.bl_hint = site.lingual + 0.2 * site.distal;
    const Deviation d = measured(c);
    EXPECT_NEAR(d.entry_md_mm, 0.4, 1e-14) << site.tooth;
    EXPECT_NEAR(d.entry_bl_mm, -0.2, 1e-14) << site.tooth;
    EXPECT_NEAR(d.depth_mm, 0.5, 1e-14) << site.tooth;
    EXPECT_NEAR(d.apex_md_mm, 1.1, 1e-14) << site.tooth;
    EXPECT_NEAR(d.apex_bl_mm, 0.3, 1e-14) << site.tooth;
    EXPECT_NEAR(d.tilt_md_deg, std::atan2(0.7, 10.2) * 180.0 / math::kPi, 1e-12) << site.tooth;
    EXPECT_NEAR(d.tilt_bl_deg, std::atan2(0.5, 10.2) * 180.0 / math::kPi, 1e-12) << site.tooth;
  }
}

TEST(Deviation, RefusesWhatHasNoAxis) {
  std::vector<Case> bad(5);
  bad[0].plan_apex = bad[0].plan_entry;
  bad[1].apex = bad[1].entry;
  bad[2].md_hint = {0.0, 0.0, 2.0};
  bad[3].apex.x = std::numeric_limits<double>::quiet_NaN();
  bad[4].apex = {10.0, 0.0, 0.0};  // parallel to the platform plane
  for (const Case& c : bad) {
    const base::Result<Deviation> result =
        deviation(c.plan_entry, c.plan_apex, c.entry, c.apex, c.md_hint, c.bl_hint);
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, base::ErrorCode::kInvalidArgument);
    EXPECT_FALSE(result.error().message.empty());
  }
}

}  // namespace
}  // namespace driftbench::scoring
