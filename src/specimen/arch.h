// The bend of a jaw section: stations along the arch and sections across it.
#pragma once

#include "math/vec.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {

/// A dental arch as a circle about a vertical line on the lingual side; curvature 0 is straight.
///
/// Frame: jaw frame: origin on the crest at the site, +x distal, +y lingual, +z out of the bone.
///        Arch coordinates: station (mm along the arch at the middle; the tangent of the angle
///        times the radius), lateral (+ lingual, exact distance along the radius), z
struct Arch {
  /// Nearer to the middle of the circle than this share of its radius nothing is bent further.
  static constexpr double kLeastShare = 0.05;

  double curvature_per_mm = 0.0;  ///< 1 / radius; front teeth about 1/20 to 1/25

  [[nodiscard]] math::Vec3 to_arch(const math::Vec3& p) const {
    const double k = curvature_per_mm;
    if (k == 0.0) {
      return p;
    }
    const double inner = std::max(1.0 - k * p.y, kLeastShare);
    const double along = k * p.x;
    return {p.x / inner, (1.0 - std::sqrt(along * along + inner * inner)) / k, p.z};
  }

  [[nodiscard]] math::Vec3 from_arch(const math::Vec3& q) const {
    const double k = curvature_per_mm;
    if (k == 0.0) {
      return q;
    }
    const double tangent = k * q.x;
    const double cosine = 1.0 / std::sqrt(1.0 + tangent * tangent);
    const double from_axis = 1.0 - k * q.y;
    return {from_axis * q.x * cosine, (1.0 - from_axis * cosine) / k, q.z};
  }

  /// Unit direction along the arch (+ distal) at a station.
  [[nodiscard]] math::Vec3 distal_at(double station_mm) const {
    const double tangent = curvature_per_mm * station_mm;
    const double cosine = 1.0 / std::sqrt(1.0 + tangent * tangent);
    return {cosine, tangent * cosine, 0.0};
  }

  friend bool operator==(const Arch&, const Arch&) = default;
};

}  // namespace driftbench::specimen
