#include "classroom/photo_plane.h"

#include <cmath>

namespace driftbench::classroom {
namespace {

using base::Result;
using math::Mat3;
using math::Vec2;
using math::Vec3;

Vec2 mapped(const Mat3& map, const Vec2& point) {
  const Vec3 image = map * Vec3(point.x, point.y, 1.0);
  return {image.x / image.z, image.y / image.z};
}

double cross2(const Vec2& a, const Vec2& b) {
  return a.x * b.y - a.y * b.x;
}

/// Inverse up to a factor, which a projective map does not notice.
Mat3 adjugate(const Mat3& m) {
  const Vec3 first = cross(m[1], m[2]);
  const Vec3 second = cross(m[2], m[0]);
  const Vec3 third = cross(m[0], m[1]);
  return {Vec3(first.x, second.x, third.x), Vec3(first.y, second.y, third.y),
          Vec3(first.z, second.z, third.z)};
}

tl::unexpected<base::Error> refusal(const char* sentence) {
  return base::fail(base::ErrorCode::kInvalidArgument, sentence);
}

}  // namespace

Result<PhotoPlane> PhotoPlane::from_edge(const std::array<Vec2, 2>& ends_px, double length_mm) {
  const double length_px = length(ends_px[1] - ends_px[0]);
  if (!(length_px > 1.0) || !(length_mm > 0.0)) {
    return refusal("found both ends of the known edge in one place, expected a length");
  }
  const double px = length_px / length_mm;
  const Mat3 map(Vec3(px, 0.0, 0.0), Vec3(0.0, -px, 0.0), Vec3(0.0, 0.0, 1.0));
  return PhotoPlane(map, adjugate(map));
}

Result<PhotoPlane> PhotoPlane::from_corners(const std::array<Vec2, 4>& corners_px, double width_mm,
                                            double height_mm) {
  // Convex and not crossed: every corner turns the same way.
  double turn = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 side = corners_px[(i + 1) % 4] - corners_px[i];
    const Vec2 next = corners_px[(i + 2) % 4] - corners_px[(i + 1) % 4];
    const double here = cross2(side, next);
    if (!(std::abs(here) > 1.0) || here * turn < 0.0) {
      return refusal(
          "found corners that cross or lie in line, expected the four corners in order round the "
          "block");
    }
    turn = here;
  }
  if (!(width_mm > 0.0) || !(height_mm > 0.0)) {
    return refusal("found a side without length, expected lengths above 0");
  }
  const auto& [p0, p1, p2, p3] = corners_px;
  const Vec2 a = p1 - p2;
  const Vec2 b = p3 - p2;
  const Vec2 sum = p0 - p1 + p2 - p3;
  const double denominator = cross2(a, b);
  const double g = cross2(sum, b) / denominator;
  const double h = cross2(a, sum) / denominator;
  // Columns: where the unit square's x, y and origin go.
  const Vec2 x = p1 - p0 + g * p1;
  const Vec2 y = p3 - p0 + h * p3;
  // Pixels run downward: a clockwise figure has y upward against the second side.
  const double up = turn > 0.0 ? -height_mm : height_mm;
  const Mat3 map(Vec3(x.x, x.y, g) / width_mm, Vec3(y.x, y.y, h) / up, Vec3(p0.x, p0.y, 1.0));
  return PhotoPlane(map, adjugate(map));
}

Vec2 PhotoPlane::to_mm(const Vec2& point_px) const {
  return mapped(mm_from_px_, point_px);
}

Vec2 PhotoPlane::to_px(const Vec2& point_mm) const {
  return mapped(px_from_mm_, point_mm);
}

double PhotoPlane::mm_per_px(const Vec2& near_px) const {
  const Vec2 here = to_mm(near_px);
  return 0.5 * (length(to_mm(near_px + Vec2(1.0, 0.0)) - here) +
                length(to_mm(near_px + Vec2(0.0, 1.0)) - here));
}

}  // namespace driftbench::classroom
