// Shapes built in code: sizes as the kit says, surfaces that face outward.
#include "render/drill_mesh.h"
#include "render/fixture_meshes.h"
#include "render/implant_mesh.h"

#include <glm/geometric.hpp>
#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::render {
namespace {

specimen::Drill drill_of(specimen::DrillKind kind, double diameter_mm) {
  specimen::Drill drill;
  drill.kind = kind;
  drill.diameter_mm = diameter_mm;
  drill.body_length_mm = 18.0;
  return drill;
}

/// Share of the area whose winding agrees with the normals of its corners.
double facing_share(const MeshData& mesh) {
  double agree = 0.0;
  double all = 0.0;
  for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
    const Vertex& a = mesh.vertices[mesh.indices[i]];
    const Vertex& b = mesh.vertices[mesh.indices[i + 1]];
    const Vertex& c = mesh.vertices[mesh.indices[i + 2]];
    const glm::vec3 area = glm::cross(b.position - a.position, c.position - a.position);
    const double size = static_cast<double>(glm::length(area));
    all += size;
    agree += glm::dot(area, a.normal + b.normal + c.normal) > 0.0F ? size : 0.0;
  }
  return agree / all;
}

/// Volume inside a closed surface by the divergence theorem.
double enclosed_mm3(const MeshData& mesh) {
  double sixfold = 0.0;
  for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
    const glm::dvec3 a(mesh.vertices[mesh.indices[i]].position);
    const glm::dvec3 b(mesh.vertices[mesh.indices[i + 1]].position);
    const glm::dvec3 c(mesh.vertices[mesh.indices[i + 2]].position);
    sixfold += glm::dot(a, glm::cross(b, c));
  }
  return sixfold / 6.0;
}

void expect_sound(const MeshData& mesh) {
  ASSERT_FALSE(mesh.indices.empty());
  ASSERT_LT(mesh.vertices.size(), 65536U);  // indices have 16 bits
  for (const std::uint16_t index : mesh.indices) {
    ASSERT_LT(index, mesh.vertices.size());
  }
  for (const Vertex& vertex : mesh.vertices) {
    ASSERT_NEAR(glm::length(vertex.normal), 1.0F, 1e-3F);
  }
  // Normals by differences cannot follow the sharpest flute edges everywhere.
  EXPECT_GT(facing_share(mesh), 0.99);
}

TEST(DrillMesh, EveryKindIsSoundAndKeepsItsDiameter) {
  for (const specimen::DrillKind kind : {specimen::DrillKind::kTwist, specimen::DrillKind::kStarter,
                                         specimen::DrillKind::kSideCutter}) {
    for (const double diameter_mm : {2.0, 2.7, 4.0}) {
      const specimen::Drill drill = drill_of(kind, diameter_mm);
      const MeshData mesh = drill_mesh(drill);
      expect_sound(mesh);
      const DrillLengths lengths = lengths_of(drill);
      double widest = 0.0;
      double lowest = 1.0;
      for (const Vertex& vertex : mesh.vertices) {
        lowest = std::min(lowest, static_cast<double>(vertex.position.z));
        if (static_cast<double>(vertex.position.z) < lengths.body_end_mm - 1e-3) {
          widest = std::max(widest,
                            static_cast<double>(std::hypot(vertex.position.x, vertex.position.y)));
        }
      }
      EXPECT_NEAR(widest, 0.5 * diameter_mm, 0.03);
      EXPECT_NEAR(lowest, 0.0, 1e-6);
    }
  }
}

TEST(DrillMesh, PointIsTheConeOfTheKit) {
  // 118 degrees, 2.0 mm: 0.601 mm high.
  const specimen::Drill drill = drill_of(specimen::DrillKind::kTwist, 2.0);
  EXPECT_NEAR(lengths_of(drill).point_mm, 0.601, 5e-4);
  const double slope = std::tan(59.0 * std::acos(-1.0) / 180.0);
  for (const Vertex& vertex : drill_mesh(drill).vertices) {
    const double radius = static_cast<double>(std::hypot(vertex.position.x, vertex.position.y));
    EXPECT_LE(radius, static_cast<double>(vertex.position.z) * slope + 1e-4);
  }
}

TEST(ImplantMesh, IsSoundAndKeepsItsDiameterAndLength) {
  specimen::Implant implant;
  implant.diameter_mm = 4.5;
  implant.length_mm = 10.0;
  const MeshData mesh = implant_mesh(implant);
  expect_sound(mesh);
  expect_sound(driver_mesh(implant));
  double widest = 0.0;
  double highest = 0.0;
  for (const Vertex& vertex : mesh.vertices) {
    widest =
        std::max(widest, static_cast<double>(std::hypot(vertex.position.x, vertex.position.y)));
    highest = std::max(highest, static_cast<double>(vertex.position.z));
  }
  EXPECT_NEAR(widest, 2.25, 0.01);
  EXPECT_NEAR(highest, 10.0, 1e-4);
  // Between a rod of the core's diameter and one of the threads'.
  const double pi = std::acos(-1.0);
  EXPECT_GT(enclosed_mm3(mesh), pi * 1.3 * 1.3 * 8.5);
  EXPECT_LT(enclosed_mm3(mesh), pi * 2.25 * 2.25 * 10.0);
}

