#include "specimen/revolved_body.h"

#include "math/angle.h"
#include "math/elementary.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::specimen {
namespace {

/// Nearest point of the outline in the half plane through the axis.
struct OutlinePoint {
  double out_mm;
  double down_mm;
  double distance_mm;
};

OutlinePoint nearest_on_outline(const RevolvedBody& body, const BodyCoordinates& q) {
  const std::array<BodyCoordinates, 4> corners{{{0.0, 0.0},
                                                {body.radius_mm, 0.0},
                                                {body.radius_mm, body.length_mm},
                                                {0.0, body.length_mm + body.point_mm}}};
  OutlinePoint best{0.0, 0.0, -1.0};
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    const BodyCoordinates& a = corners[i];
    const double dx = corners[i + 1].out_mm - a.out_mm;
    const double dy = corners[i + 1].down_mm - a.down_mm;
    const double along = (q.out_mm - a.out_mm) * dx + (q.down_mm - a.down_mm) * dy;
    const double t = std::clamp(along / (dx * dx + dy * dy), 0.0, 1.0);
    const double x = a.out_mm + t * dx;
    const double y = a.down_mm + t * dy;
    const double off =
        std::sqrt((q.out_mm - x) * (q.out_mm - x) + (q.down_mm - y) * (q.down_mm - y));
    if (best.distance_mm < 0.0 || off < best.distance_mm) {
      best = {x, y, off};
    }
  }
  return best;
}

bool is_inside(const RevolvedBody& body, const BodyCoordinates& q) {
  if (q.down_mm < 0.0 || q.out_mm > body.radius_mm) {
    return false;
  }
  const double below = q.down_mm - body.length_mm;
  return below <= 0.0 || (below < body.point_mm &&
                          q.out_mm * body.point_mm <= body.radius_mm * (body.point_mm - below));
}

}  // namespace

BodyCoordinates body_coordinates(const RevolvedBody& body, const math::Vec3& p) {
  const math::Vec3 from_top = p - body.top_mm;
  const double down = math::dot(from_top, body.down_unit);
  return {math::length(from_top - down * body.down_unit), down};
}

double signed_distance_mm(const RevolvedBody& body, const math::Vec3& p) {
  const BodyCoordinates q = body_coordinates(body, p);
  const double distance = nearest_on_outline(body, q).distance_mm;
  return is_inside(body, q) ? -distance : distance;
}

math::Vec3 surface_mm(const RevolvedBody& body, double u, double v) {
  const math::Vec3 x = math::any_perpendicular(body.down_unit);
  const math::Vec3 y = math::cross(body.down_unit, x);
  const math::SinCos at = math::sincos(2.0 * math::kPi * u);
  double out = body.radius_mm;
  double down = 0.0;
  if (v < 1.0) {
    out *= v;
  } else if (v < 2.0) {
    down = (v - 1.0) * body.length_mm;
  } else {
    out *= 3.0 - v;
    down = body.length_mm + (v - 2.0) * body.point_mm;
  }
  return body.top_mm + down * body.down_unit + out * (at.cos * x + at.sin * y);
}

math::Vec3 nearest_on_body(const RevolvedBody& body, const math::Vec3& p) {
  const BodyCoordinates q = body_coordinates(body, p);
  const OutlinePoint nearest = nearest_on_outline(body, q);
  const math::Vec3 across = p - body.top_mm - q.down_mm * body.down_unit;
  const math::Vec3 out_unit =
      q.out_mm > 0.0 ? across / q.out_mm : math::any_perpendicular(body.down_unit);
  return body.top_mm + nearest.down_mm * body.down_unit + nearest.out_mm * out_unit;
}

}  // namespace driftbench::specimen
