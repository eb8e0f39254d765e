// Clearances, critical events and the next larger error, on made-up traces in jaws whose answers
// follow from geometry.
#include "scoring/jaw_measures.h"

#include "base/random.h"
#include "scoring/judge.h"
#include "scoring/process.h"
#include "specimen/tooth_number.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace driftbench::scoring {
namespace {

using specimen::Structure;

/// A molar site above a canal that is a straight level cylinder under the axis.
specimen::JawSite level_canal(int fdi = 36) {
  specimen::JawSite site;
  site.jaw = specimen::typical_jaw(specimen::JawRegion::kPosteriorMandible);
  site.jaw.site_fdi = fdi;
  site.jaw.teeth.clear();
  site.jaw.canal->rise_deg = 0.0;
  site.jaw.canal->drift_deg = 0.0;
  site.jaw.canal->sag_mm = 0.0;
  site.jaw.canal->lateral_mm = 0.5;
  site.jaw.canal->depth_mm = 14.0;
  site.plan.entry_mm = {0.0, 0.5, 0.0};
  site.margins = {{Structure::kCanal, 2.0}};
  return site;
}

/// One rig: a site, its shapes, two twist drills, and the trace that a test fills.
class Rig {
 public:
  explicit Rig(const specimen::JawSite& site, double depth_mm = 10.0)
      : site_(site), jaw_(site.jaw, specimen::Jaw::Texture::kNone) {
    for (const double diameter : {2.0, 3.4}) {
      specimen::Drill drill;
      drill.diameter_mm = diameter;
      drills_.push_back(drill);
    }
    plan_.depth_mm = depth_mm;
  }

  /// The shoulder goes from 0.5 mm down to `depth_mm` in steps of 0.05 mm, one sample each.
  void drill(std::int32_t index, double depth_mm, const math::Vec3& shift_mm = math::Vec3(0.0),
             const math::Vec3& axis = {0.0, 0.0, 1.0}) {
    const math::Vec3 out = math::unit(axis);
    const double point_mm = tip_to_shoulder_mm(drills_[static_cast<std::size_t>(index)]);
    const int count = static_cast<int>(std::lround((depth_mm - 0.5) / 0.05));
    for (int i = 0; i <= count; ++i) {
      drilling::LoadSample sample;
      sample.step = step_ += 10;
      sample.drill_index = index;
      sample.in_contact = true;
      sample.pose.axis_out_unit = out;
      const double shoulder_mm = depth_mm - 0.05 * (count - i);
      sample.pose.tip_mm = shift_mm - (shoulder_mm + point_mm) * out;
      samples_.push_back(sample);
    }
  }

  [[nodiscard]] JawWork work() const {
    JawWork work;
    work.site = &site_;
    work.jaw = &jaw_;
    work.plan = plan_;
    work.drills = drills_;
    work.samples = samples_;
    work.last_drill = 1;
    return work;
  }

  [[nodiscard]] JawMeasures measured() const {
    const auto measures = measure_in_jaw(work());
    EXPECT_TRUE(measures.has_value());
    return measures.value_or(JawMeasures{});
  }

  [[nodiscard]] double point_mm(std::int32_t index) const {
    return tip_to_shoulder_mm(drills_[static_cast<std::size_t>(index)]);
  }

  [[nodiscard]] std::int64_t step() const { return step_; }

