#include "specimen/tube.h"

#include "base/contract.h"
#include "specimen/shape_functions.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {

double signed_distance_mm(const Tube& tube, const math::Vec3& p) {
  DRIFTBENCH_EXPECTS(tube.centre_mm.size() >= 2);
  double best = math::length2(p - tube.centre_mm.back());
  for (std::size_t i = 0; i + 1 < tube.centre_mm.size(); ++i) {
    const math::Vec3 from = p - tube.centre_mm[i];
    const math::Vec3 along = tube.centre_mm[i + 1] - tube.centre_mm[i];
    const double length2 = math::dot(along, along);
    const double start = math::dot(from, from);
    // Farther from its start than the best so far and its own length: cannot be nearer.
    if (start > 2.0 * (best + length2)) {
      continue;
    }
    const double t = std::clamp(math::dot(from, along) / length2, 0.0, 1.0);
    const math::Vec3 off = from - t * along;
    best = std::min(best, math::dot(off, off));
  }
  return std::sqrt(best) - tube.radius_mm;
}

std::vector<math::Vec3> smooth_curve(const std::vector<math::Vec3>& points, int pieces) {
  DRIFTBENCH_EXPECTS(points.size() >= 2 && pieces >= 1);
  std::vector<math::Vec3> curve;
  const std::size_t last = points.size() - 1;
  for (std::size_t i = 0; i < last; ++i) {
    const math::Vec3& before = points[i == 0 ? 0 : i - 1];
    const math::Vec3& after = points[std::min(i + 2, last)];
    const math::Vec3 out = 0.5 * (points[i + 1] - before);
    const math::Vec3 in = 0.5 * (after - points[i]);
    for (int k = 0; k < pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      curve.push_back(hermite(t, 1.0, points[i], out, points[i + 1], in));
    }
  }
  curve.push_back(points[last]);
  return curve;
}

}  // namespace driftbench::specimen
