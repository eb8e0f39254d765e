#include "specimen/lofted_body.h"

#include "base/contract.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/shape_functions.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr int kTableSteps = 64;
constexpr double kCapShare = 0.2;  // of v for each rounded end

/// Tangent of one quantity at station i by the two neighbours.
double tangent(const std::vector<LoftStation>& s, std::size_t i, double LoftStation::*member) {
  const std::size_t low = i == 0 ? 0 : i - 1;
  const std::size_t high = std::min(i + 1, s.size() - 1);
  return (s[high].*member - s[low].*member) / (s[high].height_mm - s[low].height_mm);
}

double between(const std::vector<LoftStation>& s, std::size_t i, double height_mm,
               double LoftStation::*member) {
  const double width = s[i + 1].height_mm - s[i].height_mm;
  const double t = (height_mm - s[i].height_mm) / width;
  return hermite(t, width, s[i].*member, tangent(s, i, member), s[i + 1].*member,
                 tangent(s, i + 1, member));
}

/// Norm of (x/a, y/b) with its derivatives; a value of 0 has none.
struct Norm {
  double k, kx, ky, ka, kb;
};

Norm norm_of(LoftShape shape, double x, double y, double a, double b) {
  const double p = x / a;
  const double q = y / b;
  Norm n{};
  if (shape == LoftShape::kEllipse) {
    n.k = std::sqrt(p * p + q * q);
    const double inverse = n.k > 0.0 ? 1.0 / n.k : 0.0;
    n.kx = p / a * inverse;
    n.ky = q / b * inverse;
  } else {
    const double fourth = p * p * p * p + q * q * q * q;
    n.k = std::sqrt(std::sqrt(fourth));
    const double inverse = n.k > 0.0 ? 1.0 / (n.k * n.k * n.k) : 0.0;
    n.kx = p * p * p / a * inverse;
    n.ky = q * q * q / b * inverse;
  }
  n.ka = -n.kx * p;
  n.kb = -n.ky * q;
  return n;
}

}  // namespace

LoftedBody::LoftedBody(const math::Vec3& origin_mm, const math::Mat3& axes, LoftShape shape,
                       const std::vector<LoftStation>& stations, double low_cap_mm,
                       double high_cap_mm)
    : origin_mm_(origin_mm),
      axes_(axes),
      shape_(shape),
      low_mm_(stations.front().height_mm),
      high_mm_(stations.back().height_mm),
      low_cap_mm_(low_cap_mm),
      high_cap_mm_(high_cap_mm) {
  DRIFTBENCH_EXPECTS(stations.size() >= 2 && low_cap_mm > 0.0 && high_cap_mm > 0.0);
  DRIFTBENCH_EXPECTS(low_cap_mm + high_cap_mm <= high_mm_ - low_mm_);
  std::size_t i = 0;
  math::Vec3 low(1e9);
  math::Vec3 high(-1e9);
  for (int step = 0; step <= kTableSteps; ++step) {
    const double height = low_mm_ + (high_mm_ - low_mm_) * step / kTableSteps;
    while (i + 2 < stations.size() && height > stations[i + 1].height_mm) {
      ++i;
    }
    const Section here{between(stations, i, height, &LoftStation::centre_x_mm),
                       between(stations, i, height, &LoftStation::centre_y_mm),
                       std::max(between(stations, i, height, &LoftStation::half_x_mm), 0.05),
                       std::max(between(stations, i, height, &LoftStation::half_y_mm), 0.05)};
    table_.push_back(here);
    const math::Vec2 corner(std::fabs(here.cx) + here.a, std::fabs(here.cy) + here.b);
    widest_mm_ = std::max(widest_mm_, std::sqrt(corner.x * corner.x + corner.y * corner.y));
    low = {std::min(low.x, here.cx - here.a), std::min(low.y, here.cy - here.b), low_mm_};
    high = {std::max(high.x, here.cx + here.a), std::max(high.y, here.cy + here.b), high_mm_};
  }
  middle_mm_ = from_local(0.5 * (low + high));
  reach_mm_ = 0.5 * math::length(high - low);
}

math::Vec3 LoftedBody::to_local(const math::Vec3& p) const {
  const math::Vec3 d = p - origin_mm_;
  return {math::dot(d, axes_[0]), math::dot(d, axes_[1]), math::dot(d, axes_[2])};
}

math::Vec3 LoftedBody::from_local(const math::Vec3& q) const {
  return origin_mm_ + q.x * axes_[0] + q.y * axes_[1] + q.z * axes_[2];
}

