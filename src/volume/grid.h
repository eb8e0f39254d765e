// The regular voxel lattice that every field of a specimen is sampled on.
#pragma once

#include "math/vec.h"

#include <cstddef>

namespace driftbench::volume {

/// Lattice of cubic voxels; voxel (0,0,0) has its centre at `first_centre_mm`.
///
/// Shape:  index = (z * ny + y) * nx + x, x fastest
/// Frame:  site frame (right-handed, origin at the planned platform centre, +z out of the bone)
struct Grid {
  int nx = 0;
  int ny = 0;
  int nz = 0;
  double spacing_mm = 0.2;
  math::Vec3 first_centre_mm{0.0, 0.0, 0.0};

  [[nodiscard]] std::size_t voxel_count() const {
    return static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny) *
           static_cast<std::size_t>(nz);
  }

  [[nodiscard]] std::size_t index(int x, int y, int z) const {
    return (static_cast<std::size_t>(z) * static_cast<std::size_t>(ny) +
            static_cast<std::size_t>(y)) *
               static_cast<std::size_t>(nx) +
           static_cast<std::size_t>(x);
  }

  /// Half the number of steps between the first and the last voxel.
  [[nodiscard]] math::Vec3 half_span_vox() const {
    return 0.5 * math::Vec3(nx - 1, ny - 1, nz - 1);
  }

  [[nodiscard]] math::Vec3 middle_mm() const {
    return first_centre_mm + spacing_mm * half_span_vox();
  }

  /// Counted from the middle, so that a lattice that lies evenly about a plane is its own mirror
  /// image to the last bit.
  [[nodiscard]] math::Vec3 centre_mm(int x, int y, int z) const {
    return middle_mm() + spacing_mm * (math::Vec3(x, y, z) - half_span_vox());
  }

  [[nodiscard]] double voxel_volume_mm3() const { return spacing_mm * spacing_mm * spacing_mm; }
};

/// Half-open box of voxel indices; empty when any `end` is not above its `begin`.
struct VoxelBox {
  int x_begin = 0, y_begin = 0, z_begin = 0;
  int x_end = 0, y_end = 0, z_end = 0;

  [[nodiscard]] bool empty() const {
    return x_end <= x_begin || y_end <= y_begin || z_end <= z_begin;
  }

  /// Grows to contain `other`; an empty box contributes nothing.
  void include(const VoxelBox& other);

  /// Cuts the box down to the voxels that `grid` has.
  void clip(const Grid& grid);
};

}  // namespace driftbench::volume
