// Ellipse fits: a generalised eigenvalue problem of size three, then distances.
#include "geometry/fit_ellipse.h"

#include "geometry/least_distances.h"
#include "math/elementary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace driftbench::geometry {
namespace {

using base::Result;
using math::Mat3;
using math::Vec2;
using math::Vec3;

tl::unexpected<base::Error> refusal(std::string found, std::string_view expected) {
  return base::fail(base::ErrorCode::kInvalidArgument,
                    fmt::format("found {}, expected {}", std::move(found), expected));
}

tl::unexpected<base::Error> no_ellipse() {
  return refusal("points that determine no ellipse", "points round an ellipse");
}

/// A x^2 + B x y + C y^2 + D x + E y + F = 0.
struct Conic {
  double a = 0.0, b = 0.0, c = 0.0, d = 0.0, e = 0.0, f = 0.0;
};

/// Same shape with axes in order and the angle in [0, pi).
EllipseFit ordered(EllipseFit fit) {
  if (fit.semi_minor_mm > fit.semi_major_mm) {
    std::swap(fit.semi_minor_mm, fit.semi_major_mm);
    fit.orientation.value += 0.5 * math::kPi;
  }
  while (fit.orientation.value < 0.0) {
    fit.orientation.value += math::kPi;
  }
  while (fit.orientation.value >= math::kPi) {
    fit.orientation.value -= math::kPi;
  }
  return fit;
}

/// Centre, axes and angle of a conic; nothing when it is no real ellipse.
std::optional<EllipseFit> ellipse_of(const Conic& k) {
  const double discriminant = 4.0 * k.a * k.c - k.b * k.b;
  if (!(discriminant > 0.0)) {
    return std::nullopt;
  }
  EllipseFit fit;
  fit.centre_mm = Vec2(k.b * k.e - 2.0 * k.c * k.d, k.b * k.d - 2.0 * k.a * k.e) / discriminant;
  const double at_centre =
      k.f + 0.5 * (k.d * fit.centre_mm.x + k.e * fit.centre_mm.y);  // value of the form there
  const double half_sum = 0.5 * (k.a + k.c);
  const double half_difference = 0.5 * (k.a - k.c);
  const double radius = std::sqrt(half_difference * half_difference + 0.25 * k.b * k.b);
  const double along = -at_centre / (half_sum + radius);   // across the larger curvature
  const double across = -at_centre / (half_sum - radius);  // along the smaller one
  if (!(along > 0.0) || !(across > 0.0) || !std::isfinite(across)) {
    return std::nullopt;
  }
  fit.semi_major_mm = std::sqrt(along);
  fit.semi_minor_mm = std::sqrt(across);
  fit.orientation = math::Radians(0.5 * math::atan2(k.b, k.a - k.c));
  return ordered(fit);
}

/// Inverse of a symmetric positive definite matrix times a vector.
bool solve3(const Mat3& m, const Vec3& b, Vec3& x) {
  const math::Matrix<3> rows{
      {{m[0][0], m[1][0], m[2][0]}, {m[0][1], m[1][1], m[2][1]}, {m[0][2], m[1][2], m[2][2]}}};
  math::Vector<3> solution{};
  if (!math::solve_spd<3>(rows, {b.x, b.y, b.z}, solution)) {
    return false;
  }
  x = Vec3(solution[0], solution[1], solution[2]);
  return true;
}

/// The quadratic part (A, B, C) with the least scatter under 4 A C - B^2 = 1.
///
/// With R = V diag(w) V^T the problem is an ordinary one in R^(-1/2) C R^(-1/2), whose one positive
/// eigenvalue belongs to the ellipse. Points exactly on an ellipse make w of its vector vanish.
std::optional<Vec3> least_quadratic(const Mat3& scatter) {
  const math::SymmetricEigen3 eigen = math::symmetric_eigen3(scatter);
  const double largest = eigen.values[0];
  if (!(largest > 0.0)) {
    return std::nullopt;
  }
  constexpr double kFloor = 1e-15;
  Mat3 root(0.0);  // R^(-1/2)
  for (int i = 0; i < 3; ++i) {
    const double value = std::max(eigen.values[i], kFloor * largest);
    const Vec3 v = eigen.vectors[i];
    for (int column = 0; column < 3; ++column) {
      root[column] += v * (v[column] / std::sqrt(value));
    }
  }
  const Mat3 constraint(Vec3(0.0, 0.0, 2.0), Vec3(0.0, -1.0, 0.0), Vec3(2.0, 0.0, 0.0));
  const math::SymmetricEigen3 inner = math::symmetric_eigen3(root * constraint * root);
  if (!(inner.values[0] > 0.0)) {
    return std::nullopt;
  }
  return root * inner.vectors[0];
}

/// The nearest point in the first quadrant of an ellipse along the axes, for a point of it.
///
/// Source: the multiplier s solves (r z0/(s + r))^2 + (z1/(s + 1))^2 = 1, a falling convex
///         function; Newton's method from the left converges without overshooting (after Eberly,
///         Distance from a Point to an Ellipse, 2013)
Vec2 nearest_in_quadrant(double major, double minor, const Vec2& point) {
  if (point.y <= 0.0) {
    const double reach = major * major - minor * minor;
    const double x = major * point.x;
    if (x < reach) {
      const double share = x / reach;
      return {major * share, minor * std::sqrt(std::max(0.0, 1.0 - share * share))};
    }
    return {major, 0.0};
  }
  const double r = (major / minor) * (major / minor);
  const Vec2 z(point.x / major, point.y / minor);
  double s = std::max(z.y - 1.0, r * z.x - r);
  constexpr int kMaxRounds = 100;
  for (int round = 0; round < kMaxRounds; ++round) {
    const double p = r * z.x / (s + r);
    const double q = z.y / (s + 1.0);
    const double height = p * p + q * q - 1.0;
    const double slope = -2.0 * (p * p / (s + r) + q * q / (s + 1.0));
    const double next = s - height / slope;
    if (!(next > s)) {
      break;
    }
    s = next;
  }
  return {r * point.x / (s + r), point.y / (s + 1.0)};
}

/// A point and the ellipse's own axes.
struct Turned {
  Vec2 point{0.0};  ///< in the axes, from the centre
  math::SinCos turn;
};

Turned turned(const EllipseFit& e, const Vec2& point) {
  const math::SinCos t = math::sincos(e.orientation.value);
  const Vec2 d = point - e.centre_mm;
  return {{t.cos * d.x + t.sin * d.y, t.cos * d.y - t.sin * d.x}, t};
}

/// Nearest point in the ellipse's own axes.
Vec2 nearest_in_axes(const EllipseFit& e, const Vec2& point) {
  const Vec2 folded(std::fabs(point.x), std::fabs(point.y));
  Vec2 foot(0.0);
  if (e.semi_major_mm >= e.semi_minor_mm) {
    foot = nearest_in_quadrant(e.semi_major_mm, e.semi_minor_mm, folded);
  } else {
    const Vec2 crossed =
        nearest_in_quadrant(e.semi_minor_mm, e.semi_major_mm, {folded.y, folded.x});
    foot = {crossed.y, crossed.x};
  }
  return {point.x < 0.0 ? -foot.x : foot.x, point.y < 0.0 ? -foot.y : foot.y};
}

using Five = std::array<double, 5>;  ///< centre x, y, two semi-axes, angle

EllipseFit ellipse_at(const Five& p) {
  return {{p[0], p[1]}, p[2], p[3], math::Radians(p[4]), 0.0};
}

/// Along the normal at the foot, the foot's own motion on the ellipse does not count.
DistanceSums<5> sums_of(std::span<const Vec2> points, const Five& p) {
  const EllipseFit e = ellipse_at(p);
  DistanceSums<5> sums;
  for (const Vec2& point : points) {
    const Turned at = turned(e, point);
    const Vec2 foot = nearest_in_axes(e, at.point);
    const Vec2 across(foot.x / (p[2] * p[2]), foot.y / (p[3] * p[3]));
    const double size = length(across);
    const Vec2 normal = size > 0.0 ? across / size : Vec2(1.0, 0.0);
    const Vec2 in_plane(at.turn.cos * normal.x - at.turn.sin * normal.y,
                        at.turn.sin * normal.x + at.turn.cos * normal.y);
    sums.add(dot(at.point - foot, normal),
             {-in_plane.x, -in_plane.y, -normal.x * foot.x / p[2], -normal.y * foot.y / p[3],
              normal.x * foot.y - normal.y * foot.x});
  }
  return sums;
}

}  // namespace

