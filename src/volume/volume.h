// Material density and remaining coverage of a specimen, with the boxes that changed.
#pragma once

#include "volume/grid.h"

#include <cstdint>
#include <vector>

namespace driftbench::volume {

/// Half width of the coverage ramp across a surface, in voxels. Coverage is
/// 0.5 + signed_distance / (2 * ramp) clamped to 0..1, so that trilinear interpolation is exact for
/// a plane and the surface can be found again to a few micrometres. Own assumption (numerical).
inline constexpr double kRampHalfWidth_vox = 1.0;

/// Coverage that stands for 'full'.
inline constexpr std::uint8_t kFullCoverage = 255;

/// Removal tick of a voxel from which nothing has been removed.
inline constexpr std::uint16_t kNeverRemoved = 0xFFFF;

/// Steps of one removal tick (50 ms): coarse enough for u16, fine enough for a scrubber.
inline constexpr std::int64_t kStepsPerRemovalTick = 50;

/// A specimen as the drill meets it. Density is written once; only coverage changes.
///
/// Shape:  all fields (nz, ny, nx), x fastest; see Grid
/// Unit:   density in mg/cm^3, of the material field (it goes on beyond the surface; coverage says
///         where material is); coverage 0..255 = 0..1; removal tick in 50 ms; tissue labels are
///         those of specimen/tissue.h, written once
struct Volume {
  Grid grid;
  std::vector<std::uint16_t> density_mg_per_cm3;
  std::vector<std::uint8_t> coverage;
  std::vector<std::uint8_t> initial_coverage;
  std::vector<std::uint16_t> removal_tick;
  std::vector<std::uint8_t> tissue;  ///< tissue label of each voxel; empty where there is only one
  VoxelBox dirty;                    ///< changed since the last take_dirty()
  std::uint64_t lost_coverage = 0;   ///< sum of all coverage units removed so far

  /// Volume removed so far: lost coverage times voxel volume.
  [[nodiscard]] double removed_mm3() const;

  /// Returns the changed box and forgets it.
  [[nodiscard]] VoxelBox take_dirty();

  /// Puts back every removed voxel; the result equals a freshly built specimen.
  void restore();
};

/// An air-filled volume of the given lattice, coverage 0 everywhere.
[[nodiscard]] Volume make_volume(const Grid& grid);

}  // namespace driftbench::volume
