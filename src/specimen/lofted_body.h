// A body lofted along a straight line: roots, crowns, pulps, sockets, sinus and nose.
#pragma once

#include "math/vec.h"

#include <vector>

namespace driftbench::specimen {

/// Cross-section of the body at one height: centre and half axes.
struct LoftStation {
  double height_mm = 0.0;
  double centre_x_mm = 0.0;
  double centre_y_mm = 0.0;
  double half_x_mm = 1.0;
  double half_y_mm = 1.0;
};

/// How the cross-section is rounded.
enum class LoftShape {
  kEllipse,  ///< exponent 2
  kSquarish  ///< exponent 4
};

/// Solid between two heights with rounded ends; cross-sections are ellipses or squarish ovals.
///
/// Frame: own frame (x, y, height) placed by an origin and three unit columns, handed either way
class LoftedBody {
 public:
  /// Contract: two stations or more with rising heights, half axes above 0, caps above 0 that fit.
  LoftedBody(const math::Vec3& origin_mm, const math::Mat3& axes, LoftShape shape,
             const std::vector<LoftStation>& stations, double low_cap_mm, double high_cap_mm);

  /// Signed distance, negative inside: implicit function over the length of its gradient. Exact on
  /// the surface to first order, so good within a voxel of it; farther away an estimate.
  [[nodiscard]] double distance_mm(const math::Vec3& p) const;

  /// The same, or `limit_mm` where the body is surely farther away.
  [[nodiscard]] double distance_within_mm(const math::Vec3& p, double limit_mm) const;

  /// Point of the surface: u runs once around over 0..1, v from the low to the high end over 0..1.
  [[nodiscard]] math::Vec3 surface_mm(double u, double v) const;

  /// Ball that holds the whole body.
  [[nodiscard]] const math::Vec3& middle_mm() const { return middle_mm_; }

  [[nodiscard]] double reach_mm() const { return reach_mm_; }

  /// Point in the body's own frame.
  [[nodiscard]] math::Vec3 to_local(const math::Vec3& p) const;
  [[nodiscard]] math::Vec3 from_local(const math::Vec3& q) const;

  /// Cross-section at a height, clamped to the ends.
  [[nodiscard]] LoftStation section_at(double height_mm) const;

  [[nodiscard]] double low_mm() const { return low_mm_; }

  [[nodiscard]] double high_mm() const { return high_mm_; }

 private:
  [[nodiscard]] double local_distance_mm(const math::Vec3& q) const;

  struct Section {
    double cx, cy, a, b;
  };

  [[nodiscard]] Section section(double height_mm, Section* slope) const;

  math::Vec3 origin_mm_;
  math::Mat3 axes_;
  LoftShape shape_;
  double low_mm_;
  double high_mm_;
  double low_cap_mm_;
  double high_cap_mm_;
  std::vector<Section> table_;  // at equal steps of height
  math::Vec3 middle_mm_{0.0};
  double reach_mm_ = 0.0;
  double widest_mm_ = 0.0;  // from the axis
};

}  // namespace driftbench::specimen