Vec2 nearest_on_ellipse(const EllipseFit& ellipse, const Vec2& point_mm) {
  const Turned at = turned(ellipse, point_mm);
  const Vec2 foot = nearest_in_axes(ellipse, at.point);
  return ellipse.centre_mm + Vec2(at.turn.cos * foot.x - at.turn.sin * foot.y,
                                  at.turn.sin * foot.x + at.turn.cos * foot.y);
}

Result<EllipseFit> fit_ellipse_direct(std::span<const Vec2> points_mm) {
  constexpr std::size_t kLeast = 5;
  if (points_mm.size() < kLeast) {
    return refusal(fmt::format("{} points", points_mm.size()), "five at least for an ellipse");
  }
  if (!std::all_of(points_mm.begin(), points_mm.end(),
                   [](const Vec2& point) { return math::is_finite(point); })) {
    return refusal("a point that is not finite", "finite points");
  }
  // About the centroid and in units of the spread, the sums are well scaled.
  Vec2 mean(0.0);
  for (const Vec2& point : points_mm) {
    mean += point / static_cast<double>(points_mm.size());
  }
  double spread = 0.0;
  for (const Vec2& point : points_mm) {
    spread += length(point - mean) / static_cast<double>(points_mm.size());
  }
  if (!(spread > 0.0)) {
    return no_ellipse();
  }
  Mat3 quadratic(0.0);  // S1: sums of products of x^2, x y, y^2
  Mat3 mixed(0.0);      // S2^T: column i holds the sums of (x, y, 1) times quadratic term i
  Mat3 linear(0.0);     // S3: of x, y, 1
  for (const Vec2& point : points_mm) {
    const Vec2 d = (point - mean) / spread;
    const Vec3 q(d.x * d.x, d.x * d.y, d.y * d.y);
    const Vec3 l(d.x, d.y, 1.0);
    for (int column = 0; column < 3; ++column) {
      quadratic[column] += q * q[column];
      mixed[column] += l * q[column];
      linear[column] += l * l[column];
    }
  }
  // The linear part follows from the quadratic one: l = -S3^-1 S2^T q.
  Mat3 follow(0.0);
  for (int column = 0; column < 3; ++column) {
    if (!solve3(linear, mixed[column], follow[column])) {
      return no_ellipse();
    }
  }
  Mat3 reduced = quadratic;
  for (int column = 0; column < 3; ++column) {
    for (int row = 0; row < 3; ++row) {
      reduced[column][row] -= dot(mixed[row], follow[column]);
    }
  }
  const std::optional<Vec3> q = least_quadratic(reduced);
  if (!q.has_value()) {
    return no_ellipse();
  }
  const Vec3 l = -(follow * *q);
  const std::optional<EllipseFit> found = ellipse_of({q->x, q->y, q->z, l.x, l.y, l.z});
  if (!found.has_value()) {
    return no_ellipse();
  }
  EllipseFit fit = *found;
  fit.centre_mm = mean + fit.centre_mm * spread;
  fit.semi_major_mm *= spread;
  fit.semi_minor_mm *= spread;
  for (const Vec2& point : points_mm) {
    const double distance = length(point - nearest_on_ellipse(fit, point));
    fit.squares_mm2 += distance * distance;
  }
  return fit;
}

Result<EllipseFit> fit_ellipse(std::span<const Vec2> points_mm) {
  Result<EllipseFit> start = fit_ellipse_direct(points_mm);
  if (!start) {
    return start;
  }
  Five p{start->centre_mm.x, start->centre_mm.y, start->semi_major_mm, start->semi_minor_mm,
         start->orientation.value};
  const bool is_found = least_distances<5>(
      p, start->semi_major_mm, [points_mm](const Five& at) { return sums_of(points_mm, at); },
      [](const Five& at) { return at[2] > 0.0 && at[3] > 0.0; });
  if (!is_found) {
    return no_ellipse();
  }
  EllipseFit fit = ellipse_at(p);
  fit.squares_mm2 = sums_of(points_mm, p).squares;
  return ordered(fit);
}

}  // namespace driftbench::geometry
