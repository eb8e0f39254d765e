// Points to pixels and back.
#include "render/projection.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::render {
namespace {

constexpr PictureSize kSize{950.0, 700.0};

Camera random_camera(base::Rng& rng) {
  Camera camera;
  camera.heading_deg = rng.uniform(-180.0, 180.0);
  camera.elevation_deg = rng.uniform(-10.0, 90.0);
  camera.distance_mm = rng.uniform(30.0, 200.0);
  camera.field_of_view_deg = rng.uniform(10.0, 60.0);
  const double x = rng.uniform(-5.0, 5.0);
  const double y = rng.uniform(-5.0, 5.0);
  camera.target_mm = {x, y, rng.uniform(-20.0, 5.0)};
  return camera;
}

TEST(Projection, TargetIsInTheMiddle) {
  base::Rng rng(11);
  for (int i = 0; i < 100; ++i) {
    const Camera camera = random_camera(rng);
    const std::optional<math::Vec2> pixel = to_pixel(camera, kSize, camera.target_mm);
    ASSERT_TRUE(pixel);
    EXPECT_NEAR(pixel->x, 475.0, 1e-9);
    EXPECT_NEAR(pixel->y, 350.0, 1e-9);
  }
}

TEST(Projection, FrontLookHasXToTheRightAndSideLookHasY) {
  Camera front;
  front.target_mm = {0.0, 0.0, 0.0};
  Camera side = front;
  side.heading_deg = 90.0;
  EXPECT_GT(to_pixel(front, kSize, {1.0, 0.0, 0.0})->x, 475.0);
  EXPECT_NEAR(to_pixel(front, kSize, {0.0, 1.0, 0.0})->x, 475.0, 1e-9);
  EXPECT_GT(to_pixel(side, kSize, {0.0, 1.0, 0.0})->x, 475.0);
  EXPECT_NEAR(to_pixel(side, kSize, {1.0, 0.0, 0.0})->x, 475.0, 1e-9);
  // Up in space is up in the picture, whose y runs down.
  EXPECT_LT(to_pixel(front, kSize, {0.0, 0.0, 1.0})->y, 350.0);
  EXPECT_LT(to_pixel(side, kSize, {0.0, 0.0, 1.0})->y, 350.0);
}

TEST(Projection, RayGoesThroughThePointOfItsPixel) {
  base::Rng rng(12);
  for (int i = 0; i < 500; ++i) {
    const Camera camera = random_camera(rng);
    const double x = rng.uniform(-8.0, 8.0);
    const double y = rng.uniform(-8.0, 8.0);
    const math::Vec3 point = camera.target_mm + math::Vec3(x, y, rng.uniform(-8.0, 8.0));
    const std::optional<math::Vec2> pixel = to_pixel(camera, kSize, point);
    ASSERT_TRUE(pixel);
    const Ray ray = ray_through(camera, kSize, *pixel);
    EXPECT_NEAR(math::length(ray.direction_unit), 1.0, 1e-14);
    const math::Vec3 off = math::cross(point - ray.origin_mm, ray.direction_unit);
    EXPECT_LT(math::length(off), 1e-10);
  }
}

TEST(Projection, OneMillimetreAcrossTheViewIsOneOverMmPerPixel) {
  base::Rng rng(13);
  for (int i = 0; i < 100; ++i) {
    const Camera camera = random_camera(rng);
    const CameraFrame frame = frame_of(camera);
    const math::Vec3 point = camera.target_mm + 3.0 * frame.forward_unit;
    const math::Vec2 a = *to_pixel(camera, kSize, point);
    const math::Vec2 b = *to_pixel(camera, kSize, point + frame.up_unit);
    EXPECT_NEAR(std::fabs(a.y - b.y), 1.0 / mm_per_pixel(camera, kSize, point), 1e-9);
  }
}

TEST(Projection, FieldOfViewIsTheHeightOfThePicture) {
  Camera camera;
  camera.elevation_deg = 0.0;
  camera.target_mm = {0.0, 0.0, 0.0};
  camera.distance_mm = 100.0;
  camera.field_of_view_deg = 90.0;  // tan 45 deg = 1: the picture is 200 mm high
  EXPECT_NEAR(to_pixel(camera, kSize, {0.0, 0.0, 100.0})->y, 0.0, 1e-9);
  EXPECT_NEAR(mm_per_pixel(camera, kSize, camera.target_mm), 200.0 / 700.0, 1e-12);
}

TEST(Projection, LooksStraightDown) {
  Camera camera;
  camera.elevation_deg = 90.0;
  camera.target_mm = {0.0, 0.0, 0.0};
  // With heading 0 the far side (+y) is up in the picture.
  EXPECT_LT(to_pixel(camera, kSize, {0.0, 1.0, 0.0})->y, 350.0);
  EXPECT_GT(to_pixel(camera, kSize, {1.0, 0.0, 0.0})->x, 475.0);
}

TEST(Projection, NothingBehindTheEye) {
  const Camera camera;
  const CameraFrame frame = frame_of(camera);
  EXPECT_FALSE(to_pixel(camera, kSize, frame.eye_mm));
  EXPECT_FALSE(to_pixel(camera, kSize, frame.eye_mm - 5.0 * frame.forward_unit));
  EXPECT_EQ(mm_per_pixel(camera, kSize, frame.eye_mm - 5.0 * frame.forward_unit), 0.0);
}

TEST(OnPlane, MeetsThePlaneAheadOnly) {
  const Ray ray{{0.0, 0.0, 10.0}, {0.0, 0.6, -0.8}};
  const std::optional<math::Vec3> hit = on_plane(ray, {3.0, 3.0, 2.0}, {0.0, 0.0, 1.0});
  ASSERT_TRUE(hit);
  EXPECT_NEAR(hit->z, 2.0, 1e-12);
  EXPECT_NEAR(hit->y, 6.0, 1e-12);
  EXPECT_FALSE(on_plane(ray, {0.0, 0.0, 12.0}, {0.0, 0.0, 1.0}));
  EXPECT_FALSE(on_plane(ray, {0.0, 0.0, 0.0}, {1.0, 0.0, 0.0}));
}

}  // namespace
}  // namespace driftbench::render
