#include "volume/sample.h"

namespace driftbench::volume {
namespace {

/// Trilinear interpolation of any lattice field.
template <typename T>
double trilinear(const Grid& grid, const T* field, const math::Vec3& point_mm) {
  const math::Vec3 at = (point_mm - grid.first_centre_mm) / grid.spacing_mm;
  if (!(at.x >= 0.0 && at.y >= 0.0 && at.z >= 0.0)) {
    return 0.0;
  }
  if (!(at.x < grid.nx - 1 && at.y < grid.ny - 1 && at.z < grid.nz - 1)) {
    return 0.0;
  }
  const int x = static_cast<int>(at.x);
  const int y = static_cast<int>(at.y);
  const int z = static_cast<int>(at.z);
  const double fx = at.x - x;
  const double fy = at.y - y;
  const double fz = at.z - z;
  const std::size_t row = static_cast<std::size_t>(grid.nx);
  const std::size_t slab = row * static_cast<std::size_t>(grid.ny);
  const T* corner = field + grid.index(x, y, z);
  const auto edge = [&](std::size_t offset) {
    const double low = static_cast<double>(corner[offset]);
    const double high = static_cast<double>(corner[offset + 1]);
    return low + fx * (high - low);
  };
  const double near = edge(0) + fy * (edge(row) - edge(0));
  const double far = edge(slab) + fy * (edge(slab + row) - edge(slab));
  return near + fz * (far - near);
}

}  // namespace

double coverage_at(const Volume& volume, const math::Vec3& point_mm) {
  return trilinear(volume.grid, volume.coverage.data(), point_mm) * (1.0 / kFullCoverage);
}

double density_at(const Volume& volume, const math::Vec3& point_mm) {
  return trilinear(volume.grid, volume.density_mg_per_cm3.data(), point_mm);
}

double surface_gap_mm(const Volume& volume, const math::Vec3& point_mm) {
  const double ramp_mm = kRampHalfWidth_vox * volume.grid.spacing_mm;
  return (0.5 - coverage_at(volume, point_mm)) * 2.0 * ramp_mm;
}

}  // namespace driftbench::volume
