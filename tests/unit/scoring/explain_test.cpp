// What the explanation finds in traces that hold exactly one thing to find.
#include "scoring/explain.h"

#include "synthetic_trace.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace driftbench::scoring {
namespace {

using math::Vec3;

constexpr double kPlannedDepth_mm = 10.0;

geometry::AnatomicalFrame site_frame() {
  return {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, -1.0}};
}

std::vector<Moment> moments_of(const std::vector<drilling::LoadSample>& samples) {
  return find_moments(samples, site_frame(), {0.0, 0.0, 0.0}, kPlannedDepth_mm, two_drills());
}

std::optional<Moment> only(const std::vector<Moment>& moments, MomentKind kind) {
  const auto is_kind = [kind](const Moment& moment) { return moment.kind == kind; };
  EXPECT_LE(std::count_if(moments.begin(), moments.end(), is_kind), 1);
  const auto found = std::find_if(moments.begin(), moments.end(), is_kind);
  return found == moments.end() ? std::nullopt : std::optional<Moment>(*found);
}

TEST(FindMoments, AnEmptyTraceHasNone) {
  EXPECT_TRUE(moments_of({}).empty());
}

TEST(FindMoments, AStraightQuietDrillOnlyTouches) {
  TraceBuilder trace;
  trace.next.in_contact = false;
  trace.next.strength_mpa = 0.0;
  trace.run(0.5, 2.0);
  trace.next.in_contact = true;
  trace.next.strength_mpa = 8.4;
  trace.run(3.0, 2.0);
  const std::vector<Moment> moments = moments_of(trace.samples());
  ASSERT_EQ(moments.size(), 1U);
  EXPECT_EQ(moments[0].kind, MomentKind::kFirstContact);
  EXPECT_EQ(moments[0].step, 500);
  EXPECT_NEAR(moments[0].depth_mm, 1.02, 1e-9);
}

TEST(FindMoments, SideForceHasForceDirectionAndWhatFollowed) {
  TraceBuilder trace;
  trace.run(0.34, 1.0);
  trace.next.side_force_n = {3.0, 4.0, 0.0};
  trace.run(0.2, 1.0, {3.0, 4.0, 0.0});
  trace.next.side_force_n = {0.0, 0.0, 0.0};
  trace.run(0.5, 1.0);
  const std::vector<Moment> moments = moments_of(trace.samples());
  const std::optional<Moment> push = only(moments, MomentKind::kSideForce);
  ASSERT_TRUE(push.has_value());
  EXPECT_EQ(push->step, 340);
  EXPECT_NEAR(push->force_n, 5.0, 1e-12);
  EXPECT_NEAR(push->direction_md, 0.6, 1e-12);
  EXPECT_NEAR(push->direction_bl, 0.8, 1e-12);
  EXPECT_NEAR(push->amount_mm, 0.95, 1e-9);  // 5 mm/s for 19 samples of 10 ms after the first
  EXPECT_TRUE(only(moments, MomentKind::kLeftLine).has_value());
  EXPECT_FALSE(only(moments, MomentKind::kGuideCarries).has_value());
}

TEST(FindMoments, SideForceMustLastAndOutweighTheThrust) {
  TraceBuilder brief;
  brief.run(0.2, 1.0);
  brief.next.side_force_n = {6.0, 0.0, 0.0};
  brief.run(0.03, 1.0);  // three samples span 20 ms
  brief.next.side_force_n = {0.0, 0.0, 0.0};
  brief.run(0.2, 1.0);
  EXPECT_FALSE(only(moments_of(brief.samples()), MomentKind::kSideForce).has_value());
  TraceBuilder small;
  small.next.side_force_n = {0.9, 0.0, 0.0};
  small.next.thrust_n = 2.0;
  small.run(0.3, 1.0);
  EXPECT_FALSE(only(moments_of(small.samples()), MomentKind::kSideForce).has_value());
  TraceBuilder outweighed;
  outweighed.next.side_force_n = {3.0, 0.0, 0.0};
  outweighed.next.thrust_n = 12.1;
  outweighed.run(0.3, 1.0);
  EXPECT_FALSE(only(moments_of(outweighed.samples()), MomentKind::kSideForce).has_value());
}

