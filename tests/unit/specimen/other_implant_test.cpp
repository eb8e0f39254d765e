// A neighbour on an implant: distances against closed formulas, the voxels, what is refused.
#include "base/random.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/clearance.h"
#include "specimen/jaw_sources.h"
#include "specimen/jaw_volume.h"
#include "volume/sample.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench {
namespace {

using math::Vec3;
using specimen::Jaw;
using specimen::RevolvedBody;
using specimen::Structure;
using specimen::Tissue;

constexpr double kWithin_mm = 0.02;
constexpr double kHalfVoxel_mm = 0.1;

RevolvedBody upright(const Vec3& top, double diameter, double length) {
  RevolvedBody body;
  body.top_mm = top;
  body.radius_mm = 0.5 * diameter;
  body.length_mm = length;
  return body;
}

/// A molar site in a straight section, with a crown on an implant at `at_mm`.
specimen::JawSpec beside_implant(double at_mm) {
  specimen::JawSpec spec = typical_jaw(specimen::JawRegion::kPosteriorMandible);
  spec.teeth = {{35, at_mm, 0.0, 2.0, 0.0, 0.0, 1.0, specimen::ImplantRoot{4.2, 9.0, 2.0}}};
  return spec;
}

double spacing(const Jaw& jaw, const RevolvedBody& body) {
  const auto found = clearance_to(jaw, body, Structure::kOtherImplant);
  EXPECT_TRUE(found.has_value());
  return found ? found->distance_mm : -1e9;
}

// Parallel cylinders: axes less both radii. Ends apart: the straight line between two rims.
TEST(OtherImplant, DistanceOfUprightCylindersIsTheClosedForm) {
  const Jaw jaw(beside_implant(-8.0));
  const RevolvedBody& other = *jaw.teeth()[0].implant();
  EXPECT_NEAR(other.top_mm.z, 0.0, 1e-12);
  EXPECT_NEAR(other.deepest_mm().z, -9.0, 1e-12) << "9 mm with its blunt end";
  EXPECT_NEAR(spacing(jaw, upright({0.0, 0.0, -0.5}, 4.0, 10.0)), 8.0 - 2.1 - 2.0, kWithin_mm);
  EXPECT_NEAR(spacing(jaw, upright({-3.0, 4.0, -0.5}, 3.5, 8.0)),
              std::sqrt(25.0 + 16.0) - 2.1 - 1.75, kWithin_mm);
  // Its end is above: the point of the blunt cone over the other's upper end.
  EXPECT_NEAR(spacing(jaw, upright({-8.4, 0.3, -12.0}, 4.0, 6.0)), 3.0, kWithin_mm);
  // Its rim is above and beside: platform to platform edge.
  EXPECT_NEAR(spacing(jaw, upright({-2.0, 0.0, 10.5}, 4.0, 8.0)), std::sqrt(1.9 * 1.9 + 2.5 * 2.5),
              kWithin_mm);
}

// Leaning across the arch it stays in a plane beside the site: the axes' distance is the plane's.
TEST(OtherImplant, DistanceOfSkewCylindersIsThatOfTheirAxesLessTheRadii) {
  for (const double lean_deg : {-20.0, 8.0, 31.0}) {
    specimen::JawSpec spec = beside_implant(-7.5);
    spec.teeth[0].lean_bl_deg = lean_deg;
    // Crossing at half depth.
    const double tangent = math::tan(math::Radians(math::Degrees(lean_deg)).value);
    spec.teeth[0].lateral_mm = 6.5 * tangent;
    const Jaw jaw(spec);
    EXPECT_NEAR(spacing(jaw, upright({0.0, 0.0, 0.5}, 4.0, 10.0)), 7.5 - 2.1 - 2.0, kWithin_mm)
        << lean_deg;
  }
}

// Any two axes whose nearest points lie inside both bodies; and the same seen from either side.
TEST(OtherImplant, RandomPairsAgreeWithTheDistanceOfTwoLinesAndAreSymmetric) {
  base::Rng rng(41);
  int inner = 0;
  for (int i = 0; i < 200; ++i) {
    std::array<RevolvedBody, 2> pair;
    for (RevolvedBody& body : pair) {
      const double x = rng.uniform(-1.0, 1.0);
      const double y = rng.uniform(-1.0, 1.0);
      const double lean_x = rng.uniform(-0.6, 0.6);
      const double lean_y = rng.uniform(-0.6, 0.6);
      const double diameter = rng.uniform(3.0, 5.0);
      body = upright({x, y, 0.0}, diameter, rng.uniform(7.0, 12.0));
      body.down_unit = math::unit(Vec3(lean_x, lean_y, -1.0));
      body.point_mm = rng.uniform(0.2, 1.2);
    }
    pair[1].top_mm.x += 9.0;
    const Vec3 between = pair[1].top_mm - pair[0].top_mm;
    const Vec3& u = pair[0].down_unit;
    const Vec3& v = pair[1].down_unit;
    const double uv = math::dot(u, v);
    const double square = 1.0 - uv * uv;
    const double s = (math::dot(u, between) - uv * math::dot(v, between)) / square;
    const double t = (uv * math::dot(u, between) - math::dot(v, between)) / square;
    const double axes = math::length(between + t * v - s * u);
    const double gap = axes - pair[0].radius_mm - pair[1].radius_mm;
    const double found = clearance_between(pair[0], pair[1]).distance_mm;
    if (found > 0.0) {
      EXPECT_NEAR(found, clearance_between(pair[1], pair[0]).distance_mm, kWithin_mm) << i;
    }
    if (gap > 0.0 && s > 0.0 && s < pair[0].length_mm && t > 0.0 && t < pair[1].length_mm) {
      EXPECT_NEAR(found, gap, kWithin_mm) << i;
      ++inner;
    }
  }
  EXPECT_GT(inner, 20);
}

TEST(OtherImplant, SpacingIsTheSameOnBothSidesOfTheSite) {
  const RevolvedBody body = upright({0.0, 0.0, -0.4}, 4.0, 10.0);
  for (const double at_mm : {6.5, 7.1, 9.0}) {
    specimen::JawSpec mesial = beside_implant(-at_mm);
    mesial.teeth[0].lean_md_deg = 6.0;
    specimen::JawSpec distal = beside_implant(at_mm);
    distal.teeth[0].lean_md_deg = -6.0;
    EXPECT_NEAR(spacing(Jaw(mesial), body), spacing(Jaw(distal), body), kWithin_mm);
  }
}

// It is told as the other implant and not as a root; the worse of implant and drill counts.
TEST(OtherImplant, IsNoRootAndCountsForTheDrillsPointToo) {
  specimen::JawSpec spec = beside_implant(-7.0);
  spec.teeth.push_back({37, 11.2, 0.2, 2.6, 0.0, 0.0, 1.0});
  const Jaw jaw(spec);
  const RevolvedBody implant = upright({0.0, 0.0, -0.4}, 4.0, 8.0);
  RevolvedBody drill = upright({-0.6, 0.0, -0.4}, 3.4, 8.0);
  drill.point_mm = 1.0;
  const std::array<RevolvedBody, 2> bodies{implant, drill};
  int others = 0;
  for (const specimen::Clearance& one : clearances(jaw, bodies)) {
    EXPECT_NE(one.structure, Structure::kRootMesial);
    if (one.structure == Structure::kOtherImplant) {
      ++others;
      EXPECT_EQ(one.body, 1U);
      EXPECT_NEAR(one.distance_mm, 7.0 - 0.6 - 1.7 - 2.1, kWithin_mm);
      EXPECT_NEAR(one.on_structure_mm.x, -7.0 + 2.1, 0.03);
    }
  }
  EXPECT_EQ(others, 1);
  EXPECT_TRUE(clearance_to(jaw, implant, Structure::kRootDistal).has_value());
  // A second implant nearer than the first one is the one that counts.
  const std::array<RevolvedBody, 1> more{upright({4.5, 0.0, 0.0}, 3.0, 9.0)};
  for (const specimen::Clearance& one : clearances(jaw, bodies, more)) {
    if (one.structure == Structure::kOtherImplant) {
      EXPECT_NEAR(one.distance_mm, 4.5 - 2.0 - 1.5, kWithin_mm);
    }
  }
}

// Labels, volume and density of the metal in the lattice against the cylinder with its cone.
TEST(OtherImplant, TheVoxelsAreTheBodyAndBoneStandsOnIt) {
  specimen::JawSpec spec = beside_implant(-8.07);  // off the lattice
  spec.teeth[0].lateral_mm = 0.04;
  const Jaw jaw(spec);
  const auto pose = specimen::pose_of(spec.site_fdi);
  const volume::Volume volume = build_jaw(jaw, pose, {specimen::GumState::kFlap});
  const volume::Grid& grid = volume.grid;
  const specimen::ToothShape& tooth = jaw.teeth()[0];
  const RevolvedBody& body = *tooth.implant();
  const RevolvedBody planned = upright({0.0, 0.0, -0.4}, 4.0, 10.0);
  double metal_mm3 = 0.0;
  double nearest = 1e9;
  int post = 0;
  int crown = 0;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        const std::size_t i = grid.index(x, y, z);
        const auto tissue = static_cast<Tissue>(volume.tissue[i]);
        EXPECT_NE(tissue, Tissue::kDentine);
        EXPECT_NE(tissue, Tissue::kPulp);
        EXPECT_NE(tissue, Tissue::kLigament);
        const Vec3 p = pose.to_jaw(grid.centre_mm(x, y, z));
        const double off = signed_distance_mm(body, p);
        if (tissue == Tissue::kTitanium) {
          EXPECT_EQ(volume.coverage[i], volume::kFullCoverage);
          nearest = std::min(nearest, signed_distance_mm(planned, p));
          if (p.z < body.top_mm.z) {
            metal_mm3 += grid.voxel_volume_mm3();
          } else {
            ++post;
            EXPECT_LT(tooth.crown_mm(p), -0.5) << "metal that stands out of the crown";
          }
        } else if (off < -kHalfVoxel_mm) {
          ADD_FAILURE() << "no metal at " << p.x << ' ' << p.y << ' ' << p.z;
        }
        crown += tissue == Tissue::kEnamel ? 1 : 0;
        if (off < -kHalfVoxel_mm) {
          EXPECT_EQ(volume.density_mg_per_cm3[i],
                    specimen::facts_of(Tissue::kTitanium).density_mg_per_cm3);
        }
      }
    }
  }
  const double area = math::kPi * body.radius_mm * body.radius_mm;
  const double exact_mm3 = area * (body.length_mm + body.point_mm / 3.0);
  EXPECT_NEAR(metal_mm3, exact_mm3, 0.02 * exact_mm3);
  // A voxel reaches half its width beyond its middle.
  EXPECT_NEAR(nearest - kHalfVoxel_mm, spacing(jaw, planned), kHalfVoxel_mm);
  // Along its normal the density passes half between metal and bone where the surface is.
  const double half = 0.5 * specimen::facts_of(Tissue::kTitanium).density_mg_per_cm3;
  base::Rng rng(5);
  for (int i = 0; i < 500; ++i) {
    const double around = rng.uniform(0.0, 1.0);
    const Vec3 p = surface_mm(body, around, rng.uniform(1.15, 1.95));
    const double down = specimen::body_coordinates(body, p).down_mm;
    const Vec3 normal = (p - body.top_mm - down * body.down_unit) / body.radius_mm;
    EXPECT_GT(volume::density_at(volume, pose.to_core(p - kHalfVoxel_mm * normal)), half);
    EXPECT_LT(volume::density_at(volume, pose.to_core(p + kHalfVoxel_mm * normal)), half + 875.0);
  }
  EXPECT_GT(post, 500);
  EXPECT_GT(crown, 10000);
}

