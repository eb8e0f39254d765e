#include "specimen/ridge_profile.h"

#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/shape_functions.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr double kCrestCap_mm = 2.0;     // height of the rounded crest
constexpr double kUpperDepth_mm = 4.0;   // where upper_width_mm is measured
constexpr double kSlopeFades_mm = 9.0;   // depth at which a sloped crest is forgotten
constexpr double kFlareFrom_mm = 4.0;    // the palate bends away below this depth
constexpr double kFlareReach_mm = 12.0;  // and has gone by palate_flare_mm after this length
constexpr double kFlareMost = 1.4;
constexpr double kUndercutKept = 0.4;    // share of an undercut still there at the base
constexpr double kHollowReach_mm = 6.0;  // half height of the facial concavity

/// The sides of a cross-section as functions of depth.
class Sides {
 public:
  explicit Sides(const RidgeSpec& ridge) : r_(ridge) {
    base_cap_mm_ = std::min(0.45 * r_.base_width_mm, 0.25 * r_.height_mm);
    // Half width of the ellipse over the crest, so that the width 1 mm down is as asked.
    const double share =
        1.0 - (kCrestCap_mm - 1.0) / kCrestCap_mm * (kCrestCap_mm - 1.0) / kCrestCap_mm;
    top_width_mm_ = r_.crest_width_mm / std::sqrt(share);
    fall_ = tangent_of(r_.crest_slope_deg);
  }

  [[nodiscard]] double bottom_mm() const { return r_.height_mm - base_cap_mm_; }

  [[nodiscard]] double base_cap_mm() const { return base_cap_mm_; }

  [[nodiscard]] double facial(double depth) const {
    const double off = (depth - r_.facial_hollow_level_mm) / kHollowReach_mm;
    const double hollow = r_.facial_hollow_mm * smooth_step(1.0 - std::fabs(off));
    return centre(depth) - 0.5 * width(depth) + hollow;
  }

  [[nodiscard]] double lingual(double depth) const {
    const double into = std::clamp((depth - kFlareFrom_mm) / kFlareReach_mm, 0.0, kFlareMost);
    const double flare = r_.palate_flare_mm * into * into;
    return centre(depth) + 0.5 * width(depth) - undercut(depth) + flare;
  }

  /// z of a point at a depth, with the slope of the crest.
  [[nodiscard]] math::Vec2 placed(double lateral, double depth) const {
    const double kept = 1.0 - smooth_step(depth / kSlopeFades_mm);
    return {lateral, r_.rise_mm - depth - fall_ * (lateral - centre(depth)) * kept};
  }

 private:
  [[nodiscard]] double centre(double depth) const { return r_.lean_mm * depth / r_.height_mm; }

  /// Width by depth: smooth steps between the levels of the spec.
  [[nodiscard]] double width(double depth) const {
    const std::array<double, 4> levels{kCrestCap_mm, kUpperDepth_mm, r_.body_depth_mm, bottom_mm()};
    const std::array<double, 4> widths{top_width_mm_, r_.upper_width_mm, r_.body_width_mm,
                                       r_.base_width_mm};
    std::array<double, 4> slopes{};
    std::array<double, 3> chords{};
    for (std::size_t i = 0; i < 3; ++i) {
      chords[i] = (widths[i + 1] - widths[i]) / (levels[i + 1] - levels[i]);
    }
    slopes[0] = chords[0];
    for (std::size_t i = 1; i < 3; ++i) {
      // Harmonic mean of the chords: no overshoot (Fritsch, Butland 1984).
      const double product = chords[i - 1] * chords[i];
      slopes[i] = product > 0.0 ? 2.0 * product / (chords[i - 1] + chords[i]) : 0.0;
    }
    std::size_t i = 0;
    while (i < 2 && depth > levels[i + 1]) {
      ++i;
    }
    const double span = levels[i + 1] - levels[i];
    const double t = std::clamp((depth - levels[i]) / span, 0.0, 1.0);
    return hermite(t, span, widths[i], slopes[i], widths[i + 1], slopes[i + 1]);
  }

  [[nodiscard]] double undercut(double depth) const {
    if (!(r_.undercut_depth_mm > 0.0)) {
      return 0.0;
    }
    const double fall_mm = r_.undercut_depth_mm * tangent_of(r_.undercut_angle_deg);
    const double into = (depth - r_.undercut_level_mm + fall_mm) / fall_mm;
    const double below = (depth - r_.undercut_level_mm) / (r_.height_mm - r_.undercut_level_mm);
    return r_.undercut_depth_mm * smooth_step(into) *
           (1.0 - (1.0 - kUndercutKept) * smooth_step(below));
  }