TEST(FindMoments, RubbingOnTheWayOutIsNoSideForce) {
  TraceBuilder trace;
  trace.run(1.0, 2.0);
  trace.next.thrust_n = 0.0;
  trace.next.side_force_n = {-2.0, 0.0, 0.0};
  trace.next.guide_force_n = {2.0, 0.0, 0.0};
  trace.run(0.2, -8.0, {-3.0, 0.0, 0.0});
  EXPECT_EQ(moments_of(trace.samples()).size(), 1U);
}

TEST(FindMoments, HarderAndSofterNeedFortyPercentWithinAMillimetre) {
  const auto change = [](double before_mpa, double after_mpa, double ramp_mm) {
    TraceBuilder trace;
    trace.next.strength_mpa = before_mpa;
    trace.run(2.0, 1.0);
    const int stages = 20;
    for (int i = 1; i <= stages; ++i) {
      trace.next.strength_mpa = before_mpa + (after_mpa - before_mpa) * i / stages;
      trace.run(ramp_mm / stages, 1.0);
    }
    trace.run(2.0, 1.0);
    return moments_of(trace.samples());
  };
  const std::optional<Moment> harder = only(change(8.4, 31.0, 0.2), MomentKind::kHarder);
  ASSERT_TRUE(harder.has_value());
  EXPECT_NEAR(harder->depth_mm, 2.1, 0.15);
  EXPECT_FALSE(only(change(8.4, 31.0, 0.2), MomentKind::kSofter).has_value());
  const std::optional<Moment> softer = only(change(31.0, 8.4, 0.2), MomentKind::kSofter);
  ASSERT_TRUE(softer.has_value());
  EXPECT_NEAR(softer->depth_mm, 2.1, 0.15);
  EXPECT_FALSE(only(change(8.4, 11.0, 0.2), MomentKind::kHarder).has_value());  // 31 %
  EXPECT_FALSE(only(change(8.4, 5.5, 0.2), MomentKind::kSofter).has_value());   // 35 %
  EXPECT_FALSE(only(change(8.4, 12.6, 4.0), MomentKind::kHarder).has_value());  // slowly
}

TEST(FindMoments, PeckingInOneMaterialIsNoChange) {
  TraceBuilder trace;
  for (int peck = 0; peck < 5; ++peck) {
    trace.next.in_contact = true;
    trace.next.strength_mpa = 8.4;
    trace.run(0.5, 2.0);
    trace.next.in_contact = false;
    trace.next.strength_mpa = 0.0;
    trace.run(0.2, -5.0);
    trace.run(0.2, 5.0);
  }
  const std::vector<Moment> moments = moments_of(trace.samples());
  EXPECT_EQ(moments.size(), 1U);
}

TEST(FindMoments, LeavingTheLineIsMeasuredFromTheFirstContactPoint) {
  TraceBuilder trace;
  trace.run(0.1, 0.5);
  trace.run(1.0, 0.5, {0.0, -0.8, 0.0});
  const std::optional<Moment> left = only(moments_of(trace.samples()), MomentKind::kLeftLine);
  ASSERT_TRUE(left.has_value());
  EXPECT_NEAR(static_cast<double>(left->step), 90.0 + 0.3 / 0.8 * 1000.0, 15.0);
  EXPECT_NEAR(left->amount_mm, 0.8, 1e-9);
  EXPECT_NEAR(left->direction_md, 0.0, 1e-12);
  EXPECT_NEAR(left->direction_bl, -1.0, 1e-12);
}

TEST(FindMoments, LeavingTheLineOnTheWayOutDoesNotCount) {
  TraceBuilder trace;
  trace.run(1.0, 2.0);
  trace.run(0.2, -5.0, {4.0, 0.0, 0.0});
  EXPECT_FALSE(only(moments_of(trace.samples()), MomentKind::kLeftLine).has_value());
}

