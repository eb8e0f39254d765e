// Plans of a piece of jaw: limits, moves, undo and redo, and what a plan means.
#include "support/read_file.h"

#include "base/random.h"
#include "lesson/case_plan_edit.h"
#include "lesson/case_plan_review.h"
#include "lesson/guide_room.h"
#include "lesson/plan_lesson.h"
#include "specimen/jaw_volume.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::lesson {
namespace {

CasePlan upright() {
  CasePlan plan;
  plan.diameter_mm = 4.0;
  plan.length_mm = 10.0;
  return plan;
}

SpecimenCase shipped(const std::string& id) {
  const auto read =
      read_specimen(support::read_file("assets/specimens/" + id + ".specimen.json"), id);
  EXPECT_TRUE(read.value.has_value()) << read.first_error();
  return read.value.value_or(SpecimenCase{});
}

specimen::Kit kit_of_four() {
  specimen::Kit kit;
  for (const double diameter : {3.4, 2.0, 4.0, 2.7}) {
    specimen::Drill drill;
    drill.diameter_mm = diameter;
    drill.tip_length_mm = specimen::point_height_mm(diameter, 118.0);
    kit.drills.push_back(drill);
  }
  kit.drills.front().kind = specimen::DrillKind::kTwist;
  return kit;
}

CasePlan any_plan(base::Rng& rng) {
  const auto draw = [&rng](double reach) {
    return reach * (static_cast<double>(rng.below(4001)) - 2000.0) / 1000.0;
  };
  CasePlan plan;
  plan.entry_mm.x = draw(20.0);
  plan.entry_mm.y = draw(20.0);
  plan.entry_mm.z = draw(20.0);
  plan.lean_md_deg = draw(50.0);
  plan.lean_bl_deg = draw(50.0);
  plan.diameter_mm = 4.0 + draw(3.0);
  plan.length_mm = 10.0 + draw(8.0);
  return plan;
}

TEST(CasePlanEdit, LimitsHoldAndALimitedPlanStaysAsItIs) {
  base::Rng rng(17);
  for (int i = 0; i < 500; ++i) {
    const CasePlan plan = clamped(any_plan(rng));
    EXPECT_EQ(clamped(plan), plan);
    EXPECT_LE(std::abs(plan.entry_mm.x), kPlanReach_mm);
    EXPECT_LE(std::abs(plan.lean_bl_deg), kPlanMostLean_deg);
    EXPECT_GE(plan.diameter_mm, kPlanDiameterLow_mm);
    EXPECT_LE(plan.diameter_mm, kPlanDiameterHigh_mm);
    EXPECT_GE(plan.length_mm, kPlanLengthLow_mm);
    EXPECT_LE(plan.length_mm, kPlanLengthHigh_mm);
  }
}

TEST(CasePlanEdit, AnImplantAimedAtAPointHasItsAxisThrough) {
  base::Rng rng(3);
  for (int i = 0; i < 200; ++i) {
    const double x = static_cast<double>(rng.below(9)) - 4.0;
    const double y = static_cast<double>(rng.below(9)) - 4.0;
    const math::Vec3 point(x, y, -9.0);
    const CasePlan plan = aimed_at(upright(), point);
    const math::Vec3 down = -axis_out_of(plan);
    // Own arithmetic of the point's distance from the axis; rounding only.
    EXPECT_LT(math::length(math::cross(point - plan.entry_mm, down)), 1e-9);
    EXPECT_NEAR(math::length(apex_of(plan) - plan.entry_mm), 10.0, 1e-9);
  }
  EXPECT_EQ(aimed_at(upright(), {1.0, 0.0, 3.0}), upright()) << "a point above the platform";
}

TEST(PlanHistory, UndoGivesThePlanBeforeAndRedoTheChangedOne) {
  base::Rng rng(5);
  PlanHistory history(upright());
  std::vector<CasePlan> seen{history.now()};
  for (int i = 0; i < 60; ++i) {
    history.change(any_plan(rng));
    if (!(history.now() == seen.back())) {
      seen.push_back(history.now());
    }
  }
  for (std::size_t i = seen.size(); i-- > 0;) {
    EXPECT_EQ(history.now(), seen[i]);
    EXPECT_EQ(history.can_undo(), i > 0);
    history.undo();
  }
  for (const CasePlan& plan : seen) {
    EXPECT_EQ(history.now(), plan);
    history.redo();
  }
  EXPECT_FALSE(history.can_redo());
}

TEST(PlanHistory, OneDragIsOneStepAndAChangeForgetsWhatWasUndone) {
  PlanHistory history(upright());
  for (int i = 1; i <= 20; ++i) {
    history.change(moved(upright(), {0.1 * i, 0.0, 0.0}), 7);
  }
  EXPECT_NEAR(history.now().entry_mm.x, 2.0, 1e-12);
  history.undo();
  EXPECT_EQ(history.now(), upright());
  EXPECT_FALSE(history.can_undo());
  history.redo();
  EXPECT_NEAR(history.now().entry_mm.x, 2.0, 1e-12);
  history.change(moved(history.now(), {0.0, 1.0, 0.0}), 8);
  history.undo();
  history.change(moved(history.now(), {0.0, 0.0, -1.0}), 9);
  EXPECT_FALSE(history.can_redo());
  EXPECT_NEAR(history.now().entry_mm.y, 0.0, 1e-12);
}

TEST(PlanHistory, ADragAfterUndoKeepsTheStepBeforeIt) {
  PlanHistory history(upright());
  history.change(moved(upright(), {1.0, 0.0, 0.0}), 4);
  history.change(moved(upright(), {2.0, 0.0, 0.0}), 5);
  history.undo();
  history.change(moved(upright(), {3.0, 0.0, 0.0}), 5);
  history.undo();
  EXPECT_NEAR(history.now().entry_mm.x, 1.0, 1e-12);
}

TEST(PlanHistory, PlanAndGuideAreUndoneInTheOrderOfTheirChanges) {
  PlanHistory history(upright());
  GuidePlan guided;
  guided.approach = specimen::Approach::kSleeve;
  history.change(guided);
  history.change(moved(upright(), {1.0, 0.0, 0.0}));
  history.undo();
  EXPECT_EQ(history.now(), upright());
  EXPECT_EQ(history.guide(), guided);
  history.undo();
  EXPECT_EQ(history.guide(), GuidePlan{});
  history.redo();
  history.redo();
  EXPECT_EQ(history.guide(), guided);
  EXPECT_FALSE(history.can_redo());
}

TEST(GuidePlan, KeepsOnlyWhatItsSupportAndApproachHave) {
  GuidePlan plan;
  plan.approach = specimen::Approach::kPilot;
  plan.implant_through_guide = true;
  plan.support = {specimen::SupportKind::kTeeth, 3, true};
  plan.gap_mm = 9.04;
  plan.mouth_opening_mm = 3.0;
  const GuidePlan inside = clamped(plan);
  EXPECT_FALSE(inside.implant_through_guide);
  EXPECT_EQ(inside.support, (specimen::GuideSupport{specimen::SupportKind::kTeeth, 0, false}));
  EXPECT_EQ(inside.gap_mm, kGuideGapHigh_mm);
  EXPECT_EQ(inside.mouth_opening_mm, kMouthLow_mm);
  EXPECT_EQ(clamped(inside), inside);
  plan.support.on = specimen::SupportKind::kMucosa;
  EXPECT_EQ(clamped(plan).support.pins, 3);
  EXPECT_TRUE(clamped(plan).support.bite_index);
}

TEST(PlanHistory, NoChangeIsNoStep) {
  PlanHistory history(upright());
  history.change(upright());
  CasePlan hardly = upright();
  hardly.entry_mm.x = 0.01;  // below the step of 0.05 mm
  history.change(hardly);
  EXPECT_FALSE(history.can_undo());
}

TEST(CasePlanReview, DrillsAreNarrowerThanTheImplantAndSoftBoneStopsOneEarlier) {
  const specimen::Kit kit = kit_of_four();
  CasePlan plan = upright();
  plan.diameter_mm = 4.5;
  const auto all = suggested_steps(kit, plan, specimen::DensityClass::kD2);
  ASSERT_EQ(all.size(), 4U);
  EXPECT_EQ(all.front().drill->diameter_mm, 2.0);
  EXPECT_EQ(all.back().drill->diameter_mm, 4.0);
  EXPECT_EQ(suggested_steps(kit, plan, specimen::DensityClass::kD4).size(), 3U);
  plan.diameter_mm = 3.4;
  EXPECT_EQ(suggested_steps(kit, plan, specimen::DensityClass::kD1).back().drill->diameter_mm, 2.7);
}

TEST(CasePlanReview, TheDeepestDrillCountsWithItsPoint) {
  const SpecimenCase shown = shipped("lower-36-healed");
  const specimen::Jaw jaw(shown.jaw, specimen::Jaw::Texture::kNone);
  const specimen::Kit kit = kit_of_four();
  CasePlan plan = shown.plan;
  const auto steps = suggested_steps(kit, plan, specimen::DensityClass::kD3);
  const PlanReview review = review_plan(jaw, plan, shown.margins, deepest_drill(plan, steps));
  EXPECT_FALSE(review.problem.has_value());
  bool found = false;
  for (const PlanClearance& row : review.clearances) {
    if (row.structure == specimen::Structure::kCanal) {
      found = true;
      // The canal runs below the end: the drill's cone of 1.0 mm is nearer by 0.5 to 1.1 mm.
      EXPECT_GT(row.implant_mm - row.drill_mm, 0.3);
      EXPECT_LT(row.implant_mm - row.drill_mm, steps.back().drill->tip_length_mm + 0.05);
      EXPECT_EQ(row.worse.body, 1U);
      EXPECT_EQ(row.least_mm(), row.drill_mm);
    }
  }
  EXPECT_TRUE(found);
}

TEST(CasePlanReview, AnImplantMovedDownComesNearerToTheCanalByAsMuch) {
  const SpecimenCase shown = shipped("lower-36-healed");
  const specimen::Jaw jaw(shown.jaw, specimen::Jaw::Texture::kNone);
  const auto canal = [&](const CasePlan& plan) {
    for (const PlanClearance& row :
         review_plan(jaw, plan, shown.margins, implant_body(plan)).clearances) {
      if (row.structure == specimen::Structure::kCanal) {
        return row.implant_mm;
      }
    }
    return -99.0;
  };
  const double before = canal(shown.plan);
  const double after = canal(moved(shown.plan, {0.0, 0.0, -1.0}));
  // The canal runs within 10 degrees of level: a millimetre down is 0.9 to 1.0 mm nearer.
  EXPECT_NEAR(before - after, 0.97, 0.08);
}

TEST(CasePlanReview, DensityAlongTheImplantIsThatOfTheVolume) {
  SpecimenCase shown = shipped("lower-36-healed");
  shown.jaw.voxel_mm = 0.3;
  const specimen::Jaw jaw(shown.jaw);
  const specimen::JawPose pose = specimen::pose_of(shown.jaw.site_fdi);
  const volume::Volume volume = specimen::build_jaw(jaw, pose, {});
  specimen::RevolvedBody body = implant_body(shown.plan);
  body.top_mm = pose.to_core(body.top_mm);
  body.down_unit = pose.direction_to_core(body.down_unit);
  const DensityAlong along = density_along(volume, body);
  ASSERT_EQ(along.mg_per_cm3.size(), 20U);
  // Crest cortex 1.5 mm thick of about 1,750, spongy bone of D3 below: the first half millimetres
  // are the densest.
  EXPECT_GT(along.mg_per_cm3[1], 1200.0);
  EXPECT_LT(along.mg_per_cm3[10], 900.0);
  EXPECT_GT(along.mean, 350.0);
}

TEST(PlanLesson, ReadsBackAndDrillsThePlanInItsOwnPieceOfJaw) {
  const auto kit = read_kit(support::read_file("assets/kits/bench.kit.json"), "bench");
  ASSERT_TRUE(kit.value.has_value());
  const SpecimenCase shown = shipped("lower-36-healed");
  CasePlan plan = shown.plan;
  plan.entry_mm.x = 0.5;
  plan.length_mm = 9.0;
  const auto steps = suggested_steps(*kit.value, plan, specimen::DensityClass::kD3);
  const SpecimenCase planned = planned_case(shown, plan);
  EXPECT_EQ(planned.id, "lower-36-healed-plan");
  EXPECT_EQ(planned_case(planned, plan).id, planned.id) << "the ending is added once";

  const auto made = lesson_of(planned, steps, *kit.value, {});
  ASSERT_TRUE(made.has_value()) << made.error().message;
  const auto lesson = read_lesson(write_lesson(*made), "made");
  ASSERT_TRUE(lesson.value.has_value()) << lesson.first_error();
  EXPECT_TRUE(lesson.problems.empty());
  const auto jaw = read_specimen(write_specimen(planned), "planned");
  ASSERT_TRUE(jaw.value.has_value()) << jaw.first_error();

  const auto setup = resolve(*lesson.value, *kit.value, 0, 0, std::nullopt, &*jaw.value);
  ASSERT_TRUE(setup.has_value()) << setup.error().message;
  EXPECT_EQ(setup->plan.depth_mm, 9.0);
  ASSERT_EQ(setup->plan.drill_ids.size(), steps.size());
  EXPECT_EQ(setup->plan.drill_ids.back(), steps.back().drill->id);
  EXPECT_EQ(specimen::jaw_in(setup->specimen)->plan.entry_mm.x, 0.5);
}

TEST(PlanLesson, APlannedGuideIsABlockOfItsOwnAndReadsBack) {
  const auto kit = read_kit(support::read_file("assets/kits/bench.kit.json"), "bench");
  ASSERT_TRUE(kit.value.has_value());
  const SpecimenCase shown = shipped("lower-36-healed");
  const auto steps = suggested_steps(*kit.value, shown.plan, specimen::DensityClass::kD3);
  const SpecimenCase planned = planned_case(shown, shown.plan);
  GuidePlan guide;
  EXPECT_FALSE(guided_setup(planned, steps, *kit.value, guide).has_value()) << "free-hand";
  guide.approach = specimen::Approach::kSleeve;
  guide.support = {specimen::SupportKind::kMucosa, 3, true};
  guide.gap_mm = 4.0;
  guide.mouth_opening_mm = 38.0;
  EXPECT_NE(guided_setup(planned, steps, *kit.value, guide).error().message.find("raises a flap"),
            std::string::npos);
  guide.support = {specimen::SupportKind::kBone, 3, false};

  const auto made = lesson_of(planned, steps, *kit.value, guide);
  ASSERT_TRUE(made.has_value()) << made.error().message;
  const auto lesson = read_lesson(write_lesson(*made), "made");
  ASSERT_TRUE(lesson.value.has_value()) << lesson.first_error();
  EXPECT_TRUE(lesson.problems.empty());
  ASSERT_EQ(lesson.value->blocks.size(), 2U);
  EXPECT_EQ(lesson.value->blocks[0].approach, specimen::Approach::kFreehand);
  EXPECT_FALSE(lesson.value->blocks[0].guide.has_value());
  EXPECT_EQ(lesson.value->blocks[1].guide, guide_of(guide, *kit.value));

  const auto setup = guided_setup(planned, steps, *kit.value, guide);
  ASSERT_TRUE(setup.has_value()) << setup.error().message;
  EXPECT_EQ(setup->approach, specimen::Approach::kSleeve);
  EXPECT_TRUE(setup->guide_seat.has_value());
  const auto room = guide_room(*setup);
  ASSERT_TRUE(room.has_value());
  // implant + gap + sleeve + collar of the key: the arithmetic of every guided length.
  EXPECT_NEAR(room->lengths.front().gap_mm, 4.0, 1e-12);
  EXPECT_EQ(room->mouth->opens_mm, 38.0);

  specimen::Kit bare = *kit.value;
  bare.sleeves.clear();
  EXPECT_NE(lesson_of(planned, steps, bare, guide).error().message.find("no sleeve"),
            std::string::npos);
}

TEST(PlanLesson, AKitWithoutImplantOrDrillIsRefusedInWords) {
  const SpecimenCase shown = shipped("lower-36-healed");
  specimen::Kit kit = kit_of_four();
  const auto steps = suggested_steps(kit, shown.plan, specimen::DensityClass::kD3);
  EXPECT_NE(lesson_of(shown, steps, kit, {}).error().message.find("no implant"), std::string::npos);
  kit.implants.push_back({"one", 4.0, 10.0, std::nullopt});
  EXPECT_NE(lesson_of(shown, {}, kit, {}).error().message.find("no drill"), std::string::npos);
}

}  // namespace
}  // namespace driftbench::lesson
