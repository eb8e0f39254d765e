// Cross-sections, lofted bodies, arch and tooth numbers against their definitions.
#include "specimen/jaw_shape.h"

#include "base/random.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/jaw_sources.h"
#include "specimen/tooth_number.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench {
namespace {

using math::Vec2;
using math::Vec3;
using specimen::JawRegion;

/// Facial and lingual ends of the bone at a depth, by the distance's change of sign.
Vec2 ends_at(const specimen::Outline& outline, double depth) {
  const auto edge = [&](double inside, double outside) {
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (inside + outside);
      (outline_distance(outline, {middle, -depth}).distance_mm < 0.0 ? inside : outside) = middle;
    }
    return inside;
  };
  return {edge(0.0, -20.0), edge(0.0, 20.0)};
}

TEST(RidgeProfile, WidthsAreThoseAskedFor) {
  specimen::RidgeSpec ridge;
  ridge.undercut_depth_mm = 0.0;
  const specimen::Outline outline = outline_of(ridge, {});
  const auto width = [&](double depth) {
    const Vec2 ends = ends_at(outline, depth);
    return ends.y - ends.x;
  };
  EXPECT_NEAR(width(1.0), ridge.crest_width_mm, 0.05);
  EXPECT_NEAR(width(4.0), ridge.upper_width_mm, 0.05);
  EXPECT_NEAR(width(ridge.body_depth_mm), ridge.body_width_mm, 0.05);
  EXPECT_NEAR(outline_distance(outline, {0.0, 3.0}).distance_mm, 3.0, 0.01);
  EXPECT_NEAR(outline_distance(outline, {0.0, -ridge.height_mm - 2.0}).distance_mm, 2.0, 0.02);
}

TEST(RidgeProfile, UndercutHasItsDepthLevelAndAngle) {
  specimen::RidgeSpec ridge;
  ridge.upper_width_mm = ridge.body_width_mm = ridge.base_width_mm = 11.0;
  ridge.crest_width_mm = 9.5;
  ridge.undercut_depth_mm = 2.4;
  ridge.undercut_level_mm = 9.4;
  ridge.undercut_angle_deg = 63.0;
  const specimen::Outline outline = outline_of(ridge, {});
  const double fall = 2.4 * math::tan(math::Radians(math::Degrees(63.0)).value);
  const double prominence = ends_at(outline, 9.4 - fall).y;
  const double deepest = ends_at(outline, 9.4).y;
  EXPECT_NEAR(prominence - deepest, 2.4, 0.05);
  for (double depth = 4.0; depth < 20.0; depth += 0.5) {
    EXPECT_GE(ends_at(outline, depth).y, deepest - 0.02) << depth;
  }
}

TEST(RidgeProfile, SlopeTiltsTheCrest) {
  specimen::RidgeSpec ridge;
  ridge.crest_slope_deg = 20.0;
  const specimen::Outline outline = outline_of(ridge, {});
  double top = -1e9;
  double top_at = 0.0;
  for (const specimen::OutlinePoint& point : outline) {
    if (point.at.y > top) {
      top = point.at.y;
      top_at = point.at.x;
    }
  }
  EXPECT_LT(top_at, -0.5);  // falls toward the lingual side: highest on the facial side
  EXPECT_GT(top, 0.2);
}

TEST(RidgeProfile, DistanceIsThatToTheNearestOfManyPoints) {
  const specimen::Outline outline = outline_of(specimen::RidgeSpec{}, {});
  base::Rng rng(5);
  for (int i = 0; i < 200; ++i) {
    const double x = rng.uniform(-12.0, 12.0);
    const double y = rng.uniform(-30.0, 6.0);
    double least = 1e9;
    for (std::size_t k = 0; k < specimen::kOutlineSize; ++k) {
      const Vec2 a = outline[k].at;
      const Vec2 b = outline[(k + 1) % specimen::kOutlineSize].at;
      for (int s = 0; s < 50; ++s) {
        const Vec2 off = a + (s / 50.0) * (b - a) - Vec2(x, y);
        least = std::min(least, std::sqrt(off.x * off.x + off.y * off.y));
      }
    }
    EXPECT_NEAR(std::fabs(outline_distance(outline, {x, y}).distance_mm), least, 0.01);
  }
}