 private:
  specimen::JawSite site_;
  specimen::Jaw jaw_;
  std::vector<specimen::Drill> drills_;
  specimen::Plan plan_;
  std::vector<drilling::LoadSample> samples_;
  std::int64_t step_ = 0;
};

const ClearanceMeasure& to(const JawMeasures& measures, Structure structure) {
  for (const ClearanceMeasure& one : measures.clearances) {
    if (one.structure == structure) {
      return one;
    }
  }
  ADD_FAILURE() << "no clearance to the " << specimen::name_of(structure);
  static const ClearanceMeasure none;
  return none;
}

TEST(JawMeasures, NothingDrilledMeasuresNothing) {
  EXPECT_FALSE(measure_in_jaw(Rig(level_canal()).work()).has_value());
}

// A straight cylinder under the axis: the roof's depth less shoulder and point.
TEST(JawMeasures, TheDrillsPointCountsAboveALevelCanal) {
  for (const double depth_mm : {8.0, 10.0, 12.0}) {
    Rig rig(level_canal());
    rig.drill(0, depth_mm);
    rig.drill(1, depth_mm);
    const JawMeasures measures = rig.measured();
    const ClearanceMeasure& canal = to(measures, Structure::kCanal);
    EXPECT_NEAR(canal.achieved_mm, 14.0 - depth_mm - rig.point_mm(1), 0.02);
    EXPECT_NEAR(canal.planned_mm, 14.0 - 10.0 - rig.point_mm(1), 0.02);
    EXPECT_NEAR(canal.at_mm.z, -14.0, 0.02) << "the roof";
    EXPECT_EQ(canal.keep_mm, 2.0);
    EXPECT_EQ(canal.is_kept(), canal.achieved_mm >= 2.0);
    EXPECT_TRUE(measures.events.empty());
  }
}

// An upright implant beside the axis: axes less both radii. A drill cannot get into metal, so
// coming within half a voxel is touching it; it is told as the other implant and never as a root.
TEST(JawMeasures, TheOtherImplantIsMeasuredAndItsTouchIsCritical) {
  constexpr double kAway_mm = 6.0;
  for (const int fdi : {36, 46}) {
    specimen::JawSite site = level_canal(fdi);
    site.jaw.teeth = {
        {35, -kAway_mm, 0.5, 2.0, 0.0, 0.0, 1.0, specimen::ImplantRoot{4.0, 10.0, 2.0}},
        {37, 11.2, 0.2, 2.6, -3.0, 6.0, 1.0}};
    site.margins.push_back({Structure::kOtherImplant, 3.0});
    const double toward = fdi == 36 ? -1.0 : 1.0;  // mesial is -x in quadrant 3 and +x in 4
    for (const double gap_mm : {2.3, 0.15, 0.07}) {
      Rig rig(site);
      rig.drill(1, 8.0, {toward * (kAway_mm - 2.0 - 1.7 - gap_mm), 0.0, 0.0});
      const JawMeasures measures = rig.measured();
      const ClearanceMeasure& other = to(measures, Structure::kOtherImplant);
      EXPECT_NEAR(other.achieved_mm, gap_mm, 0.02);
      EXPECT_NEAR(other.planned_mm, kAway_mm - 2.0 - 1.7, 0.02);
      EXPECT_EQ(other.keep_mm, 3.0);
      EXPECT_FALSE(other.is_kept());
      EXPECT_EQ(measures.events.empty(), gap_mm > 0.1) << gap_mm;
      for (const JawEvent& event : measures.events) {
        EXPECT_EQ(event.structure, Structure::kOtherImplant);
      }
      for (const ClearanceMeasure& one : measures.clearances) {
        EXPECT_NE(one.structure, Structure::kRootMesial);
      }
      EXPECT_EQ(measures.next.has_value() && measures.next->structure == Structure::kOtherImplant,
                gap_mm == 0.15)
          << gap_mm;
    }
  }
}

// The law of the whole: who follows the plan has the plan's clearances, whatever jaw and lean.
TEST(JawMeasures, AnAttemptThatFollowsThePlanHasItsClearances) {
  base::Rng rng(11);
  for (const int fdi : {16, 26, 36, 46}) {
    specimen::JawSite site;
    site.jaw =
        specimen::typical_jaw(specimen::is_upper(fdi) ? specimen::JawRegion::kPosteriorMaxilla
                                                      : specimen::JawRegion::kPosteriorMandible);
    site.jaw.site_fdi = fdi;
    site.plan.entry_mm = {rng.uniform(-0.5, 0.5), rng.uniform(-0.5, 0.5), -0.3};
    site.plan.lean_bl_deg = rng.uniform(-6.0, 6.0);
    site.plan.lean_md_deg = rng.uniform(-6.0, 6.0);
    Rig rig(site, 5.0);
    rig.drill(0, 5.0);
    rig.drill(1, 5.0);
    const JawMeasures measures = rig.measured();
    EXPECT_GE(measures.clearances.size(), 3U);
    for (const ClearanceMeasure& one : measures.clearances) {
      EXPECT_NEAR(one.achieved_mm, one.planned_mm, 0.005)
          << fdi << " " << specimen::name_of(one.structure);
    }
    EXPECT_TRUE(measures.events.empty());
    EXPECT_FALSE(measures.next.has_value()) << "no error, however often, touches nothing";
  }
}

TEST(JawMeasures, LeftAndRightJawsGiveTheSameDistances) {
  Rig right(level_canal(46));
  Rig left(level_canal(36));
  right.drill(0, 9.0, {0.6, 0.4, 0.0}, {0.05, 0.1, 1.0});
  left.drill(0, 9.0, {-0.6, 0.4, 0.0}, {-0.05, 0.1, 1.0});
  // 36 lies in a right-handed quadrant, 46 is mirrored in x, or the other way round: the same jaw.
  const JawMeasures a = right.measured();
  const JawMeasures b = left.measured();
  ASSERT_EQ(a.clearances.size(), b.clearances.size());
  for (std::size_t i = 0; i < a.clearances.size(); ++i) {
    EXPECT_NEAR(a.clearances[i].achieved_mm, b.clearances[i].achieved_mm, 1e-9);
    EXPECT_NEAR(a.clearances[i].at_mm.x, -b.clearances[i].at_mm.x, 1e-6);
  }
}

TEST(JawMeasures, TouchingTheCanalIsAnEventWithItsStepAndPlace) {
  Rig rig(level_canal());
  rig.drill(0, 14.0);
  const JawMeasures measures = rig.measured();
  ASSERT_FALSE(measures.events.empty());
  const JawEvent& event = measures.events.front();
  EXPECT_EQ(event.structure, Structure::kCanal);
  EXPECT_FALSE(event.is_going_on);
  // Shoulder at 14 - point when the tip meets the roof; 0.05 mm a sample, places 0.25 mm apart.
  const double steps = 10.0 * (14.0 - rig.point_mm(0) - 0.5) / 0.05;
  EXPECT_GE(static_cast<double>(event.step), steps - 10.0);
  EXPECT_LE(static_cast<double>(event.step), steps + 10.0 * 0.3 / 0.05 + 10.0);
  EXPECT_NEAR(event.at_mm.z, -14.0, 1.4) << "at the canal";
  EXPECT_LT(to(measures, Structure::kCanal).achieved_mm, 0.0);
}

TEST(JawMeasures, GoingOnAfterAnEventIsASecondOne) {
  Rig stops(level_canal());
  stops.drill(0, 13.7);
  ASSERT_EQ(stops.measured().events.size(), 1U) << "stopped at once";
  Rig goes_on(level_canal());
  goes_on.drill(0, 13.7);
  const std::int64_t before = goes_on.step();
  goes_on.drill(1, 8.0);
  const JawMeasures measures = goes_on.measured();
  ASSERT_EQ(measures.events.size(), 2U);
  EXPECT_TRUE(measures.events[1].is_going_on);
  EXPECT_GT(measures.events[1].step, before);
}

TEST(JawMeasures, LeavingTheBoneOnTheLingualSideIsNamed) {
  Rig rig(level_canal());
  // Leaning so that the end goes lingually out of the body of the jaw.
  rig.drill(0, 13.0, {0.0, 1.5, 0.0}, {0.0, -0.55, 1.0});
  const JawMeasures measures = rig.measured();
  ASSERT_FALSE(measures.events.empty());
  EXPECT_EQ(measures.events.front().structure, Structure::kLingualPlate);
  EXPECT_LT(to(measures, Structure::kLingualPlate).achieved_mm, 0.0);
  EXPECT_GT(measures.events.front().at_mm.y, 2.0) << "on that side";
}

// A hole that is only too deep by e: the roof is reached at k times e with depth + k e + point.
TEST(JawMeasures, TheNextLargerErrorIsThatOfGeometry) {
  Rig rig(level_canal());
  rig.drill(0, 10.0);
  rig.drill(1, 11.5);
  const JawMeasures measures = rig.measured();
  ASSERT_TRUE(measures.next.has_value());
  EXPECT_EQ(measures.next->structure, Structure::kCanal);
  EXPECT_NEAR(measures.next->error_factor, (14.0 - 10.0 - rig.point_mm(1)) / 1.5, 0.02);
}

TEST(JawMeasures, SidewaysPushingCounts) {
  Rig straight(level_canal());
  straight.drill(0, 9.0, {0.0, -1.5, 0.0});
  Rig pushed(level_canal());
  pushed.drill(0, 9.0, {0.0, -1.5, 0.0});
  pushed.drill(0, 8.5, {0.0, -2.5, 0.0});
  const double before = to(straight.measured(), Structure::kFacialPlate).achieved_mm;
  const double after = to(pushed.measured(), Structure::kFacialPlate).achieved_mm;
  EXPECT_NEAR(before - after, 1.0, 0.3) << "a millimetre nearer to a nearly upright plate";
}

TEST(JawMeasures, ACriticalEventPutsTheBestHoleOutside) {
  Rig rig(level_canal());
  rig.drill(0, 14.0);
  Judgement judgement;
  judgement.inside_tolerance = true;
  judge_events(rig.measured(), judgement);
  EXPECT_FALSE(judgement.inside_tolerance);
  ASSERT_FALSE(judgement.reasons.empty());
  EXPECT_EQ(judgement.reasons.front().measure, "touched:canal");
  EXPECT_LT(judgement.reasons.front().found, 0.0);
  Judgement untouched;
  untouched.inside_tolerance = true;
  judge_events(JawMeasures{}, untouched);
  EXPECT_TRUE(untouched.inside_tolerance);
}

}  // namespace
}  // namespace driftbench::scoring
