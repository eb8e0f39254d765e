#include "support/bench_rig.h"

#include "drilling/balance.h"
#include "drilling/sleeve_fit.h"

#include <cmath>

namespace driftbench {
namespace {

using testing::block;
using testing::drill;
using testing::halves;
using testing::Job;
using testing::Outcome;

constexpr double kGap_mm = 3.5;
constexpr double kReportedPlay_mm = 0.06;  // of key in sleeve, and of drill in key: a tight one

drilling::SleeveFit fit_for(double diameter_mm, double play_mm = kReportedPlay_mm) {
  const specimen::Sleeve sleeve{"sleeve", 5.2, 4.5, 7.0};
  const specimen::Key key{"key", "drill", 5.2 - play_mm, diameter_mm + play_mm, 1.5};
  specimen::Drill drill;
  drill.diameter_mm = diameter_mm;
  drilling::SleeveFit fit = drilling::make_sleeve_fit(
      sleeve, &key, testing::tool_of({.diameter_mm = diameter_mm}), drill, 17.5);
  fit.sleeve.tip_mm = {0.0, 0.0, kGap_mm};
  return fit;
}

TEST(SleeveFit, RingsGiveTheSumOfBothTilts) {
  // c1/H1 + c2/H2, first order (geometry): 0.06/4.5 + 0.06/6.0
  const drilling::SleeveFit fit = fit_for(2.0);
  const double lower = fit.rings[0].bore_radius_mm - 1.0;
  const double upper = fit.rings[1].bore_radius_mm - 1.0;
  EXPECT_NEAR(lower, 0.06, 1e-12);
  EXPECT_NEAR((lower + upper) / 6.0, 0.06 / 4.5 + 0.06 / 6.0, 1e-12);
}

// What the play allows at the platform: both rings taken up on opposite sides, seen from 3.5 mm
// below. On top of it the contact gives way by force over stiffness; the forces on the rings follow
// from the side force at the tip by leverage (rings 6 mm apart, tip 3.5 + 7.6 mm below the lower).
TEST(Sleeve, KeepsEntryAndAxisWithinItsPlay) {
  constexpr double kHandSide_n = 4.0;  // 1.2 N/mm at a grip drawn 1.5 mm aside, plus the wrist
  for (const double boundary_deg : {0.0, 90.0, 215.0}) {
    for (const std::uint64_t seed : {5U, 6U, 7U}) {
      volume::Volume volume = block(halves(boundary_deg));
      const drilling::SleeveFit fit = fit_for(2.0);
      const Outcome outcome = drill(volume, {.depth_mm = 7.0,
                                             .hand_mm = {0.6, -0.4},
                                             .lean_rad = {0.03, 0.02},
                                             .guide = &fit,
                                             .slow_wander = true,
                                             .seed = seed});
      const double tilt = 0.06 / 4.5 + 0.06 / 6.0;
      const double lower_n = (outcome.peak_side_n + kHandSide_n) * (11.1 + 6.0) / 6.0;
      const double upper_n = (outcome.peak_side_n + kHandSide_n) * 11.1 / 6.0;
      const double give_tilt = (lower_n + upper_n) / drilling::kSleeveStiffness_n_per_mm / 6.0;
      const double give_mm = lower_n / drilling::kSleeveStiffness_n_per_mm + kGap_mm * give_tilt;
      EXPECT_LT(std::hypot(outcome.mouth_mm.x, outcome.mouth_mm.y),
                0.06 + kGap_mm * tilt + give_mm);
      EXPECT_LT(std::acos(outcome.axis.z), tilt + give_tilt);
      EXPECT_LT(give_mm, 0.3);  // the bound means something
    }
  }
}

TEST(Sleeve, MovesTheEntryFarLessThanAFreeHandOnTheBoundary) {
  volume::Volume guided = block(halves());
  volume::Volume free = block(halves());
  const drilling::SleeveFit fit = fit_for(2.0);
  const double with = drill(guided, {.depth_mm = 7.0, .guide = &fit}).mouth_mm.x;
  const double without = drill(free, {.depth_mm = 7.0}).mouth_mm.x;
  EXPECT_LT(with, 0.35 * without);
}

TEST(Sleeve, MorePlayAllowsMoreError) {
  double last = 0.0;
  for (const double play_mm : {0.05, 0.15, 0.30}) {
    volume::Volume volume = block(halves());
    const drilling::SleeveFit fit = fit_for(2.0, play_mm);
    const Outcome outcome = drill(volume, {.depth_mm = 7.0, .guide = &fit});
    const double error = std::hypot(outcome.mouth_mm.x, outcome.mouth_mm.y);
    EXPECT_GT(error, last) << play_mm;
    last = error;
  }
}

TEST(Sleeve, ItsStopLimitsTheDepth) {
  volume::Volume volume = block(testing::uniform_block(specimen::DensityClass::kD4));
  const drilling::SleeveFit fit = fit_for(2.0);  // stop 17.5, end face 3.5 + 4.5 + 1.5 = 9.5
  const Outcome outcome =
      drill(volume, {.press_n = 24.0, .depth_mm = 12.0, .longest_steps = 6000, .guide = &fit});
  EXPECT_FALSE(outcome.reached);
  const double shoulder = -(outcome.tip_mm.z + 0.601);
  EXPECT_NEAR(shoulder, 17.5 - 9.5, 0.08);
}

TEST(Sleeve, AnUnseatedGuideTransfersItsError) {
  drilling::SleeveFit fit = fit_for(2.0);
  fit.sleeve.axis_out_unit = math::unit(math::Vec3(0.05, 0.0, 1.0));
  fit.sleeve.tip_mm = kGap_mm * fit.sleeve.axis_out_unit;
  volume::Volume volume = block(testing::uniform_block(specimen::DensityClass::kD2));
  const Outcome outcome = drill(volume, {.depth_mm = 7.0, .lean_rad = {0.05, 0.0}, .guide = &fit});
  EXPECT_NEAR(std::asin(outcome.axis.x), 0.05, 0.03);
  EXPECT_GT(std::asin(outcome.axis.x), 0.02);
}

// Sleeve and key are tubes, not two rings with nothing in between: a body whose end is still inside
// is held there. Where it was not, the point left the tube and wedged in its lower end.
TEST(Sleeve, TheTubeHoldsTheEndOfTheBodyOnItsWayThrough) {
  const drilling::SleeveFit fit = fit_for(2.0);
  const drilling::Tool tool = testing::tool_of({.diameter_mm = 2.0});
  const auto room_mm = [&](double shoulder_mm, double off_mm) {
    drilling::DrillPose pose;
    pose.tip_mm = fit.sleeve.tip_mm + math::Vec3(off_mm, 0.0, shoulder_mm - tool.point_height_mm);
    const auto limit =
        drilling::ring_limit(fit, fit.rings[0], tool, pose, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0});
    return limit ? limit->room_mm : 1e9;
  };
  const double low = fit.rings[0].bore_radius_mm;
  const double high = fit.rings[1].bore_radius_mm;
  const double height = fit.rings[1].height_mm;
  for (const double shoulder_mm : {1.0, 2.0, 3.0}) {
    const double bore = low + (high - low) * shoulder_mm / height;
    const double lead_in = std::max(0.0, 2.5 - (fit.end_face_mm - shoulder_mm) - 0.6);
    EXPECT_NEAR(room_mm(shoulder_mm, 0.9), bore - 1.0 - 0.9 + lead_in, 0.01) << shoulder_mm;
    EXPECT_LT(room_mm(shoulder_mm, 0.9), 0.0) << "the point may not leave the tube";
  }
  // Nothing jumps where the body's end passes the lower edge.
  EXPECT_NEAR(room_mm(1e-6, 0.05), room_mm(-1e-6, 0.05), 1e-5);
}

// A collar that is as long as the site is deep has just entered the sleeve when the point touches:
// it cannot hold the axis yet. The entry error is made at first contact.
TEST(Sleeve, ACollarHoldsLessAtFirstContactThanAKey) {
  const specimen::Sleeve sleeve{"sleeve", 5.2, 4.5, 7.0};
  specimen::Drill collared;
  collared.diameter_mm = 2.0;
  collared.collar_diameter_mm = 5.14;
  const auto fit_of = [&](double collar_mm) {
    collared.collar_length_mm = collar_mm;
    drilling::SleeveFit fit = drilling::make_sleeve_fit(
        sleeve, nullptr, testing::tool_of({.diameter_mm = 2.0}), collared, 16.0);
    fit.sleeve.tip_mm = {0.0, 0.0, kGap_mm};
    return fit;
  };
  const auto entry_mm = [](const drilling::SleeveFit& fit) {
    volume::Volume volume = block(testing::uniform_block(specimen::DensityClass::kD2));
    const Outcome outcome = drill(
        volume, {.depth_mm = 7.5, .hand_mm = {0.8, 0.0}, .lean_rad = {0.08, 0.0}, .guide = &fit});
    return std::hypot(outcome.mouth_mm.x, outcome.mouth_mm.y);
  };
  const double short_collar = entry_mm(fit_of(9.0));
  const double middle_collar = entry_mm(fit_of(11.0));
  const double long_collar = entry_mm(fit_of(15.0));
  EXPECT_GT(short_collar, 1.3 * middle_collar);
  EXPECT_GT(middle_collar, long_collar);
}

TEST(Sleeve, ACollarGuidesItsWholeLengthAtTheStop) {
  const specimen::Sleeve sleeve{"sleeve", 5.2, 4.5, 7.0};
  specimen::Drill collared;
  collared.diameter_mm = 2.0;
  collared.collar_diameter_mm = 5.1;
  collared.collar_length_mm = 9.0;
  const drilling::Tool tool = testing::tool_of({.diameter_mm = 2.0});
  drilling::SleeveFit fit = drilling::make_sleeve_fit(sleeve, nullptr, tool, collared, 18.0);
  fit.sleeve = {};
  fit.sleeve.tip_mm = {0.0, 0.0, 0.0};
  const auto lower_ring_at = [&](double tip_z_mm) {
    drilling::DrillPose pose;
    pose.tip_mm = {0.01, 0.0, tip_z_mm};
    const auto limit =
        drilling::ring_limit(fit, fit.rings[0], tool, pose, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0});
    return limit ? limit->at_mm.z : -1.0;
  };
  // Stop 18.6 above the tip, collar from 9.6: at the stop (tip at 4.5 - 18.6) it starts at -4.5.
  EXPECT_DOUBLE_EQ(lower_ring_at(4.5 - 18.6 - 1e-9), 0.0);
  EXPECT_NEAR(lower_ring_at(3.0 - 9.6), 3.0, 0.01);  // 1.5 mm are inside
}

TEST(Sleeve, ADrillThickerThanTheBoreDoesNotPass) {
  const specimen::Sleeve sleeve{"sleeve", 3.0, 4.5, 7.0};
  specimen::Drill thick;
  thick.diameter_mm = 4.0;
  drilling::SleeveFit fit = drilling::make_sleeve_fit(
      sleeve, nullptr, testing::tool_of({.diameter_mm = 4.0}), thick, 0.0);
  EXPECT_FALSE(fit.passes);
}

}  // namespace
}  // namespace driftbench