TEST(Arch, ThereAndBackAgain) {
  const specimen::Arch arch{1.0 / 26.0};
  for (double x = -11.0; x <= 11.0; x += 2.2) {
    for (double y = -8.0; y <= 8.0; y += 1.6) {
      const Vec3 p(x, y, -3.0);
      EXPECT_LT(math::length(arch.from_arch(arch.to_arch(p)) - p), 1e-12);
    }
  }
  // The lateral coordinate is the distance from the circle.
  const Vec3 q = arch.to_arch({8.0, -4.0, 0.0});
  EXPECT_NEAR(q.y, 26.0 - std::sqrt(64.0 + 30.0 * 30.0), 1e-12);
}

TEST(LoftedBody, SurfacePointsHaveNoDistance) {
  const specimen::ToothShape tooth({36, 0.0, 0.0, 2.0, 8.0, -5.0, 1.0}, {});
  const auto check = [](const specimen::LoftedBody& body) {
    for (int i = 0; i < 20; ++i) {
      for (int j = 0; j <= 20; ++j) {
        EXPECT_NEAR(body.distance_mm(body.surface_mm(i / 20.0, j / 20.0)), 0.0, 0.01);
      }
    }
  };
  check(tooth.crown());
  for (const specimen::LoftedBody& root : tooth.roots()) {
    check(root);
  }
}

TEST(LoftedBody, ASphereIsASphere) {
  const specimen::LoftedBody ball({1.0, 2.0, 3.0}, math::Mat3(1.0), specimen::LoftShape::kEllipse,
                                  {{-4.0, 0.0, 0.0, 4.0, 4.0}, {4.0, 0.0, 0.0, 4.0, 4.0}}, 4.0,
                                  4.0);
  base::Rng rng(8);
  for (int i = 0; i < 100; ++i) {
    const double x = rng.uniform(-3.0, 3.0);
    const double y = rng.uniform(-3.0, 3.0);
    const double z = rng.uniform(-3.9, 3.9);
    const Vec3 off(x, y, z);
    EXPECT_NEAR(ball.distance_mm(Vec3(1.0, 2.0, 3.0) + off), math::length(off) - 4.0, 1e-9);
  }
}

TEST(ToothShape, HasTheAverageLengths) {
  for (const int fdi : {11, 13, 24, 26, 31, 33, 45, 37}) {
    const specimen::ToothShape tooth({fdi, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0}, {});
    const specimen::ToothSize& size = specimen::average_tooth(fdi);
    EXPECT_NEAR(tooth.crown().high_mm(), size.crown_mm, 1e-9) << fdi;
    double deepest = 0.0;
    for (const specimen::LoftedBody& root : tooth.roots()) {
      deepest = std::min(deepest, root.low_mm());
    }
    EXPECT_NEAR(-deepest, size.root_mm, 1.01) << fdi;  // palatal roots are 1 mm longer
    double widest = 0.0;
    for (int i = 0; i <= 50; ++i) {
      widest = std::max(widest, 2.0 * tooth.crown().section_at(size.crown_mm * i / 50.0).half_x_mm);
    }
    EXPECT_NEAR(widest, size.crown_md_mm, 0.06 * size.crown_md_mm) << fdi;
  }
}

// Both systems as printed on any chart.
TEST(ToothNumber, UsNumbersOfFdiNumbers) {
  EXPECT_EQ(specimen::us_tooth_number(18), 1);
  EXPECT_EQ(specimen::us_tooth_number(16), 3);
  EXPECT_EQ(specimen::us_tooth_number(11), 8);
  EXPECT_EQ(specimen::us_tooth_number(21), 9);
  EXPECT_EQ(specimen::us_tooth_number(26), 14);
  EXPECT_EQ(specimen::us_tooth_number(38), 17);
  EXPECT_EQ(specimen::us_tooth_number(36), 19);
  EXPECT_EQ(specimen::us_tooth_number(31), 24);
  EXPECT_EQ(specimen::us_tooth_number(42), 26);
  EXPECT_EQ(specimen::us_tooth_number(46), 30);
  EXPECT_EQ(specimen::us_tooth_number(48), 32);
  for (const int wrong : {0, 10, 19, 29, 50, 51, 136, -11}) {
    EXPECT_FALSE(specimen::is_fdi(wrong)) << wrong;
  }
}

struct Impossible {
  const char* words;
  JawRegion region;
  void (*change)(specimen::JawSpec&);
};