TEST(FindMoments, BrushingTheWallTellsNothingAboutStrength) {
  TraceBuilder trace;
  trace.next.thrust_n = 0.4;
  trace.next.strength_mpa = 31.0;
  trace.run(0.05, 10.0);
  trace.next.thrust_n = 8.0;
  trace.next.strength_mpa = 8.4;
  trace.run(1.0, 2.0);
  trace.next.strength_mpa = 20.0;  // one sample is no change
  trace.run(0.01, 2.0);
  trace.next.strength_mpa = 8.4;
  trace.run(1.0, 2.0);
  const std::vector<Moment> moments = moments_of(trace.samples());
  EXPECT_FALSE(only(moments, MomentKind::kHarder).has_value());
  EXPECT_FALSE(only(moments, MomentKind::kSofter).has_value());
}

TEST(FindMoments, ALeaningDrillThatFollowsItsAxisStaysOnItsLine) {
  TraceBuilder trace;
  trace.next.pose.axis_out_unit = math::unit(Vec3(-std::tan(0.1), 0.0, 1.0));
  trace.run(5.0, 2.0);  // the tip moves 1 mm sideways on its way down
  EXPECT_FALSE(only(moments_of(trace.samples()), MomentKind::kLeftLine).has_value());
}

TEST(FindMoments, AGuideThatCarriesIsNamedWithItsForce) {
  TraceBuilder trace;
  trace.run(0.3, 1.0);
  trace.next.side_force_n = {5.0, 0.0, 0.0};
  trace.next.guide_force_n = {-4.0, 0.0, 0.0};
  trace.run(0.3, 1.0, {0.2, 0.0, 0.0});
  const std::optional<Moment> held = only(moments_of(trace.samples()), MomentKind::kGuideCarries);
  ASSERT_TRUE(held.has_value());
  EXPECT_EQ(held->step, 300);
  EXPECT_NEAR(held->force_n, 5.0, 1e-12);
  EXPECT_NEAR(held->direction_md, 1.0, 1e-12);
  EXPECT_LT(held->amount_mm, 0.15);
}

TEST(FindMoments, AGuideThatPushesAlongOrLetsGoDoesNotCarry) {
  TraceBuilder along;
  along.next.side_force_n = {5.0, 0.0, 0.0};
  along.next.guide_force_n = {4.0, 0.0, 0.0};
  along.run(0.3, 1.0);
  EXPECT_FALSE(only(moments_of(along.samples()), MomentKind::kGuideCarries).has_value());
  TraceBuilder moving;
  moving.next.side_force_n = {5.0, 0.0, 0.0};
  moving.next.guide_force_n = {-4.0, 0.0, 0.0};
  moving.run(0.3, 1.0, {2.0, 0.0, 0.0});
  EXPECT_FALSE(only(moments_of(moving.samples()), MomentKind::kGuideCarries).has_value());
}

TEST(FindMoments, APlungeIsAJumpOfTheAdvance) {
  TraceBuilder trace;
  trace.run(1.0, 2.0);
  trace.run(0.05, 14.0);
  trace.run(0.5, 2.0);
  const std::optional<Moment> plunge = only(moments_of(trace.samples()), MomentKind::kPlunge);
  ASSERT_TRUE(plunge.has_value());
  EXPECT_EQ(plunge->step, 1000);
  EXPECT_NEAR(plunge->speed_mm_per_s, 14.0, 1e-12);
  EXPECT_NEAR(plunge->amount_mm, 0.7, 1e-9);
}

TEST(FindMoments, FastAdvanceInTheAirOrFromASlowStartIsNoPlunge) {
  TraceBuilder air;
  air.next.in_contact = false;
  air.run(0.5, 1.0);
  air.run(0.3, 20.0);
  air.next.in_contact = true;
  air.run(0.3, 2.0);
  EXPECT_FALSE(only(moments_of(air.samples()), MomentKind::kPlunge).has_value());
  TraceBuilder slow;
  slow.run(0.5, 1.0);
  slow.run(0.5, 3.9);  // three times the mean but slow
  EXPECT_FALSE(only(moments_of(slow.samples()), MomentKind::kPlunge).has_value());
  TraceBuilder steady;
  steady.run(0.5, 5.0);
  steady.run(0.5, 12.0);  // fast but not three times
  EXPECT_FALSE(only(moments_of(steady.samples()), MomentKind::kPlunge).has_value());
}

