// The shipped pieces of jaw: they read, write back, can be built, and their plans keep the margins.
#include "lesson/specimen_case.h"

#include "support/edit_text.h"
#include "support/read_file.h"

#include "specimen/jaw_volume.h"
#include "specimen/kit.h"
#include "specimen/tooth_number.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <set>

namespace driftbench::lesson {
namespace {

constexpr std::array<const char*, 13> kShipped{
    "lower-36-beside-implant", "lower-36-healed",  "lower-36-undercut",     "lower-42-narrow",
    "lower-43-knife-edge",     "lower-45-foramen", "lower-46-low-crest",    "lower-46-sloped",
    "upper-11-thin-plate",     "upper-16-sinus",   "upper-21-fresh-socket", "upper-24-healed",
    "upper-26-low-sinus"};

std::string text_of(const std::string& id) {
  return support::read_file("assets/specimens/" + id + ".specimen.json");
}

SpecimenCase shipped(const std::string& id) {
  const auto outcome = read_specimen(text_of(id), id);
  EXPECT_TRUE(outcome.value.has_value()) << outcome.first_error();
  return outcome.value.value_or(SpecimenCase{});
}

TEST(SpecimenCase, ShippedFilesReadWithoutAnyFindingAndWriteBackByteForByte) {
  for (const char* id : kShipped) {
    const std::string text = text_of(id);
    const auto outcome = read_specimen(text, id);
    ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
    EXPECT_TRUE(outcome.problems.empty()) << id;
    EXPECT_EQ(outcome.value->id, id);
    EXPECT_EQ(write_specimen(*outcome.value), text) << id;
    EXPECT_GE(text_in(outcome.value->story, "en").size(), 80U) << id;
  }
}

TEST(SpecimenCase, TheyCoverBothJawsAllQuadrantsTheHardRidgesAndANeighbourOnAnImplant) {
  std::set<int> quadrants;
  std::set<specimen::JawRegion> regions;
  bool has_foramen = false;
  bool has_socket = false;
  bool has_slope = false;
  bool has_undercut = false;
  bool has_knife_edge = false;
  bool has_implant = false;
  for (const char* id : kShipped) {
    const specimen::JawSpec jaw = shipped(id).jaw;
    quadrants.insert(specimen::quadrant_of(jaw.site_fdi));
    regions.insert(jaw.region);
    has_foramen = has_foramen || (jaw.canal && jaw.canal->foramen);
    has_socket = has_socket || jaw.socket;
    has_slope = has_slope || jaw.ridge.crest_slope_deg < -15.0;
    has_undercut = has_undercut || jaw.ridge.undercut_depth_mm >= 3.0;
    has_knife_edge = has_knife_edge || jaw.ridge.crest_width_mm <= 2.0;
    EXPECT_GE(jaw.teeth.size(), 2U) << id;
    has_implant = has_implant || std::any_of(jaw.teeth.begin(), jaw.teeth.end(),
                                             [](const specimen::ToothSpec& tooth) {
                                               return tooth.implant.has_value();
                                             });
  }
  EXPECT_EQ(quadrants.size(), 4U);
  EXPECT_EQ(regions.size(), 4U);
  EXPECT_TRUE(has_foramen && has_socket && has_slope && has_undercut && has_knife_edge &&
              has_implant);
}

// The last drill is 0.5 mm narrower than the implant; its point is that of 118 degrees.
TEST(SpecimenCase, ThePlannedImplantAndItsDeepestDrillKeepEveryMargin) {
  for (const char* id : kShipped) {
    const SpecimenCase one = shipped(id);
    const specimen::RevolvedBody implant = implant_of(one);
    specimen::RevolvedBody drill = implant;
    drill.radius_mm -= 0.25;
    drill.point_mm = specimen::point_height_mm(2.0 * drill.radius_mm, 118.0);
    const std::array<specimen::RevolvedBody, 2> bodies{implant, drill};
    const specimen::Jaw jaw(one.jaw, specimen::Jaw::Texture::kNone);
    const auto found = clearances(jaw, bodies);
    for (const Margin& margin : one.margins) {
      bool is_known = false;
      for (const specimen::Clearance& clearance : found) {
        if (clearance.structure == margin.structure) {
          is_known = true;
          EXPECT_GE(clearance.distance_mm, margin.keep_mm)
              << id << ' ' << name_of(margin.structure);
        }
      }
      EXPECT_TRUE(is_known) << id;
    }
  }
}

TEST(SpecimenCase, EveryCaseHasBoneUnderThePlanInItsVolume) {
  for (const char* id : kShipped) {
    SpecimenCase one = shipped(id);
    one.jaw.voxel_mm = 0.4;
    const specimen::Jaw jaw(one.jaw);
    const auto pose = specimen::pose_of(one.jaw.site_fdi);
    const volume::Volume volume = build_jaw(jaw, pose, {one.access});
    const specimen::Plan plan = plan_in_core(pose, plan_of(one));
    const math::Vec3 p = plan.entry_mm - 0.9 * plan.depth_mm * plan.axis_out_unit;
    const volume::Grid& grid = volume.grid;
    const math::Vec3 at = (p - grid.first_centre_mm) / grid.spacing_mm + math::Vec3(0.5);
    const std::size_t i =
        grid.index(static_cast<int>(at.x), static_cast<int>(at.y), static_cast<int>(at.z));
    EXPECT_EQ(volume.coverage[i], volume::kFullCoverage) << id;
    EXPECT_EQ(volume.tissue[i], static_cast<std::uint8_t>(specimen::Tissue::kCancellous)) << id;
  }
}

TEST(SpecimenCase, WhatIsLeftOutIsAsInATypicalJaw) {
  const std::string text = R"({"format": "driftbench-specimen", "version": 1, "id": "plain",
    "title": {"en": "Plain"}, "story": {"en": "Nothing said."}, "region": "posterior-mandible",
    "tooth": 46, "ridge": {"crest_width_mm": 8.5},
    "plan": {"entry_mm": [0, 0, 0], "lean_md_deg": 3, "implant": {"diameter_mm": 4, "length_mm": 8}},
    "margins": [{"structure": "canal", "keep_mm": 2}]})";
  const auto outcome = read_specimen(text, "plain");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  specimen::JawSpec expected = specimen::typical_jaw(specimen::JawRegion::kPosteriorMandible);
  expected.site_fdi = 46;
  expected.ridge.crest_width_mm = 8.5;
  EXPECT_EQ(outcome.value->jaw, expected);
  // The apex leans distally: +x in the jaw frame, -x in the mirrored core frame of quadrant 4.
  const specimen::Plan plan = plan_of(*outcome.value);
  EXPECT_GT(plan.apex_mm().x, 0.3);
  EXPECT_LT(plan_in_core(specimen::pose_of(46), plan).apex_mm().x, -0.3);
}

