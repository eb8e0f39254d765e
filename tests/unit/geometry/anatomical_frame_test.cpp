// Signs in all four quadrants of the mouth, the defining formulas, and degenerate plans.
#include "geometry/anatomical_frame.h"

#include "base/random.h"
#include "math/angle.h"
#include "math/rotation.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftbench::geometry {
namespace {

using math::Vec3;

AnatomicalFrame made(const Vec3& entry, const Vec3& apex, const Vec3& distal, const Vec3& lingual) {
  const base::Result<AnatomicalFrame> frame = make_anatomical_frame(entry, apex, distal, lingual);
  EXPECT_TRUE(frame.has_value());
  return frame.value_or(AnatomicalFrame{});
}

// Directions of one molar site in a patient frame: +x to the patient's left, +y to the back, +z up.
struct Site {
  int fdi;
  Vec3 distal;
  Vec3 lingual;
  Vec3 down;
};

// FDI 16 upper right, 26 upper left, 36 lower left, 46 lower right: distal is backwards, lingual is
// towards the middle, deeper is up in the upper jaw and down in the lower.
constexpr double kUp = 1.0;
const std::array<Site, 4> kSites = {{{16, {0, 1, 0}, {1, 0, 0}, {0, 0, kUp}},
                                     {26, {0, 1, 0}, {-1, 0, 0}, {0, 0, kUp}},
                                     {36, {0, 1, 0}, {-1, 0, 0}, {0, 0, -kUp}},
                                     {46, {0, 1, 0}, {1, 0, 0}, {0, 0, -kUp}}}};

TEST(AnatomicalFrame, SignsHoldInEveryQuadrant) {
  for (const Site& site : kSites) {
    const Vec3 entry(20.0, 5.0, -3.0);
    const AnatomicalFrame frame = made(entry, entry + site.down * 10.0, site.distal, site.lingual);
    const AnatomicalComponents error =
        components(frame, site.distal * 1.5 + site.lingual * -0.5 + site.down * 0.75);
    EXPECT_NEAR(error.md_mm, 1.5, 1e-14) << site.fdi;
    EXPECT_NEAR(error.bl_mm, -0.5, 1e-14) << site.fdi;
    EXPECT_NEAR(error.depth_mm, 0.75, 1e-14) << site.fdi;
    // An apex that leans distally and buccally.
    const AnatomicalTilts lean = tilts(frame, site.down * 10.0 + site.distal - site.lingual * 2.0);
    EXPECT_GT(lean.tilt_md_rad, 0.0) << site.fdi;
    EXPECT_LT(lean.tilt_bl_rad, 0.0) << site.fdi;
    EXPECT_GT(lean.angle_rad, 0.0) << site.fdi;
  }
}

TEST(AnatomicalFrame, IsOrthonormalForAnyPlan) {
  base::Rng rng(1);
  for (int i = 0; i < 500; ++i) {
    const Vec3 apex(rng.uniform(-3, 3), rng.uniform(-3, 3), 10.0);
    const Vec3 distal(1.0, rng.uniform(-0.3, 0.3), rng.uniform(-0.3, 0.3));
    const Vec3 lingual(rng.uniform(-0.3, 0.3), 1.0, rng.uniform(-0.3, 0.3));
    const AnatomicalFrame frame = made(Vec3(0.0), apex, distal, lingual);
    EXPECT_NEAR(length(frame.md_unit), 1.0, 1e-15);
    EXPECT_NEAR(length(frame.bl_unit), 1.0, 1e-15);
    EXPECT_NEAR(dot(frame.md_unit, frame.bl_unit), 0.0, 1e-15);
    EXPECT_NEAR(dot(frame.md_unit, frame.down_unit), 0.0, 1e-15);
    EXPECT_NEAR(dot(frame.bl_unit, frame.down_unit), 0.0, 1e-15);
    EXPECT_GT(dot(frame.md_unit, distal), 0.0);
    EXPECT_GT(dot(frame.bl_unit, lingual), 0.0);
    const Vec3 d(rng.uniform(-2, 2), rng.uniform(-2, 2), rng.uniform(-2, 2));
    const AnatomicalComponents c = components(frame, d);
    EXPECT_NEAR(c.md_mm * c.md_mm + c.bl_mm * c.bl_mm + c.depth_mm * c.depth_mm, dot(d, d), 1e-13);
  }
}

TEST(AnatomicalFrame, PureTiltsAreTheAngleTurned) {
  const AnatomicalFrame frame = made(Vec3(0.0), {0, 0, 10}, {1, 0, 0}, {0, 1, 0});
  const double turn_rad = 5.0 * math::kPi / 180.0;
  const Vec3 distally = math::rotated(frame.down_unit, {0, 1, 0}, math::Radians(turn_rad));
  const AnatomicalTilts t = tilts(frame, distally);
  EXPECT_NEAR(t.tilt_md_rad, turn_rad, 1e-15);
  EXPECT_NEAR(t.tilt_bl_rad, 0.0, 1e-15);
  EXPECT_NEAR(t.angle_rad, turn_rad, 1e-15);
}

TEST(AnatomicalFrame, TiltsAndAngleObeyTheTangentLaw) {
  // tan^2(angle) = tan^2(tilt_md) + tan^2(tilt_bl), from the definitions.
  base::Rng rng(2);
  const AnatomicalFrame frame = made({1, 2, 3}, {2, 1, 12}, {1, 0, 0.1}, {0, 1, 0});
  for (int i = 0; i < 500; ++i) {
    const Vec3 axis = frame.down_unit + frame.md_unit * rng.uniform(-0.5, 0.5) +
                      frame.bl_unit * rng.uniform(-0.5, 0.5);
    const AnatomicalTilts t = tilts(frame, axis * 7.0);
    const double md = std::tan(t.tilt_md_rad);
    const double bl = std::tan(t.tilt_bl_rad);
    EXPECT_NEAR(std::tan(t.angle_rad), std::sqrt(md * md + bl * bl), 1e-14);
  }
}

TEST(AnatomicalFrame, MirroringTheMouthChangesNoNumber) {
  // Mirror at the plane x = 0: a site of quadrant 4 becomes one of quadrant 3.
  const auto mirrored = [](const Vec3& v) { return Vec3(-v.x, v.y, v.z); };
  const Vec3 entry(-22.0, 31.0, 4.0);
  const Vec3 apex(-21.0, 31.5, -6.0);
  const Vec3 distal(-0.2, 1.0, 0.0);
  const Vec3 lingual(1.0, 0.2, 0.1);
  const Vec3 axis(0.3, 0.2, -1.0);
  const AnatomicalFrame right = made(entry, apex, distal, lingual);
  const AnatomicalFrame left =
      made(mirrored(entry), mirrored(apex), mirrored(distal), mirrored(lingual));
  const AnatomicalComponents a = components(right, axis);
  const AnatomicalComponents b = components(left, mirrored(axis));
  EXPECT_NEAR(a.md_mm, b.md_mm, 1e-15);
  EXPECT_NEAR(a.bl_mm, b.bl_mm, 1e-15);
  EXPECT_NEAR(a.depth_mm, b.depth_mm, 1e-15);
  EXPECT_NEAR(tilts(right, axis).angle_rad, tilts(left, mirrored(axis)).angle_rad, 1e-15);
}

TEST(AnatomicalFrame, DegeneratePlansAreRefused) {
  const Vec3 x(1, 0, 0);
  const Vec3 y(0, 1, 0);
  const Vec3 z(0, 0, 1);
  const Vec3 o(0.0);
  EXPECT_FALSE(make_anatomical_frame(z, z, x, y).has_value());
  EXPECT_FALSE(make_anatomical_frame(o, x * 10.0, x, y).has_value());
  EXPECT_FALSE(make_anatomical_frame(o, z, x, x).has_value());
  EXPECT_FALSE(make_anatomical_frame(o, z, x, z).has_value());
  EXPECT_FALSE(make_anatomical_frame(o, z, o, y).has_value());
  EXPECT_FALSE(make_anatomical_frame(o, z, x, {std::nan(""), 1, 0}).has_value());
  EXPECT_EQ(make_anatomical_frame(z, z, x, y).error().code, base::ErrorCode::kInvalidArgument);
}

}  // namespace
}  // namespace driftbench::geometry
