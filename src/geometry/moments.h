// Area, centroid and second moments of a plane region, and the ellipse that has the same.
#pragma once

#include "math/angle.h"
#include "math/vec.h"

namespace driftbench::geometry {

/// Ellipse with the same second moments as a region.
struct EquivalentEllipse {
  double major_diameter_mm = 0.0;
  double minor_diameter_mm = 0.0;
  math::Radians orientation;  ///< of the major axis from +x, in [0, pi); 0 for a circle
};

/// Adds up squares (pixels) of a plane region.
class RegionMoments {
 public:
  /// Adds an axis-parallel square of which a part is covered; its own second moment counts too.
  /// Contract: side_mm > 0, coverage_frac in [0, 1].
  void add_square(const math::Vec2& centre, double side_mm, double coverage_frac = 1.0);

  /// Adds an area without extent of its own. Contract: area_mm2 >= 0.
  void add_point(const math::Vec2& position, double area_mm2);

  [[nodiscard]] bool is_empty() const { return !(area_mm2_ > 0.0); }

  [[nodiscard]] double area_mm2() const { return area_mm2_; }

  /// Contract of the following: not empty.
  [[nodiscard]] math::Vec2 centroid() const;
  /// Diameter of the circle of the same area.
  [[nodiscard]] double equivalent_diameter_mm() const;
  /// Diameters 4 sqrt(eigenvalue of the covariance): exact for ellipses. Of partly covered border
  /// squares the centre counts, so they come out too large by about 1.7 side^2 / diameter.
  [[nodiscard]] EquivalentEllipse ellipse() const;

 private:
  void add_area(const math::Vec2& position, double area_mm2, double own_moment_mm4);

  double area_mm2_ = 0.0;
  math::Vec2 origin_{0.0};  // first position: keeps the sums small
  math::Vec2 first_{0.0};   // sum of area * offset
  double xx_ = 0.0;
  double xy_ = 0.0;
  double yy_ = 0.0;
};

}  // namespace driftbench::geometry
