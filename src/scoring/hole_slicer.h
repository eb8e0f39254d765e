// Plane sections through a hole: area, centroid and second moments, freed of the surface ramp's
// blur.
#pragma once

#include "math/vec.h"
#include "scoring/removed_region.h"

namespace driftbench::scoring {

/// Planes at right angles to an axis, addressed by their distance along it.
///
/// Frame: right angles between all three; `down_unit` is the direction of growing depth
struct SlicePlanes {
  math::Vec3 origin_mm{0.0, 0.0, 0.0};  ///< depth 0, in-plane (0, 0)
  math::Vec3 first_unit{1.0, 0.0, 0.0};
  math::Vec3 second_unit{0.0, 1.0, 0.0};
  math::Vec3 down_unit{0.0, 0.0, -1.0};

  [[nodiscard]] math::Vec3 point_mm(double first, double second, double depth) const {
    return origin_mm + first * first_unit + second * second_unit + depth * down_unit;
  }
};

/// What one plane shows.
struct Section {
  double depth_mm = 0.0;
  double raw_area_mm2 = 0.0;  ///< sum of removed fractions
  math::Vec2 centroid_mm{0.0, 0.0};
  double diameter_mm = 0.0;  ///< of the disc with the same area
  double major_mm = 0.0;     ///< diameters of the ellipse with the same second moments
  double minor_mm = 0.0;
  double heading_rad = 0.0;  ///< of the major axis from first toward second, [0, pi)
};

/// Range of depths and in-plane coordinates that a region can fill.
struct SliceExtent {
  math::Vec3 low{0.0, 0.0, 0.0};  ///< first, second, depth
  math::Vec3 high{0.0, 0.0, 0.0};
};

[[nodiscard]] SliceExtent extent_of(const RemovedRegion& region, const SlicePlanes& planes);

/// Section at one depth, resampled trilinearly.
///
/// Unit:   mm, mm^2. Diameters hold for walls along the axis
/// Source: area of a disc with a linear edge ramp of half width w: pi (R^2 + w^2/3); its variance
///         about a diameter R^2/4 + 5 w^2/12 to second order, plus h^2/6 from linear interpolation
///         on spacing h (all derived by integration)
/// Cost:   area / (spacing/2)^2 samples, no allocation
[[nodiscard]] Section section_at(const RemovedRegion& region, const SlicePlanes& planes,
                                 const SliceExtent& extent, double depth_mm);

/// Only the removed area at one depth [mm^2].
[[nodiscard]] double raw_area_at(const RemovedRegion& region, const SlicePlanes& planes,
                                 const SliceExtent& extent, double depth_mm);

/// Half width of the surface ramp of a region's lattice [mm].
[[nodiscard]] double ramp_mm(const RemovedRegion& region);

}  // namespace driftbench::scoring
