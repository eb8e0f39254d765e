#include "render/projection.h"

#include "math/angle.h"

#include <cmath>

namespace driftbench::render {
namespace {

constexpr double kNearest_mm = 1e-6;

double radians(double degrees) {
  return math::Radians(math::Degrees(degrees)).value;
}

/// Half the height of the picture at a distance of 1.
double half_height(const Camera& camera) {
  return std::tan(0.5 * radians(camera.field_of_view_deg));
}

}  // namespace

CameraFrame frame_of(const Camera& camera) {
  const double heading = radians(camera.heading_deg);
  const double elevation = radians(camera.elevation_deg);
  const math::Vec3 level(std::sin(heading), -std::cos(heading), 0.0);
  const math::Vec3 toward_eye =
      std::cos(elevation) * level + math::Vec3(0.0, 0.0, std::sin(elevation));
  CameraFrame frame;
  frame.eye_mm = camera.target_mm + camera.distance_mm * toward_eye;
  frame.forward_unit = -toward_eye;
  frame.right_unit = math::Vec3(std::cos(heading), std::sin(heading), 0.0);
  frame.up_unit = math::cross(frame.right_unit, frame.forward_unit);
  return frame;
}

std::optional<math::Vec2> to_pixel(const Camera& camera, const PictureSize& size,
                                   const math::Vec3& point_mm) {
  const CameraFrame frame = frame_of(camera);
  const math::Vec3 offset = point_mm - frame.eye_mm;
  const double depth = math::dot(offset, frame.forward_unit);
  if (!(depth > kNearest_mm)) {
    return std::nullopt;
  }
  const double pixels_per_unit = 0.5 * size.height_px / (half_height(camera) * depth);
  return math::Vec2(0.5 * size.width_px + math::dot(offset, frame.right_unit) * pixels_per_unit,
                    0.5 * size.height_px - math::dot(offset, frame.up_unit) * pixels_per_unit);
}

Ray ray_through(const Camera& camera, const PictureSize& size, const math::Vec2& pixel) {
  const CameraFrame frame = frame_of(camera);
  const double units_per_pixel = 2.0 * half_height(camera) / size.height_px;
  const double right = (pixel.x - 0.5 * size.width_px) * units_per_pixel;
  const double up = (0.5 * size.height_px - pixel.y) * units_per_pixel;
  const math::Vec3 direction = frame.forward_unit + right * frame.right_unit + up * frame.up_unit;
  return {frame.eye_mm, direction / math::length(direction)};
}

std::optional<math::Vec3> on_plane(const Ray& ray, const math::Vec3& plane_point_mm,
                                   const math::Vec3& normal_unit) {
  const double approach = math::dot(ray.direction_unit, normal_unit);
  if (std::fabs(approach) < 1e-9) {
    return std::nullopt;
  }
  const double distance = math::dot(plane_point_mm - ray.origin_mm, normal_unit) / approach;
  if (distance < 0.0) {
    return std::nullopt;
  }
  return ray.origin_mm + distance * ray.direction_unit;
}

double mm_per_pixel(const Camera& camera, const PictureSize& size, const math::Vec3& point_mm) {
  const CameraFrame frame = frame_of(camera);
  const double depth = math::dot(point_mm - frame.eye_mm, frame.forward_unit);
  return depth > kNearest_mm ? 2.0 * half_height(camera) * depth / size.height_px : 0.0;
}

}  // namespace driftbench::render
