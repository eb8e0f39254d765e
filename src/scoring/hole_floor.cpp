#include "scoring/hole_floor.h"

#include "math/angle.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace driftbench::scoring {

namespace {

/// Half of the point angle of 118 deg: tangent and 1/cosine of 59 deg.
constexpr double kPointTangent = 1.6642794823505174;
constexpr double kPointSecant = 1.9416040264103563;

/// A section narrower by this much in radius than those 0.4 to 1.0 mm above it ends a plateau; the
/// smallest step of the kit is 0.3 mm, the taper of a hand-held hole below 0.1 mm/mm. Own choice.
constexpr double kStep_mm = 0.12;
constexpr double kLookBackNear_mm = 0.4;
constexpr double kLookBackFar_mm = 1.0;

/// How much narrower than the last drill a plateau may be and still count; half the smallest step.
constexpr double kRadiusSlack_mm = 0.15;

/// Shortest deeper plateau that can be the full diameter: where wide and narrow drills left
/// different lines, their floors together make short stretches nearly as wide. Own choice.
constexpr double kShortest_mm = 1.0;

/// Distance below the shoulder, in ramp widths, at which model and hole are compared: just below
/// the depths in which wall and point blur into each other.
constexpr double kCompareDepth_ramps = 0.6;

/// Mean radius of the sections of a plateau from 1.0 to 0.4 mm above section `index`.
double radius_above(std::span<const Section> sections, std::size_t begin, std::size_t index) {
  const double depth = sections[index].depth_mm;
  double sum = 0.0;
  int count = 0;
  for (std::size_t i = begin; i < index; ++i) {
    const double above = depth - sections[i].depth_mm;
    if (above > kLookBackFar_mm || (above < kLookBackNear_mm && count > 0)) {
      continue;
    }
    sum += 0.5 * sections[i].diameter_mm;
    ++count;
  }
  return count > 0 ? sum / count : 0.5 * sections[begin].diameter_mm;
}

/// Area that a hole shows at a distance below the shoulder of a plateau.
///
/// Mean over the ramp (uniform offset u of the surface, +-ramp) and over linear interpolation (hat
/// of half width `spacing` along the axis).
double model_area_mm2(const Plateau& plateau, double below_mm, double ramp, double spacing_mm) {
  constexpr int kNodes = 24;
  double sum = 0.0;
  double weights = 0.0;
  for (int i = 0; i < kNodes; ++i) {
    const double along = (2.0 * i + 1.0) / kNodes - 1.0;
    const double weight = 1.0 - std::fabs(along);
    const double below = below_mm + along * spacing_mm;
    for (int k = 0; k < kNodes; ++k) {
      const double offset = ramp * ((2.0 * k + 1.0) / kNodes - 1.0);
      const double wall = plateau.radius_mm + offset;
      const double point = plateau.radius_mm - below * kPointTangent + offset * kPointSecant;
      const double narrower =
          plateau.radius_below_mm > 0.0 ? plateau.radius_below_mm + offset : 0.0;
      const double radius = std::max({std::min(wall, point), narrower, 0.0});
      sum += weight * radius * radius;
    }
    weights += weight * kNodes;
  }
  return math::kPi * sum / weights;
}

}  // namespace

std::vector<Plateau> find_plateaus(std::span<const Section> sections, double spacing_mm) {
  std::vector<Plateau> plateaus;
  std::size_t begin = 0;
  std::size_t at = 1;
  while (at < sections.size()) {
    const double radius = radius_above(sections, begin, at);
    if (0.5 * sections[at].diameter_mm >= radius - kStep_mm) {
      ++at;
      continue;
    }
    plateaus.push_back({sections[begin].depth_mm, sections[at].depth_mm, radius, 0.0});
    // The next plateau starts where the diameter has stopped falling.
    while (at + 1 < sections.size() &&
           sections[at].diameter_mm - sections[at + 1].diameter_mm > 0.3 * spacing_mm) {
      ++at;
    }
    if (at + 1 < sections.size()) {
      plateaus.back().radius_below_mm = 0.5 * sections[at + 1].diameter_mm;
    }
    begin = at;
    ++at;
  }
  return plateaus;
}

std::optional<Plateau> full_diameter_plateau(std::span<const Plateau> plateaus,
                                             double last_drill_diameter_mm) {
  std::optional<Plateau> chosen;
  for (const Plateau& plateau : plateaus) {
    const bool is_wide = plateau.radius_mm >= 0.5 * last_drill_diameter_mm - kRadiusSlack_mm;
    const bool is_long = plateau.step_mm - plateau.begin_mm >= kShortest_mm;
    if (!chosen || (is_wide && is_long)) {
      chosen = plateau;
    }
  }
  return chosen;
}

double shoulder_depth_mm(const RemovedRegion& region, const SlicePlanes& planes,
                         const SliceExtent& extent, const Plateau& plateau) {
  const double ramp = ramp_mm(region);
  const double spacing = region.grid.spacing_mm;
  // A small step is compared half-way down, a point just below the blur of its shoulder.
  double compare = kCompareDepth_ramps * ramp;
  if (plateau.radius_below_mm > 0.0) {
    const double step = plateau.radius_mm - plateau.radius_below_mm;
    compare = std::clamp(0.5 * step / kPointTangent, 0.0, compare);
  }
  const double target = model_area_mm2(plateau, compare, ramp, spacing);
  // Areas fall with depth around the step; the target lies between these two.
  double above = std::max(plateau.step_mm - kLookBackFar_mm, plateau.begin_mm);
  double below = plateau.step_mm;
  while (below < extent.high.z && raw_area_at(region, planes, extent, below) > target) {
    above = below;
    below += 0.5 * spacing;
  }
  constexpr int kHalvings = 14;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = 0.5 * (above + below);
    if (raw_area_at(region, planes, extent, middle) > target) {
      above = middle;
    } else {
      below = middle;
    }
  }
  return 0.5 * (above + below) - compare;
}

}  // namespace driftbench::scoring
