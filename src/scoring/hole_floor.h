// Depth at which a hole loses its full diameter, found in its profile of areas.
#pragma once

#include "scoring/hole_slicer.h"

#include <optional>
#include <span>
#include <vector>

namespace driftbench::scoring {

/// A stretch of nearly constant diameter and the step that ends it.
struct Plateau {
  double begin_mm = 0.0;         ///< first depth that belongs to it
  double step_mm = 0.0;          ///< depth of the first section that is clearly narrower
  double radius_mm = 0.0;        ///< just above the step
  double radius_below_mm = 0.0;  ///< of the next stretch, 0 where the hole ends in a point
};

/// Stretches of the profile in order of depth.
///
/// Shape:  sections in order of depth at `spacing_mm`, from where the whole ring is in material
[[nodiscard]] std::vector<Plateau> find_plateaus(std::span<const Section> sections,
                                                 double spacing_mm);

/// The stretch that counts as the full diameter: the deepest one as wide as the last planned drill,
/// or the first one when the hole nowhere is that wide. Nothing without plateaus.
[[nodiscard]] std::optional<Plateau> full_diameter_plateau(std::span<const Plateau> plateaus,
                                                           double last_drill_diameter_mm);

/// Depth of the shoulder below a plateau: where a 118 degree point would begin that leaves the
/// areas found there.
///
/// Unit:   mm along the planes' axis
/// Source: forward model of a cylinder with a conical point, blurred by ramp and interpolation,
///         solved for the depth by bisection. A point of another angle shifts the result by at most
///         0.1 mm per 30 degrees
[[nodiscard]] double shoulder_depth_mm(const RemovedRegion& region, const SlicePlanes& planes,
                                       const SliceExtent& extent, const Plateau& plateau);

}  // namespace driftbench::scoring
