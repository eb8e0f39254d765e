// Test material: a block whose holes are stamped from closed formulas, not by the drilling code.
#pragma once

#include "math/vec.h"
#include "volume/volume.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace driftbench::scoring {

/// A drilled shape: cylinder with a conical point. It may be swept sideways, which leaves an oval.
struct StampedHole {
  math::Vec3 shoulder_mm{0.0, 0.0, -10.0};  ///< axis at the full-diameter floor
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
  double diameter_mm = 4.0;
  double half_point_deg = 59.0;
  math::Vec3 sweep_unit{1.0, 0.0, 0.0};  ///< perpendicular to the axis
  double half_sweep_mm = 0.0;
};

/// Level or sloped block: material lies on the negative side of a plane through the origin.
struct StampedBlock {
  double voxel_mm = 0.2;
  math::Vec3 size_mm{12.0, 12.0, 18.0};
  math::Vec3 shift_mm{0.0, 0.0, 0.0};  ///< of the lattice against the origin
  math::Vec3 top_normal{0.0, 0.0, 1.0};
};

inline std::uint8_t coverage_of(double outside_mm, double ramp_mm) {
  const double frac = std::clamp(0.5 + outside_mm / (2.0 * ramp_mm), 0.0, 1.0);
  return static_cast<std::uint8_t>(std::lround(255.0 * frac));
}

inline volume::Volume stamped_block(const StampedBlock& block) {
  volume::Grid grid;
  grid.spacing_mm = block.voxel_mm;
  grid.nx = static_cast<int>(std::ceil(block.size_mm.x / block.voxel_mm));
  grid.ny = static_cast<int>(std::ceil(block.size_mm.y / block.voxel_mm));
  grid.nz = static_cast<int>(std::ceil(block.size_mm.z / block.voxel_mm));
  const double above_mm = 4.0;
  grid.first_centre_mm = block.shift_mm + math::Vec3(-0.5 * block.voxel_mm * (grid.nx - 1),
                                                     -0.5 * block.voxel_mm * (grid.ny - 1),
                                                     above_mm - block.voxel_mm * (grid.nz - 1));
  volume::Volume volume = volume::make_volume(grid);
  const double ramp_mm = volume::kRampHalfWidth_vox * block.voxel_mm;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        const double outside_mm = math::dot(grid.centre_mm(x, y, z), block.top_normal);
        volume.initial_coverage[grid.index(x, y, z)] = coverage_of(-outside_mm, ramp_mm);
      }
    }
  }
  volume.coverage = volume.initial_coverage;
  return volume;
}

/// Signed distance to the shape, negative inside it.
inline double distance_to(const StampedHole& hole, const math::Vec3& point) {
  const math::Vec3 from = point - hole.shoulder_mm;
  const double height = math::dot(from, hole.axis_out_unit);
  math::Vec3 across = from - height * hole.axis_out_unit;
  const double along = math::dot(across, hole.sweep_unit);
  across -= std::clamp(along, -hole.half_sweep_mm, hole.half_sweep_mm) * hole.sweep_unit;
  const double radius = math::length(across);
  const double half_angle = hole.half_point_deg * 3.14159265358979323846 / 180.0;
  const double wall = radius - 0.5 * hole.diameter_mm;
  return std::max(wall, wall * std::cos(half_angle) - height * std::sin(half_angle));
}

inline void stamp(volume::Volume& volume, const StampedHole& hole) {
  const volume::Grid& grid = volume.grid;
  const double ramp_mm = volume::kRampHalfWidth_vox * grid.spacing_mm;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        const std::size_t at = grid.index(x, y, z);
        const std::uint8_t left = coverage_of(distance_to(hole, grid.centre_mm(x, y, z)), ramp_mm);
        if (left < volume.coverage[at]) {
          volume.lost_coverage += static_cast<std::uint64_t>(volume.coverage[at] - left);
          volume.coverage[at] = left;
        }
      }
    }
  }
}

}  // namespace driftbench::scoring
