// The dashed plan's outline and the crumbs of drilling.
#include "render/overlay.h"

#include "render/projection.h"

#include <glm/geometric.hpp>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::render {
namespace {

TEST(PlanOutline, LiesOnThePlannedCylinder) {
  const specimen::Plan plan;
  Scene scene;
  scene.plan = &plan;
  scene.planned_diameter_mm = 4.5;
  const Lines lines = plan_outline(scene, Camera{});
  ASSERT_GT(lines.count, 40);
  for (int i = 0; i < 2 * lines.count; ++i) {
    const glm::vec4 end = lines.ends[static_cast<std::size_t>(i)];
    EXPECT_NEAR(std::hypot(end.x, end.y), 2.25F, 1e-5F);
    EXPECT_LE(end.z, 1e-5F);
    EXPECT_GE(end.z, -10.0F - 1e-5F);
  }
}

TEST(PlanOutline, EdgesAreTheWidestPartOfThePicture) {
  const specimen::Plan plan;
  Scene scene;
  scene.plan = &plan;
  const Camera camera;
  const PictureSize size{950.0, 700.0};
  const Lines lines = plan_outline(scene, camera);
  double rim_left = 1e9;
  double edge_left = 1e9;
  for (int i = 0; i < lines.count; ++i) {
    for (int end = 0; end < 2; ++end) {
      const glm::vec4 p = lines.ends[static_cast<std::size_t>(2 * i + end)];
      const double x = to_pixel(camera, size, math::Vec3(p.x, p.y, p.z))->x;
      double& left = i < lines.count - 2 ? rim_left : edge_left;
      left = std::min(left, x);
    }
  }
  // The two edges come last and touch the rims' outermost points within two pixels (perspective).
  EXPECT_NEAR(edge_left, rim_left, 2.0);
}

TEST(PlanAxis, ReachesBeyondEntryAndApex) {
  const specimen::Plan plan;
  Scene scene;
  scene.plan = &plan;
  const Lines lines = plan_axis(scene);
  ASSERT_EQ(lines.count, 1);
  EXPECT_GT(lines.ends[0].z, 0.0F);
  EXPECT_LT(lines.ends[1].z, -10.0F);
}

TEST(Water, RunsOnlyWithIrrigationAndADrill) {
  const specimen::Plan plan;
  specimen::Drill drill;
  drill.diameter_mm = 2.0;
  drill.body_length_mm = 18.0;
  Scene scene;
  scene.plan = &plan;
  scene.drill = &drill;
  const VolumeTexture volume;
  EXPECT_EQ(water_of(scene, volume).count, 0);
  scene.drill = nullptr;
  scene.irrigation = true;
  EXPECT_EQ(water_of(scene, volume).count, 0);
}

TEST(Lines, IgnoresWhatDoesNotFit) {
  Lines lines;
  for (int i = 0; i < kMostLines + 10; ++i) {
    lines.add(glm::vec3(0.0F), glm::vec3(1.0F), 0.0F, 1.0F);
  }
  EXPECT_EQ(lines.count, kMostLines);
}

}  // namespace
}  // namespace driftbench::render
