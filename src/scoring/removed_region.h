// The connected piece of removed material that is the hole, cut out of the specimen.
#pragma once

#include "base/result.h"
#include "math/vec.h"
#include "volume/grid.h"
#include "volume/volume.h"

#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::scoring {

/// Removed material of one hole on its own small lattice, with a border of untouched voxels.
///
/// Shape:  removed (nz, ny, nx) of `grid`, x fastest
/// Unit:   removed 0..255 = fraction 0..1 of a voxel
struct RemovedRegion {
  volume::Grid grid;
  std::vector<std::uint8_t> removed;
  double volume_mm3 = 0.0;
};

/// Finds the hole: of the connected removed regions that reach the surface and are at least
/// `min_extent_mm` long along the axis, the one that meets the surface nearest to the point.
///
/// Frame:  site frame; axis out of the bone
/// Errors: kInvalidArgument with one sentence when nothing was removed or nothing is deep enough
/// Cost:   one pass over the specimen, then only the box of what was removed
[[nodiscard]] base::Result<RemovedRegion> find_removed_region(const volume::Volume& volume,
                                                              const math::Vec3& near_mm,
                                                              const math::Vec3& axis_out_unit,
                                                              double min_extent_mm);

/// Trilinear value of a 0..255 field as a fraction; 0 outside the lattice.
[[nodiscard]] double sample_frac(const volume::Grid& grid, std::span<const std::uint8_t> field,
                                 const math::Vec3& point_mm);

}  // namespace driftbench::scoring
