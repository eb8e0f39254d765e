#include "volume/volume.h"

#include <algorithm>

namespace driftbench::volume {

void VoxelBox::include(const VoxelBox& other) {
  if (other.empty()) {
    return;
  }
  if (empty()) {
    *this = other;
    return;
  }
  x_begin = std::min(x_begin, other.x_begin);
  y_begin = std::min(y_begin, other.y_begin);
  z_begin = std::min(z_begin, other.z_begin);
  x_end = std::max(x_end, other.x_end);
  y_end = std::max(y_end, other.y_end);
  z_end = std::max(z_end, other.z_end);
}

void VoxelBox::clip(const Grid& grid) {
  x_begin = std::max(x_begin, 0);
  y_begin = std::max(y_begin, 0);
  z_begin = std::max(z_begin, 0);
  x_end = std::min(x_end, grid.nx);
  y_end = std::min(y_end, grid.ny);
  z_end = std::min(z_end, grid.nz);
}

double Volume::removed_mm3() const {
  return static_cast<double>(lost_coverage) / kFullCoverage * grid.voxel_volume_mm3();
}

VoxelBox Volume::take_dirty() {
  const VoxelBox box = dirty;
  dirty = VoxelBox{};
  return box;
}

void Volume::restore() {
  coverage = initial_coverage;
  std::fill(removal_tick.begin(), removal_tick.end(), kNeverRemoved);
  lost_coverage = 0;
  dirty = VoxelBox{0, 0, 0, grid.nx, grid.ny, grid.nz};
}

Volume make_volume(const Grid& grid) {
  Volume volume;
  volume.grid = grid;
  const std::size_t count = grid.voxel_count();
  volume.density_mg_per_cm3.assign(count, 0);
  volume.coverage.assign(count, 0);
  volume.initial_coverage.assign(count, 0);
  volume.removal_tick.assign(count, kNeverRemoved);
  volume.dirty = VoxelBox{0, 0, 0, grid.nx, grid.ny, grid.nz};
  return volume;
}

}  // namespace driftbench::volume
