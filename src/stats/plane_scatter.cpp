// Covariance in two passes and its principal axes.
#include "stats/plane_scatter.h"

#include "math/angle.h"
#include "stats/series.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace driftbench::stats {
namespace {

// Points whose smaller standard deviation is below a millionth of the larger lie on a line.
constexpr double kLineRatio = 1e-12;

}  // namespace

base::Result<PlaneScatter> plane_scatter(std::span<const math::Vec2> points) {
  if (points.size() < 2) {
    return too_few(points.size(), 2, "hole");
  }
  std::vector<double> x;
  std::vector<double> y;
  x.reserve(points.size());
  y.reserve(points.size());
  for (const math::Vec2& point : points) {
    x.push_back(point.x);
    y.push_back(point.y);
  }
  PlaneScatter scatter;
  scatter.n = points.size();
  scatter.mean = {mean(x), mean(y)};
  const double freedom = real(points.size() - 1);
  scatter.xx = squared_deviations(x, scatter.mean.x) / freedom;
  scatter.yy = squared_deviations(y, scatter.mean.y) / freedom;
  if (scatter.xx > 0.0 && scatter.yy > 0.0) {
    double products = 0.0;
    for (const math::Vec2& point : points) {
      products += (point.x - scatter.mean.x) * (point.y - scatter.mean.y);
    }
    scatter.xy = products / freedom;
  }
  if (!std::isfinite(scatter.xx) || !std::isfinite(scatter.yy) || !std::isfinite(scatter.xy)) {
    return tl::unexpected<base::Error>(finite(HUGE_VAL).error());
  }
  return scatter;
}

PrincipalAxes principal_axes(const PlaneScatter& scatter) {
  const double centre = 0.5 * (scatter.xx + scatter.yy);
  const double half_difference = 0.5 * (scatter.xx - scatter.yy);
  const double radius = std::sqrt(half_difference * half_difference + scatter.xy * scatter.xy);
  PrincipalAxes axes;
  axes.major_variance = centre + radius;
  axes.minor_variance = std::max(centre - radius, 0.0);
  axes.angle_rad = 0.5 * std::atan2(scatter.xy, half_difference);
  if (axes.angle_rad < 0.0) {
    axes.angle_rad += math::kPi;
  }
  if (axes.angle_rad >= math::kPi) {
    axes.angle_rad = 0.0;
  }
  return axes;
}

double spread(const PlaneScatter& scatter) {
  return std::sqrt(0.5 * (scatter.xx + scatter.yy));
}

base::Result<PrincipalAxes> filled_axes(const PlaneScatter& scatter) {
  const PrincipalAxes axes = principal_axes(scatter);
  if (!(axes.major_variance > 0.0)) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found all holes at the same point, expected them to scatter");
  }
  if (axes.minor_variance <= kLineRatio * axes.major_variance) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found all holes on one line, expected them to scatter in two directions");
  }
  return axes;
}

}  // namespace driftbench::stats