// Sizes that are left out are usual ones; a lost tooth had roots, so its socket knows no implant.
TEST(SpecimenCase, ANeighbourMayStandOnAnImplantAndALostToothMayNot) {
  std::string text = text_of("lower-36-healed");
  text = support::with(text, "\"lean_bl_deg\": 2, \"scale\": 1",
                       "\"lean_bl_deg\": 2, \"scale\": 1, \"implant\": {\"diameter_mm\": 3.6}");
  text = support::with(text, "mesial-root", "other-implant");
  auto outcome = read_specimen(text, "implant");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_FALSE(outcome.value->jaw.teeth[1].implant.has_value());
  EXPECT_EQ(outcome.value->jaw.teeth[0].implant, (specimen::ImplantRoot{3.6, 10.0, 2.0}));
  const auto again = read_specimen(write_specimen(*outcome.value), "again");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_EQ(again.value->jaw, outcome.value->jaw);

  text = support::with(text_of("lower-36-healed"), "\"gum\"",
                       "\"socket\": {\"tooth\": 36, \"implant\": {}},\n  \"gum\"");
  outcome = read_specimen(text, "socket");
  ASSERT_EQ(outcome.problems.size(), 1U) << outcome.first_error();
  EXPECT_EQ(outcome.problems[0].severity, base::Problem::Severity::kWarning);
}

TEST(SpecimenCase, AnUnknownFieldIsAWarning) {
  std::string text = text_of("lower-36-healed");
  text = support::with(text, "\"access\"", "\"colour\": \"red\",\n  \"access\"");
  const auto outcome = read_specimen(text, "warned");
  EXPECT_TRUE(outcome.value.has_value());
  ASSERT_EQ(outcome.problems.size(), 1U);
  EXPECT_EQ(outcome.problems[0].severity, base::Problem::Severity::kWarning);
}

}  // namespace
}  // namespace driftbench::lesson
