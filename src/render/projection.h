// From points in the site frame to picture pixels and back. Pure: no GL.
#pragma once

#include "math/vec.h"
#include "render/camera.h"

#include <optional>

namespace driftbench::render {

/// Size of a picture; any unit of length on the screen will do (device or logical pixels).
struct PictureSize {
  double width_px = 1.0;
  double height_px = 1.0;
};

/// Half line from the eye into the scene.
struct Ray {
  math::Vec3 origin_mm{0.0};
  math::Vec3 direction_unit{0.0, 1.0, 0.0};
};

/// Eye and axes of a camera. Frame: site frame, right-handed (right, up, backward).
struct CameraFrame {
  math::Vec3 eye_mm{0.0};
  math::Vec3 right_unit{1.0, 0.0, 0.0};
  math::Vec3 up_unit{0.0, 0.0, 1.0};
  math::Vec3 forward_unit{0.0, 1.0, 0.0};
};

/// Eye and axes; defined for every elevation, straight down included.
[[nodiscard]] CameraFrame frame_of(const Camera& camera);

/// Pixel of a point, origin top left, y down; nothing for a point at or behind the eye.
///
/// Frame: site frame -> picture. The pixel may lie outside of the picture.
[[nodiscard]] std::optional<math::Vec2> to_pixel(const Camera& camera, const PictureSize& size,
                                                 const math::Vec3& point_mm);

/// Ray through a pixel, origin top left, y down.
[[nodiscard]] Ray ray_through(const Camera& camera, const PictureSize& size,
                              const math::Vec2& pixel);

/// Where a ray meets a plane; nothing when it runs parallel to it or away from it.
[[nodiscard]] std::optional<math::Vec3> on_plane(const Ray& ray, const math::Vec3& plane_point_mm,
                                                 const math::Vec3& normal_unit);

/// Size of one pixel at the distance of a point.
///
/// Unit: mm per pixel; 0 for a point at or behind the eye
[[nodiscard]] double mm_per_pixel(const Camera& camera, const PictureSize& size,
                                  const math::Vec3& point_mm);

}  // namespace driftbench::render
