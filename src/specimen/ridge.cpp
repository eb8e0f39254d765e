#include "specimen/ridge.h"

#include "specimen/shape_functions.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr double kGradientStep_mm = 0.1;

}  // namespace

Ridge::Ridge(const Arch& arch, const Outline& site, const Outline& teeth, const Change& mesial,
             const Change& distal)
    : arch_(arch), site_(site), teeth_(teeth), mesial_(mesial), distal_(distal) {}

double Ridge::share_at(double station_mm) const {
  const Change& change = station_mm < 0.0 ? mesial_ : distal_;
  if (!change.exists) {
    return 0.0;
  }
  return smooth_step((std::fabs(station_mm) - change.begin_mm) / (change.end_mm - change.begin_mm));
}

Outline Ridge::outline_at(double station_mm) const {
  const double share = share_at(station_mm);
  if (share <= 0.0) {
    return site_;
  }
  return share >= 1.0 ? teeth_ : blended(site_, teeth_, share);
}

OutlineDistance Ridge::distance(const math::Vec3& in_arch) const {
  const math::Vec2 across(in_arch.y, in_arch.z);
  OutlineDistance found = outline_distance(outline_at(in_arch.x), across);
  const double low = share_at(in_arch.x - kGradientStep_mm);
  const double high = share_at(in_arch.x + kGradientStep_mm);
  if (low != high) {
    const double before =
        outline_distance(outline_at(in_arch.x - kGradientStep_mm), across).distance_mm;
    const double after =
        outline_distance(outline_at(in_arch.x + kGradientStep_mm), across).distance_mm;
    const double slope = (after - before) / (2.0 * kGradientStep_mm);
    found.distance_mm /= std::sqrt(1.0 + slope * slope);
  }
  return found;
}

math::Vec3 Ridge::surface_mm(double station_mm, double at) const {
  const double share = share_at(station_mm);
  const auto blend = [&](std::size_t i) {
    const std::size_t k = i >= kOutlineSize ? i - kOutlineSize : i;
    return site_[k].at + share * (teeth_[k].at - site_[k].at);
  };
  const std::size_t low = std::min(static_cast<std::size_t>(at), kOutlineSize - 1);
  const double t = at - static_cast<double>(low);
  const math::Vec2 a = blend(low);
  const math::Vec2 p = a + t * (blend(low + 1) - a);
  return arch_.from_arch({station_mm, p.x, p.y});
}

double Ridge::side_mm(double station_mm, double z_mm, bool is_facial) const {
  const Outline outline = outline_at(station_mm);
  const std::size_t begin = is_facial ? 0 : kLingualBegin;
  const std::size_t end = is_facial ? kBaseBegin : kOutlineSize;
  for (std::size_t i = begin; i < end; ++i) {
    const math::Vec2& a = outline[i].at;
    const math::Vec2& b = outline[i + 1 == kOutlineSize ? 0 : i + 1].at;
    if ((a.y > z_mm) != (b.y > z_mm)) {
      return a.x + (b.x - a.x) * (z_mm - a.y) / (b.y - a.y);
    }
  }
  return outline[begin].at.x;
}

}  // namespace driftbench::specimen