TEST(JawSpec, ImpossibleAnatomyIsRefusedWithTheReason) {
  const Impossible cases[] = {
      {"canal leaves the bone", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.canal->lateral_mm = 6.0; }},
      {"canal leaves the bone", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.canal->depth_mm = 24.0; }},
      {"cortex.facial_mm is -1", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.cortex.facial_mm = -1.0; }},
      {"root of tooth 35 goes through the canal", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.canal->depth_mm = 9.0; }},
      {"run through one another", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) {
         s.teeth.push_back({34, -11.0, 0.0, 2.0, 0.0, 0.0, 1.0});
       }},
      {"stands where the implant", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.teeth[0].at_mm = -2.0; }},
      {"tooth is 55", JawRegion::kPosteriorMandible, [](specimen::JawSpec& s) { s.site_fdi = 55; }},
      {"expected one of the lower jaw", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.site_fdi = 16; }},
      {"not in the jaw of tooth 36", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.teeth[0].fdi = 15; }},
      {"voxel_mm is 0.01", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) { s.voxel_mm = 0.01; }},
      {"million voxels", JawRegion::kPosteriorMandible,
       [](specimen::JawSpec& s) {
         s.voxel_mm = 0.1;
         s.length_mm = 70.0;
       }},
      {"sinus breaks through", JawRegion::kPosteriorMaxilla,
       [](specimen::JawSpec& s) { s.sinus->lateral_mm = -8.0; }},
      {"sinus.floor_mm is 0.5", JawRegion::kPosteriorMaxilla,
       [](specimen::JawSpec& s) { s.sinus->floor_mm = 0.5; }},
      {"ridge.height_mm is nan", JawRegion::kAnteriorMandible,
       [](specimen::JawSpec& s) { s.ridge.height_mm = std::nan(""); }},
      {"socket ends outside", JawRegion::kAnteriorMaxilla, [](specimen::JawSpec& s) {
         s.socket = specimen::ToothSpec{11, 0.0, -6.0, 1.5, 0.0, 0.0, 1.0};
       }}};
  for (const Impossible& one : cases) {
    specimen::JawSpec spec = typical_jaw(one.region);
    one.change(spec);
    const auto result = validated(spec);
    ASSERT_FALSE(result.has_value()) << one.words;
    EXPECT_NE(result.error().message.find(one.words), std::string::npos) << result.error().message;
    EXPECT_EQ(result.error().message.find('\n'), std::string::npos);
  }
}

TEST(JawSpec, TypicalJawsArePossible) {
  for (const JawRegion region : {JawRegion::kPosteriorMandible, JawRegion::kAnteriorMandible,
                                 JawRegion::kPosteriorMaxilla, JawRegion::kAnteriorMaxilla}) {
    const auto result = validated(typical_jaw(region));
    EXPECT_TRUE(result.has_value()) << result.error().message;
  }
}

TEST(JawSources, DrawsStayInsideTheirRangesAndRepeat) {
  for (const JawRegion region : {JawRegion::kPosteriorMandible, JawRegion::kAnteriorMandible,
                                 JawRegion::kPosteriorMaxilla, JawRegion::kAnteriorMaxilla}) {
    const specimen::JawSpec base = typical_jaw(region);
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      const auto drawn = drawn_jaw(base, seed);
      ASSERT_TRUE(drawn.has_value()) << drawn.error().message;
      EXPECT_EQ(*drawn, *drawn_jaw(base, seed));
      EXPECT_NE(*drawn, *drawn_jaw(base, seed + 100));
    }
  }
  // Crest to canal: 13.07 (SD 2.96) in 100 CBCT, kept within 10 to 18.
  const specimen::JawSpec base = typical_jaw(JawRegion::kPosteriorMandible);
  double sum = 0.0;
  constexpr int kDraws = 60;
  for (int seed = 0; seed < kDraws; ++seed) {
    const auto drawn = drawn_jaw(base, static_cast<std::uint64_t>(seed));
    ASSERT_TRUE(drawn.has_value());
    EXPECT_GE(drawn->canal->depth_mm, 10.0);
    EXPECT_LE(drawn->canal->depth_mm, 18.0);
    sum += drawn->canal->depth_mm;
  }
  EXPECT_NEAR(sum / kDraws, 13.07, 1.1);
}

TEST(JawSources, EverySizeHasASourceAndMeanInsideItsRange) {
  for (const specimen::PublishedSize& size : specimen::published_sizes()) {
    EXPECT_FALSE(size.source.empty()) << size.name;
    EXPECT_GE(size.mean, size.low) << size.name;
    EXPECT_LE(size.mean, size.high) << size.name;
  }
}

}  // namespace
}  // namespace driftbench
