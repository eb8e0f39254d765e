// Circle fits: moments about the centroid, then distances.
#include "geometry/fit_circle.h"

#include "geometry/least_distances.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::geometry {
namespace {

using base::Result;
using math::Vec2;

tl::unexpected<base::Error> refusal(std::string found, std::string_view expected) {
  return base::fail(base::ErrorCode::kInvalidArgument,
                    fmt::format("found {}, expected {}", std::move(found), expected));
}

double squares_of(std::span<const Vec2> points, const Vec2& centre, double radius) {
  double squares = 0.0;
  for (const Vec2& point : points) {
    const double distance = length(point - centre) - radius;
    squares += distance * distance;
  }
  return squares;
}

/// Moments of points about their mean; z = x^2 + y^2.
struct Moments {
  Vec2 mean{0.0};
  double xx = 0.0, yy = 0.0, xy = 0.0, xz = 0.0, yz = 0.0, zz = 0.0;
};

Moments moments_of(std::span<const Vec2> points) {
  Moments m;
  for (const Vec2& point : points) {
    m.mean += point;
  }
  const auto n = static_cast<double>(points.size());
  m.mean /= n;
  for (const Vec2& point : points) {
    const Vec2 d = point - m.mean;
    const double z = dot(d, d);
    m.xx += d.x * d.x / n;
    m.yy += d.y * d.y / n;
    m.xy += d.x * d.y / n;
    m.xz += d.x * z / n;
    m.yz += d.y * z / n;
    m.zz += z * z / n;
  }
  return m;
}

/// Smallest root of the characteristic cubic; it lies at or above zero.
double taubin_root(const Moments& m) {
  const double z = m.xx + m.yy;
  const double area = m.xx * m.yy - m.xy * m.xy;
  const double spread = m.zz - z * z;
  const double a3 = 4.0 * z;
  const double a2 = -3.0 * z * z - m.zz;
  const double a1 = spread * z + 4.0 * area * z - m.xz * m.xz - m.yz * m.yz;
  const double a0 =
      m.xz * (m.xz * m.yy - m.yz * m.xy) + m.yz * (m.yz * m.xx - m.xz * m.xy) - spread * area;
  double root = 0.0;
  double height = a0;
  constexpr int kMaxRounds = 60;
  for (int round = 0; round < kMaxRounds; ++round) {
    const double slope = a1 + root * (2.0 * a2 + root * 3.0 * a3);
    const double next = root - height / slope;
    if (next == root || !std::isfinite(next)) {
      break;
    }
    const double next_height = a0 + next * (a1 + next * (a2 + next * a3));
    if (std::fabs(next_height) >= std::fabs(height)) {
      break;  // only rounding is left
    }
    root = next;
    height = next_height;
  }
  return root;
}

}  // namespace

Result<CircleFit> fit_circle_taubin(std::span<const Vec2> points_mm) {
  constexpr std::size_t kLeast = 3;
  if (points_mm.size() < kLeast) {
    return refusal(fmt::format("{} points", points_mm.size()), "three at least for a circle");
  }
  if (!std::all_of(points_mm.begin(), points_mm.end(),
                   [](const Vec2& point) { return math::is_finite(point); })) {
    return refusal("a point that is not finite", "finite points");
  }
  const Moments m = moments_of(points_mm);
  const double area = m.xx * m.yy - m.xy * m.xy;
  const double z = m.xx + m.yy;
  // Of points on a line the smaller principal moment is nothing but rounding.
  constexpr double kFlat = 1e-12;
  if (!(area > kFlat * z * z)) {
    return refusal("points on one line or in one place", "points round a circle");
  }
  const double root = taubin_root(m);
  const double determinant = root * root - root * z + area;
  if (determinant == 0.0) {
    return refusal("points that determine no circle", "points round a circle");
  }
  const Vec2 centre = Vec2(m.xz * (m.yy - root) - m.yz * m.xy, m.yz * (m.xx - root) - m.xz * m.xy) /
                      (2.0 * determinant);
  CircleFit fit;
  fit.centre_mm = centre + m.mean;
  fit.radius_mm = std::sqrt(dot(centre, centre) + z);
  fit.squares_mm2 = squares_of(points_mm, fit.centre_mm, fit.radius_mm);
  return fit;
}

Result<CircleFit> fit_circle(std::span<const Vec2> points_mm) {
  Result<CircleFit> start = fit_circle_taubin(points_mm);
  if (!start) {
    return start;
  }
  std::array<double, 3> p{start->centre_mm.x, start->centre_mm.y, start->radius_mm};
  const auto sums_at = [points_mm](const std::array<double, 3>& at) {
    DistanceSums<3> sums;
    for (const Vec2& point : points_mm) {
      const Vec2 d = point - Vec2(at[0], at[1]);
      const double distance = length(d);
      const Vec2 out = distance > 0.0 ? d / distance : Vec2(1.0, 0.0);
      sums.add(distance - at[2], {-out.x, -out.y, -1.0});
    }
    return sums;
  };
  if (!least_distances<3>(p, start->radius_mm, sums_at,
                          [](const std::array<double, 3>& at) { return at[2] > 0.0; })) {
    return refusal("points that determine no circle", "points round a circle");
  }
  CircleFit fit{{p[0], p[1]}, p[2], 0.0};
  fit.squares_mm2 = squares_of(points_mm, fit.centre_mm, fit.radius_mm);
  return fit;
}

}  // namespace driftbench::geometry