TEST(ImplantMesh, TurnsInWhenTurnedClockwise) {
  // A right-handed thread: a quarter turn counter-clockwise seen from the platform, and a quarter
  // of the lead higher, the surface is the same (lead 1.2 mm, in the cylindrical part).
  specimen::Implant implant;
  implant.diameter_mm = 4.5;
  implant.length_mm = 10.0;
  const MeshData mesh = implant_mesh(implant);
  const auto crest_height = [&](double angle) {
    double best = 0.0;
    double at = 0.0;
    for (const Vertex& vertex : mesh.vertices) {
      const double turn = std::atan2(static_cast<double>(vertex.position.y),
                                     static_cast<double>(vertex.position.x));
      const double radius = static_cast<double>(std::hypot(vertex.position.x, vertex.position.y));
      const double z = static_cast<double>(vertex.position.z);
      if (std::fabs(turn - angle) < 0.02 && z > 6.0 && z < 6.6 && radius > best + 1e-4) {
        best = radius;
        at = z;
      }
    }
    return at;
  };
  const double eighth = 2.0 * std::acos(-1.0) / 12.0;
  double rise = crest_height(eighth) - crest_height(0.0);  // 0.1 mm, up to a pitch of 0.6
  rise -= 0.6 * std::floor(rise / 0.6);
  EXPECT_NEAR(rise, 0.1, 0.09);
}

TEST(FixtureMeshes, AreSound) {
  expect_sound(handpiece_mesh());
  expect_sound(stop_mesh(1.0));
  const specimen::Sleeve sleeve{"s", 5.2, 4.5, 6.2};
  expect_sound(sleeve_mesh(sleeve));
  expect_sound(key_mesh({"k", "d", 5.15, 2.05, 1.5}, sleeve));
  GuideShape shape;
  shape.sole_mm = {{{10, 10, -3.5F}, {-10, 10, -4.0F}, {-10, -10, -9.0F}, {10, -10, -3.5F}}};
  shape.sleeve_outer_diameter_mm = 6.2;
  shape.sleeve_height_mm = 4.5;
  expect_sound(guide_mesh(shape));
  shape.lift_mm = {0.0F, 2.5F, 4.0F, 0.0F};
  expect_sound(guide_mesh(shape));
  expect_sound(crumb_mesh());
}

TEST(FixtureMeshes, SleeveHoldsTheVolumeOfItsTube) {
  const MeshData mesh = sleeve_mesh({"s", 5.2, 4.5, 6.2});
  const double tube = std::acos(-1.0) * (3.1 * 3.1 - 2.6 * 2.6) * 4.5;
  // The rim adds, the rounded edges and the 64 sides take a little.
  EXPECT_NEAR(enclosed_mm3(mesh), tube, 0.16 * tube);
}

TEST(FixtureMeshes, EveryFootReachesItsPlace) {
  GuideShape shape;
  shape.sole_mm = {{{9, 7, -3.5F}, {-11, 4, 1.5F}, {-12, -6, -9.0F}, {10, -10, -5.0F}}};
  shape.lift_mm = {0.0F, 3.0F, 0.0F, 0.0F};  // over a crown
  shape.sleeve_outer_diameter_mm = 6.2;
  shape.sleeve_height_mm = 4.5;
  const MeshData mesh = guide_mesh(shape);
  for (const glm::vec3& sole : shape.sole_mm) {
    float lowest = 100.0F;
    for (const Vertex& vertex : mesh.vertices) {
      if (glm::length(glm::vec2(vertex.position) - glm::vec2(sole)) < 3.5F) {
        lowest = std::min(lowest, vertex.position.z);
      }
    }
    EXPECT_NEAR(lowest, sole.z, 1e-4F);
  }
}

TEST(RoundedBox, HoldsTheVolumeOfARoundedBox) {
  MeshData mesh;
  const float r = 0.4F;
  add_rounded_box(mesh, glm::mat4(1.0F), {2.0F, 1.5F, 1.0F}, r);
  expect_sound(mesh);
  // Steiner's formula: inner box, slabs on its faces, quarter rods along its edges, one ball.
  const double x = 3.2;
  const double y = 2.2;
  const double z = 1.2;
  const double rounded = x * y * z + 2.0 * 0.4 * (x * y + y * z + z * x) +
                         std::acos(-1.0) * 0.16 * (x + y + z) + 4.0 / 3.0 * std::acos(-1.0) * 0.064;
  // Six flat pieces for a quarter turn lose about one per cent of the rods.
  EXPECT_NEAR(enclosed_mm3(mesh), rounded, 0.005 * rounded);
}

}  // namespace
}  // namespace driftbench::render
