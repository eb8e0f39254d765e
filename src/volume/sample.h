// Trilinear reading of a volume between voxel centres. Inline: read some hundred times per step.
#pragma once

#include "volume/volume.h"

namespace driftbench::volume {

/// Trilinear interpolation of a lattice field; 0 outside the lattice.
///
/// Shape:  field (nz, ny, nx), x fastest. Frame: site frame. Cost: eight reads, no allocation
template <typename T>
[[nodiscard]] inline double trilinear(const Grid& grid, const T* field,
                                      const math::Vec3& point_mm) {
  // Counted from the middle and weighted by the distances to both neighbours, so that a mirrored
  // point in a mirrored field reads the same bits.
  const math::Vec3 half = grid.half_span_vox();
  const math::Vec3 from_middle = (point_mm - grid.middle_mm()) * (1.0 / grid.spacing_mm);
  const math::Vec3 at = from_middle + half;
  if (!(at.x >= 0.0 && at.y >= 0.0 && at.z >= 0.0) ||
      !(at.x < grid.nx - 1 && at.y < grid.ny - 1 && at.z < grid.nz - 1)) {
    return 0.0;
  }
  const int x = static_cast<int>(at.x);
  const int y = static_cast<int>(at.y);
  const int z = static_cast<int>(at.z);
  const math::Vec3 low_centre = math::Vec3(x, y, z) - half;
  const math::Vec3 to_high = from_middle - low_centre;  // share of the higher neighbour
  const math::Vec3 to_low = (low_centre + 1.0) - from_middle;
  const std::size_t row = static_cast<std::size_t>(grid.nx);
  const std::size_t slab = row * static_cast<std::size_t>(grid.ny);
  const T* corner = field + grid.index(x, y, z);
  const auto edge = [&](std::size_t offset) {
    const double low = static_cast<double>(corner[offset]);
    const double high = static_cast<double>(corner[offset + 1]);
    return to_low.x * low + to_high.x * high;
  };
  const double near = to_low.y * edge(0) + to_high.y * edge(row);
  const double far = to_low.y * edge(slab) + to_high.y * edge(slab + row);
  return to_low.z * near + to_high.z * far;
}

/// Remaining material at a point, 0 (none) to 1 (full); 0 outside the lattice.
[[nodiscard]] inline double coverage_at(const Volume& volume, const math::Vec3& point_mm) {
  return trilinear(volume.grid, volume.coverage.data(), point_mm) * (1.0 / kFullCoverage);
}

/// Density of the material field at a point, whether or not it has been removed; 0 outside.
///
/// Unit: mg/cm^3
[[nodiscard]] inline double density_at(const Volume& volume, const math::Vec3& point_mm) {
  return trilinear(volume.grid, volume.density_mg_per_cm3.data(), point_mm);
}

/// Distance from a point to the material's surface along the ramp: positive in the open, 0 on the
/// surface, negative inside; saturates at plus or minus one ramp half width.
///
/// Unit: mm. Source: inverse of the coverage ramp, see kRampHalfWidth_vox
[[nodiscard]] inline double surface_gap_mm(const Volume& volume, const math::Vec3& point_mm) {
  const double ramp_mm = kRampHalfWidth_vox * volume.grid.spacing_mm;
  return (0.5 - coverage_at(volume, point_mm)) * 2.0 * ramp_mm;
}

}  // namespace driftbench::volume
