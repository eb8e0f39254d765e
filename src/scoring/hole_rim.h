// Where a hole begins: the depth at which its whole ring has entered the untouched material.
#pragma once

#include "scoring/hole_slicer.h"
#include "volume/volume.h"

#include <optional>

namespace driftbench::scoring {

/// True when a circle in a plane lies inside the material that was there before drilling.
[[nodiscard]] bool is_ring_in_material(const volume::Volume& volume, const SlicePlanes& planes,
                                       const math::Vec2& centre_mm, double radius_mm,
                                       double depth_mm);

/// Depth of the rim along the planes' axis; on a level top this is where the axis meets the
/// surface.
///
/// Result: nothing when the ring never lies inside (a hole that breaks out of a side)
[[nodiscard]] std::optional<double> find_rim_mm(const volume::Volume& volume,
                                                const SlicePlanes& planes, double radius_mm,
                                                double from_mm, double to_mm);

}  // namespace driftbench::scoring
