#include "scoring/hole_rim.h"

#include "math/angle.h"
#include "math/elementary.h"
#include "scoring/removed_region.h"

namespace driftbench::scoring {

namespace {

/// Points on the ring: the error of a sloped rim is below 0.5 % of the radius.
constexpr int kRingPoints = 32;

}  // namespace

bool is_ring_in_material(const volume::Volume& volume, const SlicePlanes& planes,
                         const math::Vec2& centre_mm, double radius_mm, double depth_mm) {
  for (int i = 0; i < kRingPoints; ++i) {
    const math::SinCos turn = math::sincos(2.0 * math::kPi * i / kRingPoints);
    const math::Vec3 point = planes.point_mm(centre_mm.x + radius_mm * turn.cos,
                                             centre_mm.y + radius_mm * turn.sin, depth_mm);
    if (sample_frac(volume.grid, volume.initial_coverage, point) < 0.5) {
      return false;
    }
  }
  return true;
}

std::optional<double> find_rim_mm(const volume::Volume& volume, const SlicePlanes& planes,
                                  double radius_mm, double from_mm, double to_mm) {
  const auto is_inside = [&](double depth) {
    return is_ring_in_material(volume, planes, math::Vec2(0.0), radius_mm, depth);
  };
  // Walk down to the first depth inside, then halve the last stretch.
  const double stride = volume.grid.spacing_mm;
  double outside = from_mm;
  double inside = from_mm;
  while (!is_inside(inside)) {
    outside = inside;
    inside += stride;
    if (inside > to_mm) {
      return std::nullopt;
    }
  }
  constexpr int kHalvings = 14;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = 0.5 * (outside + inside);
    (is_inside(middle) ? inside : outside) = middle;
  }
  return inside;
}

}  // namespace driftbench::scoring
