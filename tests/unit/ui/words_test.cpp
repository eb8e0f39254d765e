#include "ui/words.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::ui {
namespace {

lesson::AttemptSetup halves(double boundary_deg, specimen::DensityClass first,
                            specimen::DensityClass second) {
  lesson::AttemptSetup setup;
  specimen::BlockSpec& block = *specimen::block_in(setup.specimen);
  block.first = first;
  block.second = second;
  block.boundary_deg = boundary_deg;
  const double heading = boundary_deg * 3.14159265358979323846 / 180.0;
  setup.plan.md_hint = {std::cos(heading), std::sin(heading), 0.0};
  setup.plan.bl_hint = {-std::sin(heading), std::cos(heading), 0.0};
  return setup;
}

using specimen::DensityClass;

TEST(Words, MdIsTheSoftHalfWhateverWayTheBoundaryRuns) {
  for (const double deg : {0.0, 37.0, 90.0, 180.0, 250.0}) {
    const SiteWords words = site_words(halves(deg, DensityClass::kD1, DensityClass::kD4));
    EXPECT_EQ(words.md_plus, "Soft half") << deg;
    EXPECT_EQ(words.md_minus, "Dense half") << deg;
  }
  const SiteWords turned = site_words(halves(0.0, DensityClass::kD4, DensityClass::kD1));
  EXPECT_EQ(turned.md_plus, "Dense half") << "the second half is the denser one";
}

TEST(Words, AcrossTheBoundaryTheOperatorsOwnWords) {
  EXPECT_EQ(site_words(halves(0.0, DensityClass::kD1, DensityClass::kD4)).bl_plus, "Far");
  EXPECT_EQ(site_words(halves(0.0, DensityClass::kD1, DensityClass::kD4)).bl_minus, "Near");
  EXPECT_EQ(site_words(halves(90.0, DensityClass::kD1, DensityClass::kD4)).bl_plus, "Left");
  EXPECT_EQ(site_words(halves(-90.0, DensityClass::kD1, DensityClass::kD4)).bl_plus, "Right");
}

TEST(Words, UniformBlockHasNoHalves) {
  lesson::AttemptSetup setup;
  const SiteWords words = site_words(setup);
  EXPECT_EQ(words.md_plus, "Right");
  EXPECT_EQ(words.md_minus, "Left");
  EXPECT_EQ(words.toward_bl_minus, "toward you");
  specimen::BlockSpec& block = *specimen::block_in(setup.specimen);
  block.second = block.first;
  EXPECT_EQ(site_words(setup).md_plus, "Right");
}

TEST(Words, SignsBecomeWords) {
  const SiteWords words = site_words(halves(0.0, DensityClass::kD1, DensityClass::kD4));
  EXPECT_EQ(along_md(words, 1.24), "1.2 mm toward the soft half");
  EXPECT_EQ(along_md(words, -0.36), "0.4 mm toward the dense half");
  EXPECT_EQ(along_bl(words, 0.5), "0.5 mm away from you");
  EXPECT_EQ(along_md(words, 0.049), "on the planned line");
  EXPECT_EQ(along_md(words, -0.049), "on the planned line");
  EXPECT_EQ(depth_words(0.4), "0.4 mm too deep");
  EXPECT_EQ(depth_words(-0.4), "0.4 mm too shallow");
  EXPECT_EQ(depth_words(0.0), "at the planned depth");
  EXPECT_EQ(lean_md(words, 3.12), "apex leans 3.1° toward the soft half");
  EXPECT_EQ(lean_bl(words, -2.0), "apex leans 2.0° toward you");
  EXPECT_EQ(lean_md(words, 0.0), "no lean");
}

TEST(Words, DirectionNamesOneEdgeOrBoth) {
  const SiteWords words = site_words(halves(0.0, DensityClass::kD1, DensityClass::kD4));
  EXPECT_EQ(direction_words(words, 1.0, 0.0), "toward the soft half");
  EXPECT_EQ(direction_words(words, 1.0, 0.3), "toward the soft half");
  EXPECT_EQ(direction_words(words, -1.0, 1.0), "toward the dense half and away from you");
  EXPECT_EQ(direction_words(words, 0.1, -1.0), "toward you");
  EXPECT_EQ(direction_words(words, 0.0, 0.0), "");
}

TEST(Words, ReasonsNameFoundAndLimit) {
  EXPECT_EQ(reason_words({"entry_lateral_mm", 1.42, 0.0, 1.0}), "Entry 1.4 mm off, limit 1.0 mm.");
  EXPECT_EQ(reason_words({"apex_lateral_mm", 2.0, 0.0, 1.5}), "Apex 2.0 mm off, limit 1.5 mm.");
  EXPECT_EQ(reason_words({"angle_deg", 6.1, 0.0, 5.0}), "Axis 6.1° off, limit 5.0°.");
  EXPECT_EQ(reason_words({"depth_error_mm", 0.8, -1.0, 0.5}), "0.8 mm too deep, limit 0.5 mm.");
  EXPECT_EQ(reason_words({"depth_error_mm", -1.6, -1.0, 0.5}), "1.6 mm too shallow, limit 1.0 mm.");
  EXPECT_EQ(reason_words({"apex_lateral_mm", 1.53, 0.0, 1.5}), "Apex 1.53 mm off, limit 1.50 mm.")
      << "never 'off by 1.5, limit 1.5'";
}

TEST(Words, BlockNamesFoamAndWhatItStandsFor) {
  specimen::BlockSpec block;
  EXPECT_EQ(block_words(block), "One piece of dense foam 40 pcf (stands for D1)");
  block.second = DensityClass::kD4;
  EXPECT_EQ(block_words(block),
            "Two halves: dense foam 40 pcf (stands for D1) and soft foam 10 pcf (stands for D4)");
}

}  // namespace
}  // namespace driftbench::ui
