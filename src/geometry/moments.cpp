// Sums of a region and its equivalent ellipse.
#include "geometry/moments.h"

#include "base/contract.h"
#include "math/elementary.h"

#include <algorithm>
#include <cmath>

namespace driftbench::geometry {

void RegionMoments::add_square(const math::Vec2& centre, double side_mm, double coverage_frac) {
  DRIFTBENCH_EXPECTS(side_mm > 0.0 && coverage_frac >= 0.0 && coverage_frac <= 1.0);
  // A square of side h has the second moment h^4/12 about either axis through its centre.
  constexpr double kSquareMoment = 12.0;
  const double area_mm2 = side_mm * side_mm * coverage_frac;
  add_area(centre, area_mm2, area_mm2 * side_mm * side_mm / kSquareMoment);
}

void RegionMoments::add_point(const math::Vec2& position, double area_mm2) {
  DRIFTBENCH_EXPECTS(area_mm2 >= 0.0);
  add_area(position, area_mm2, 0.0);
}

void RegionMoments::add_area(const math::Vec2& position, double area_mm2, double own_moment_mm4) {
  if (area_mm2 == 0.0) {
    return;
  }
  if (is_empty()) {
    origin_ = position;
  }
  const math::Vec2 d = position - origin_;
  area_mm2_ += area_mm2;
  first_ += d * area_mm2;
  xx_ += d.x * d.x * area_mm2 + own_moment_mm4;
  xy_ += d.x * d.y * area_mm2;
  yy_ += d.y * d.y * area_mm2 + own_moment_mm4;
}

math::Vec2 RegionMoments::centroid() const {
  DRIFTBENCH_EXPECTS(!is_empty());
  return origin_ + first_ / area_mm2_;
}

double RegionMoments::equivalent_diameter_mm() const {
  DRIFTBENCH_EXPECTS(!is_empty());
  return std::sqrt(4.0 * area_mm2_ / math::kPi);
}

EquivalentEllipse RegionMoments::ellipse() const {
  DRIFTBENCH_EXPECTS(!is_empty());
  // Covariance about the centroid.
  const math::Vec2 mean = first_ / area_mm2_;
  const double xx = xx_ / area_mm2_ - mean.x * mean.x;
  const double yy = yy_ / area_mm2_ - mean.y * mean.y;
  const double xy = xy_ / area_mm2_ - mean.x * mean.y;
  // Its eigenvalues lie at centre +- radius (Mohr's circle); a quarter diameter is their root.
  const double centre = 0.5 * (xx + yy);
  const double half_difference = 0.5 * (xx - yy);
  const double radius = std::sqrt(half_difference * half_difference + xy * xy);
  EquivalentEllipse ellipse;
  ellipse.major_diameter_mm = 4.0 * std::sqrt(std::max(centre + radius, 0.0));
  ellipse.minor_diameter_mm = 4.0 * std::sqrt(std::max(centre - radius, 0.0));
  double angle_rad = 0.5 * math::atan2(xy, half_difference);
  if (angle_rad < 0.0) {
    angle_rad += math::kPi;
  }
  ellipse.orientation = math::Radians(angle_rad);
  return ellipse;
}

}  // namespace driftbench::geometry