// A drill that was let go of and is pressed again moves because of the press, not of the ground.
TEST(FindMoments, APressThatBeginsAgainIsNoPlunge) {
  TraceBuilder trace;
  trace.next.press_n = 15.0;
  trace.run(0.5, 2.0);
  trace.next.press_n = 0.0;
  trace.run(0.5, 0.0);
  trace.next.press_n = 15.0;
  trace.run(0.3, 9.0);
  EXPECT_FALSE(only(moments_of(trace.samples()), MomentKind::kPlunge).has_value());
  // The same advance when the press did not change.
  TraceBuilder held;
  held.next.press_n = 15.0;
  held.run(0.5, 2.0);
  held.run(0.3, 9.0);
  EXPECT_TRUE(only(moments_of(held.samples()), MomentKind::kPlunge).has_value());
}

TEST(FindMoments, DepthCountsAtTheShoulder) {
  // The tip of a 2.0 mm drill is 0.601 mm ahead of its shoulder.
  TraceBuilder short_of_it;
  short_of_it.run(5.3, 2.0);  // tip 10.6
  EXPECT_FALSE(only(moments_of(short_of_it.samples()), MomentKind::kPastDepth).has_value());
  TraceBuilder past;
  past.run(5.6, 2.0);  // tip 11.2, shoulder 10.599
  const std::optional<Moment> moment = only(moments_of(past.samples()), MomentKind::kPastDepth);
  ASSERT_TRUE(moment.has_value());
  EXPECT_NEAR(moment->amount_mm, 11.2 - 0.6009 - 10.0, 1e-3);
}

TEST(FindMoments, EachDrillHasItsOwnMomentsInOrderOfTime) {
  TraceBuilder trace;
  for (const int drill : {0, 1, 0}) {
    trace.next.drill_index = drill;
    trace.next.pose.tip_mm = {0.0, 0.0, 0.0};
    trace.next.side_force_n = {0.0, 0.0, 0.0};
    trace.run(0.2, 1.0);
    trace.next.side_force_n = {6.0, 0.0, 0.0};
    trace.run(0.2, 1.0);
  }
  const std::vector<Moment> moments = moments_of(trace.samples());
  ASSERT_EQ(moments.size(), 4U);  // the pilot's second visit adds none
  EXPECT_TRUE(std::is_sorted(moments.begin(), moments.end(),
                             [](const Moment& a, const Moment& b) { return a.step < b.step; }));
  EXPECT_EQ(moments[2].drill_index, 1);
}

TEST(FindMoments, MirroredTraceGivesMirroredMoments) {
  TraceBuilder trace;
  trace.run(0.3, 1.0);
  trace.next.side_force_n = {4.0, 2.0, 0.0};
  trace.run(0.4, 1.0, {1.5, 0.4, 0.0});
  trace.next.guide_force_n = {-4.0, -2.0, 0.0};
  trace.next.strength_mpa = 31.0;
  trace.run(0.4, 0.5);
  trace.next.side_force_n = {0.0, 0.0, 0.0};
  trace.run(0.2, 9.0);
  trace.run(1.0, 9.0);
  const std::vector<Moment> moments = moments_of(trace.samples());
  const std::vector<Moment> mirror = moments_of(mirrored(trace.samples()));
  ASSERT_EQ(moments.size(), mirror.size());
  EXPECT_GE(moments.size(), 6U);
  for (std::size_t i = 0; i < moments.size(); ++i) {
    EXPECT_EQ(moments[i].kind, mirror[i].kind);
    EXPECT_EQ(moments[i].step, mirror[i].step);
    EXPECT_EQ(moments[i].force_n, mirror[i].force_n);
    EXPECT_EQ(moments[i].amount_mm, mirror[i].amount_mm);
    EXPECT_EQ(moments[i].direction_md, -mirror[i].direction_md);
    EXPECT_EQ(moments[i].direction_bl, mirror[i].direction_bl);
  }
}

}  // namespace
}  // namespace driftbench::scoring
