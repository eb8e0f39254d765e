// Trilinear reading of a volume between voxel centres.
#pragma once

#include "volume/volume.h"

namespace driftbench::volume {

/// Remaining material at a point, 0 (none) to 1 (full); 0 outside the lattice.
///
/// Frame: site frame. Cost: eight reads, no allocation
[[nodiscard]] double coverage_at(const Volume& volume, const math::Vec3& point_mm);

/// Density of the material field at a point, whether or not it has been removed; 0 outside.
///
/// Unit: mg/cm^3
[[nodiscard]] double density_at(const Volume& volume, const math::Vec3& point_mm);

/// Distance from a point to the material's surface along the ramp: positive in the open, 0 on the
/// surface, negative inside; saturates at plus or minus one ramp half width.
///
/// Unit: mm. Source: inverse of the coverage ramp, see kRampHalfWidth_vox
[[nodiscard]] double surface_gap_mm(const Volume& volume, const math::Vec3& point_mm);

}  // namespace driftbench::volume