TEST(OtherImplant, ImpossiblePlacesAreRefusedWithTheReason) {
  const auto sentence = [](const specimen::JawSpec& spec) {
    const auto checked = validated(spec);
    return checked ? std::string() : checked.error().message;
  };
  // With the molar behind it, where the jaw is wide enough for the canal.
  const auto beside = [](double at_mm) {
    specimen::JawSpec spec = beside_implant(at_mm);
    spec.teeth.push_back({37, 11.2, 0.2, 2.6, -3.0, 6.0, 1.0});
    return spec;
  };
  EXPECT_EQ(sentence(beside(-8.0)), "");
  specimen::JawSpec spec = beside(-8.0);
  spec.teeth[0].implant->diameter_mm = 9.0;
  EXPECT_EQ(sentence(spec), "Teeth: 35: implant.diameter_mm is 9, expected 2 to 7");
  spec = beside(-8.0);
  spec.teeth[0].implant->length_mm = 15.0;
  EXPECT_EQ(sentence(spec), "The implant under crown 35 goes through the canal");
  spec = beside(-8.0);
  spec.teeth.push_back({34, -13.5, 0.0, 2.0, 34.0, 0.0, 1.0});
  EXPECT_EQ(sentence(spec), "Teeth 35 and 34 run through one another");
  spec = beside(-8.0);
  spec.teeth[0].lean_bl_deg = 39.0;
  EXPECT_EQ(sentence(spec), "The implant under crown 35 ends outside the bone");
  EXPECT_EQ(sentence(beside(-2.0)), "Tooth 35 stands where the implant is to go");
  spec = typical_jaw(specimen::JawRegion::kPosteriorMaxilla);
  spec.teeth = {{15, -8.0, 1.0, 2.0, 0.0, 0.0, 1.0, specimen::ImplantRoot{4.0, 14.0, 2.0}}};
  spec.sinus->mesial_end_mm = -30.0;
  EXPECT_EQ(sentence(spec), "The implant under crown 15 ends in an air space");
}

// Random jaws beside an implant can exist too, and keep it.
TEST(OtherImplant, DrawnJawsKeepIt) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const auto drawn = drawn_jaw(beside_implant(-8.0), seed);
    ASSERT_TRUE(drawn.has_value()) << drawn.error().message;
    EXPECT_EQ(drawn->teeth[0].implant, (specimen::ImplantRoot{4.2, 9.0, 2.0}));
  }
}

TEST(OtherImplant, BoneAlongALineEndsAtIt) {
  const Jaw jaw(beside_implant(-8.0));
  const auto bone = bone_along(jaw, {-1.0, 0.0, -4.0}, {-1.0, 0.0, 0.0});
  EXPECT_EQ(bone.ends_at, "other implant");
  EXPECT_NEAR(bone.length_mm, 7.0 - 2.1, 0.05);
}

}  // namespace
}  // namespace driftbench