LoftedBody::Section LoftedBody::section(double height_mm, Section* slope) const {
  const double steps = (high_mm_ - low_mm_) / kTableSteps;
  const double at = std::clamp((height_mm - low_mm_) / steps, 0.0, 1.0 * kTableSteps);
  const std::size_t i =
      std::min(static_cast<std::size_t>(at), static_cast<std::size_t>(kTableSteps - 1));
  const double t = at - static_cast<double>(i);
  const Section& s = table_[i];
  const Section& e = table_[i + 1];
  if (slope != nullptr) {
    *slope = {(e.cx - s.cx) / steps, (e.cy - s.cy) / steps, (e.a - s.a) / steps,
              (e.b - s.b) / steps};
  }
  return {s.cx + t * (e.cx - s.cx), s.cy + t * (e.cy - s.cy), s.a + t * (e.a - s.a),
          s.b + t * (e.b - s.b)};
}

LoftStation LoftedBody::section_at(double height_mm) const {
  const Section s = section(height_mm, nullptr);
  return {std::clamp(height_mm, low_mm_, high_mm_), s.cx, s.cy, s.a, s.b};
}

double LoftedBody::distance_mm(const math::Vec3& p) const {
  return local_distance_mm(to_local(p));
}

double LoftedBody::distance_within_mm(const math::Vec3& p, double limit_mm) const {
  const math::Vec3 q = to_local(p);
  const double reach = widest_mm_ + limit_mm;
  if (q.z < low_mm_ - limit_mm || q.z > high_mm_ + limit_mm ||
      q.x * q.x + q.y * q.y > reach * reach) {
    return limit_mm;
  }
  return local_distance_mm(q);
}

double LoftedBody::local_distance_mm(const math::Vec3& q) const {
  Section slope{};
  const Section s = section(q.z, &slope);
  const Norm n = norm_of(shape_, q.x - s.cx, q.y - s.cy, s.a, s.b);
  double kh = -n.kx * slope.cx - n.ky * slope.cy + n.ka * slope.a + n.kb * slope.b;
  if (q.z < low_mm_ || q.z > high_mm_) {
    kh = 0.0;
  }
  // Outside, the slope of the surface counts and not that of a level far from it.
  kh /= std::max(n.k, 1.0);
  // Rounded ends: the norm and the height within the cap are two legs of one right triangle.
  double e = 0.0;
  double eh = 0.0;
  if (q.z < low_mm_ + low_cap_mm_) {
    e = (low_mm_ + low_cap_mm_ - q.z) / low_cap_mm_;
    eh = -1.0 / low_cap_mm_;
  } else if (q.z > high_mm_ - high_cap_mm_) {
    e = (q.z - high_mm_ + high_cap_mm_) / high_cap_mm_;
    eh = 1.0 / high_cap_mm_;
  }
  const double f = std::sqrt(n.k * n.k + e * e);
  if (f < 1e-9) {
    return -std::min(s.a, s.b);
  }
  const double fx = n.k * n.kx / f;
  const double fy = n.k * n.ky / f;
  const double fh = (n.k * kh + e * eh) / f;
  const double gradient = std::sqrt(fx * fx + fy * fy + fh * fh);
  const double estimate = gradient > 1e-9 ? (f - 1.0) / gradient : -std::min(s.a, s.b);
  if (e > 0.0 && n.k > 1.0) {  // beside a rounded end at least as far as from the full section
    return std::max(estimate, (n.k - 1.0) / std::sqrt(n.kx * n.kx + n.ky * n.ky));
  }
  return estimate;
}

math::Vec3 LoftedBody::surface_mm(double u, double v) const {
  const math::SinCos around = math::sincos(2.0 * math::kPi * u);
  const double x = around.cos;
  const double y = around.sin;
  // Scale of the unit direction to where its norm is 1.
  double scale = 1.0;
  if (shape_ == LoftShape::kSquarish) {
    scale = 1.0 / std::sqrt(std::sqrt(x * x * x * x + y * y * y * y));
  }
  double height = 0.0;
  if (v < kCapShare || v > 1.0 - kCapShare) {
    const double share = v < kCapShare ? 1.0 - v / kCapShare : 1.0 - (1.0 - v) / kCapShare;
    const math::SinCos rise = math::sincos(0.5 * math::kPi * std::clamp(share, 0.0, 1.0));
    scale *= rise.cos;
    height = v < kCapShare ? low_mm_ + low_cap_mm_ * (1.0 - rise.sin)
                           : high_mm_ - high_cap_mm_ * (1.0 - rise.sin);
  } else {
    const double share = (v - kCapShare) / (1.0 - 2.0 * kCapShare);
    height = low_mm_ + low_cap_mm_ + share * (high_mm_ - low_mm_ - low_cap_mm_ - high_cap_mm_);
  }
  const Section s = section(height, nullptr);
  return from_local({s.cx + s.a * x * scale, s.cy + s.b * y * scale, height});
}

}  // namespace driftbench::specimen
