// The bench block: a foam cube of one grade or of two glued halves, with a level or sloped top.
#pragma once

#include "base/result.h"
#include "specimen/material.h"
#include "volume/volume.h"

#include <optional>
#include <string>

namespace driftbench::specimen {

/// Description of a bench block.
///
/// Frame: site frame; the block's top centre is the origin, its faces are parallel to x, y and z.
///        `boundary_deg` turns the glue plane about +z: its normal, pointing from the first half to
///        the second, is (cos, sin, 0). The first half lies on the negative side of the plane.
struct BlockSpec {
  std::string id = "block";
  double edge_mm = 25.4;
  double voxel_mm = 0.15;  ///< coarser ones move a leaning, widening drill (MODEL section 7)
  DensityClass first = DensityClass::kD1;
  std::optional<DensityClass> second;  ///< absent: a uniform block
  double boundary_offset_mm = 0.0;     ///< from the centre along the normal
  double boundary_deg = 0.0;
  double slope_deg = 0.0;            ///< top falls by this angle; the top centre stays at z = 0
  double slope_direction_deg = 0.0;  ///< heading in which the top falls, about +z from +x

  friend bool operator==(const BlockSpec&, const BlockSpec&) = default;
};

/// Checks ranges: edge 10..40 mm, voxel 0.05..0.5 mm, slope 0..60 deg, |offset| < edge/2.
///
/// Errors: kOutOfRange with the field, what was found and what was expected
[[nodiscard]] base::Result<BlockSpec> validated(const BlockSpec& spec);

/// Fills a volume with the block. Densities across the glue plane and coverage across every outer
/// face are averaged over the voxel, so a turned block gives the turned result.
///
/// Errors: as validated()
[[nodiscard]] base::Result<volume::Volume> build_block(const BlockSpec& spec);

}  // namespace driftbench::specimen
