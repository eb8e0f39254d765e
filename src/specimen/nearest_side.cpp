#include "specimen/nearest_side.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace driftbench::specimen {
namespace {

constexpr double kStationPitch_mm = 0.5;

struct Best {
  double distance_mm = std::numeric_limits<double>::infinity();
  math::Vec3 at_mm{0.0};
  double station_mm = 0.0;
};

/// Share of a straight piece that counts, between two shares of its length.
struct Span {
  double low = 0.0;
  double high = 1.0;
};

/// Cuts away where a quantity that changes evenly along the piece is below zero.
void keep_positive(Span& span, double at_begin, double at_end) {
  if (at_begin < 0.0 && at_end < 0.0) {
    span.high = span.low - 1.0;
  } else if (at_begin < 0.0) {
    span.low = std::max(span.low, at_begin / (at_begin - at_end));
  } else if (at_end < 0.0) {
    span.high = std::min(span.high, at_begin / (at_begin - at_end));
  }
}

/// Nearest place of one straight piece: the body is convex, so the signed distance along a line has
/// one valley, which a golden section closes in on.
void look_along(Best& best, const RevolvedBody& body, const math::Vec3& from, const math::Vec3& to,
                double station_mm) {
  constexpr double kGolden = 0.6180339887498949;
  constexpr int kRounds = 28;  // to a millionth of the piece
  const auto look = [&](double share) {
    const math::Vec3 p = from + share * (to - from);
    const double distance = signed_distance_mm(body, p);
    if (distance < best.distance_mm) {
      best = {distance, p, station_mm};
    }
    return distance;
  };
  look(0.0);
  look(1.0);
  // Distances change by no more than the way between two points.
  const double reach = 0.5 * math::length(to - from);
  if (look(0.5) - reach >= best.distance_mm) {
    return;
  }
  double low = 0.0;
  double high = 1.0;
  double left = high - kGolden;
  double right = low + kGolden;
  double at_left = look(left);
  double at_right = look(right);
  for (int i = 0; i < kRounds; ++i) {
    if (at_left <= at_right) {
      high = right;
      right = left;
      at_right = at_left;
      left = high - kGolden * (high - low);
      at_left = look(left);
    } else {
      low = left;
      left = right;
      at_left = at_right;
      right = low + kGolden * (high - low);
      at_right = look(right);
    }
  }
}

/// The outline across the arch at one station.
void look_across(Best& best, const Jaw& jaw, const RevolvedBody& body, const OutlinePart& part,
                 double station_mm) {
  const auto counts_by = [&](const math::Vec3& p) {
    return body_coordinates(body, p).down_mm - kPlateFrom_mm;
  };
  math::Vec3 a = jaw.ridge().surface_mm(station_mm, static_cast<double>(part.begin));
  for (std::size_t i = part.begin; i < part.end; ++i) {
    const math::Vec3 b = jaw.ridge().surface_mm(station_mm, static_cast<double>(i + 1));
    Span span;
    keep_positive(span, counts_by(a), counts_by(b));
    keep_positive(span, a.z + jaw.spec().depth_mm, b.z + jaw.spec().depth_mm);
    if (span.low <= span.high) {
      look_along(best, body, a + span.low * (b - a), a + span.high * (b - a), station_mm);
    }
    a = b;
  }
}

}  // namespace

std::optional<NearestSide> nearest_side(const Jaw& jaw, const RevolvedBody& body,
                                        const OutlinePart& part) {
  constexpr int kHalvings = 10;
  const double half_mm = 0.5 * jaw.spec().length_mm;
  const int stations = static_cast<int>(2.0 * half_mm / kStationPitch_mm) + 1;
  double pitch_mm = 2.0 * half_mm / stations;
  Best best;
  for (int i = 0; i <= stations; ++i) {
    look_across(best, jaw, body, part, pitch_mm * i - half_mm);
  }
  if (!(best.distance_mm < std::numeric_limits<double>::infinity())) {
    return std::nullopt;
  }
  for (int round = 0; round < kHalvings; ++round) {
    pitch_mm *= 0.5;
    const double middle_mm = best.station_mm;
    for (const int step : {-2, -1, 1, 2}) {
      look_across(best, jaw, body, part,
                  std::clamp(middle_mm + step * pitch_mm, -half_mm, half_mm));
    }
  }
  return NearestSide{best.distance_mm, best.at_mm};
}

}  // namespace driftbench::specimen