  const RidgeSpec& r_;
  double base_cap_mm_ = 0.0;
  double top_width_mm_ = 0.0;
  double fall_ = 0.0;
};

/// Cortical thickness of a side at a depth: crest above, base below, a smooth change between.
double cortex_at(double side_mm, const CortexSpec& cortex, double depth, double bottom_mm) {
  const double crest = 1.0 - smooth_step((depth - 1.0) / 3.5);
  const double base = smooth_step((depth - bottom_mm + 3.0) / 4.0);
  return side_mm + crest * (cortex.crest_mm - side_mm) +
         base * (1.0 - crest) * (cortex.base_mm - side_mm);
}

}  // namespace

Outline outline_of(const RidgeSpec& ridge, const CortexSpec& cortex) {
  const Sides sides(ridge);
  const double bottom = sides.bottom_mm();
  Outline outline{};
  const auto put = [&](std::size_t i, double lateral, double depth, double side_mm) {
    outline[i] = {sides.placed(lateral, depth), cortex_at(side_mm, cortex, depth, bottom)};
  };
  // Crest: half ellipse between the two sides; index 0 is its middle.
  const double left = sides.facial(kCrestCap_mm);
  const double right = sides.lingual(kCrestCap_mm);
  const auto put_crest = [&](std::size_t index, double turn) {  // -pi/2 facial .. +pi/2 lingual
    const math::SinCos at = math::sincos(turn);
    put(index, 0.5 * (left + right) + 0.5 * (right - left) * at.sin, kCrestCap_mm * (1.0 - at.cos),
        turn < 0.0 ? cortex.facial_mm : cortex.lingual_mm);
  };
  for (std::size_t i = 0; i < kCrestSteps / 2; ++i) {
    const double turn = static_cast<double>(i) / kCrestSteps * math::kPi;
    put_crest(i, -turn);
    put_crest(kLingualEnd + i, 0.5 * math::kPi - turn);
  }
  for (std::size_t i = 0; i < kSideSteps; ++i) {
    const double depth =
        kCrestCap_mm + (bottom - kCrestCap_mm) * static_cast<double>(i) / kSideSteps;
    put(kFacialBegin + i, sides.facial(depth), depth, cortex.facial_mm);
    const double from_below =
        bottom - (bottom - kCrestCap_mm) * static_cast<double>(i) / kSideSteps;
    put(kLingualBegin + i, sides.lingual(from_below), from_below, cortex.lingual_mm);
  }
  const double low_left = sides.facial(bottom);
  const double low_right = sides.lingual(bottom);
  for (std::size_t i = 0; i < kBaseSteps; ++i) {
    const math::SinCos at = math::sincos(static_cast<double>(i) / kBaseSteps * math::kPi);
    const double lateral = 0.5 * (low_left + low_right) - 0.5 * (low_right - low_left) * at.cos;
    put(kBaseBegin + i, lateral, bottom + sides.base_cap_mm() * at.sin, cortex.base_mm);
  }
  return outline;
}

Outline blended(const Outline& a, const Outline& b, double share) {
  Outline result{};
  for (std::size_t i = 0; i < kOutlineSize; ++i) {
    result[i] = {a[i].at + share * (b[i].at - a[i].at),
                 a[i].cortex_mm + share * (b[i].cortex_mm - a[i].cortex_mm)};
  }
  return result;
}

OutlineDistance outline_distance(const Outline& outline, const math::Vec2& p) {
  double best = 1e30;
  double cortex_mm = 0.0;
  bool is_inside = false;
  for (std::size_t i = 0; i < kOutlineSize; ++i) {
    const OutlinePoint& a = outline[i];
    const OutlinePoint& b = outline[i + 1 == kOutlineSize ? 0 : i + 1];
    const math::Vec2 along = b.at - a.at;
    const math::Vec2 from = p - a.at;
    const double length2 = along.x * along.x + along.y * along.y;
    const double t =
        length2 > 0.0 ? std::clamp((from.x * along.x + from.y * along.y) / length2, 0.0, 1.0) : 0.0;
    const double dx = from.x - t * along.x;
    const double dy = from.y - t * along.y;
    const double square = dx * dx + dy * dy;
    if (square < best) {
      best = square;
      cortex_mm = a.cortex_mm + t * (b.cortex_mm - a.cortex_mm);
    }
    // Even-odd rule along the lateral direction.
    if ((a.at.y > p.y) != (b.at.y > p.y) && from.x < along.x * from.y / along.y) {
      is_inside = !is_inside;
    }
  }
  const double distance = std::sqrt(best);
  return {is_inside ? -distance : distance, cortex_mm};
}

}  // namespace driftbench::specimen
