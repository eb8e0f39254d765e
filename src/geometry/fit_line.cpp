// Total least squares by the covariance matrix of the points.
#include "geometry/fit_line.h"

#include "math/solve.h"

#include <cmath>
#include <vector>

namespace driftbench::geometry {
namespace {

using math::Vec3;

// The points that have weight, or why there is no line.
base::Result<std::vector<WeightedPoint>> usable_points(std::span<const WeightedPoint> points) {
  std::vector<WeightedPoint> used;
  bool is_spread = false;
  for (const WeightedPoint& point : points) {
    if (!math::is_finite(point.position) || !std::isfinite(point.weight) || point.weight < 0.0) {
      return base::fail(base::ErrorCode::kInvalidArgument,
                        "found a point that is not finite or has a negative weight, expected "
                        "finite points with weights of 0 or more");
    }
    if (point.weight > 0.0) {
      used.push_back(point);
      is_spread = is_spread || point.position != used.front().position;
    }
  }
  if (!is_spread) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found fewer than two distinct points, expected at least two for a line");
  }
  return used;
}

Vec3 weighted_centroid(const std::vector<WeightedPoint>& points, double total) {
  const Vec3 origin = points.front().position;
  Vec3 sum(0.0);
  for (const WeightedPoint& point : points) {
    sum += (point.position - origin) * point.weight;
  }
  return origin + sum / total;
}

}  // namespace

base::Result<LineFit> fit_line(std::span<const WeightedPoint> points) {
  const base::Result<std::vector<WeightedPoint>> used = usable_points(points);
  if (!used) {
    return tl::unexpected<base::Error>(used.error());
  }
  double total = 0.0;
  for (const WeightedPoint& point : *used) {
    total += point.weight;
  }
  // Covariance about the centroid; its principal axis is the line's direction.
  const Vec3 centre = weighted_centroid(*used, total);
  math::Mat3 covariance(0.0);
  for (const WeightedPoint& point : *used) {
    const Vec3 d = point.position - centre;
    covariance[0] += d * (d.x * point.weight / total);
    covariance[1] += d * (d.y * point.weight / total);
    covariance[2] += d * (d.z * point.weight / total);
  }
  LineFit fit;
  fit.line.point = centre;
  fit.line.axis_unit = math::symmetric_eigen3(covariance).vectors[0];
  if (dot(used->back().position - used->front().position, fit.line.axis_unit) < 0.0) {
    fit.line.axis_unit = -fit.line.axis_unit;
  }
  double squares = 0.0;
  for (const WeightedPoint& point : *used) {
    const double distance = distance_mm(fit.line, point.position);
    squares += point.weight * distance * distance;
  }
  fit.rms_mm = std::sqrt(squares / total);
  return fit;
}

base::Result<LineFit> fit_line(std::span<const math::Vec3> points) {
  std::vector<WeightedPoint> weighted;
  weighted.reserve(points.size());
  for (const Vec3& point : points) {
    weighted.push_back({point, 1.0});
  }
  return fit_line(std::span<const WeightedPoint>(weighted));
}

}  // namespace driftbench::geometry
