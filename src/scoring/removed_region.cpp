#include "scoring/removed_region.h"

#include "base/contract.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>

namespace driftbench::scoring {

namespace {

using volume::Grid;
using volume::Volume;
using volume::VoxelBox;

/// Untouched voxels around the cut-out, so that interpolation never leaves it.
constexpr int kBorder_vox = 2;

std::uint8_t removed_at(const Volume& volume, std::size_t index) {
  const std::uint8_t before = volume.initial_coverage[index];
  const std::uint8_t now = volume.coverage[index];
  return before > now ? static_cast<std::uint8_t>(before - now) : std::uint8_t{0};
}

/// Smallest box with every voxel that lost material.
VoxelBox removed_box(const Volume& volume) {
  const Grid& grid = volume.grid;
  VoxelBox box;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      const std::size_t row = grid.index(0, y, z);
      for (int x = 0; x < grid.nx; ++x) {
        if (removed_at(volume, row + static_cast<std::size_t>(x)) != 0) {
          box.include(VoxelBox{x, y, z, x + 1, y + 1, z + 1});
        }
      }
    }
  }
  return box;
}

/// The lattice of a box plus the border; it may reach beyond the specimen's lattice.
Grid bordered_grid(const Grid& grid, const VoxelBox& box) {
  Grid local;
  local.nx = box.x_end - box.x_begin + 2 * kBorder_vox;
  local.ny = box.y_end - box.y_begin + 2 * kBorder_vox;
  local.nz = box.z_end - box.z_begin + 2 * kBorder_vox;
  local.spacing_mm = grid.spacing_mm;
  local.first_centre_mm = grid.centre_mm(box.x_begin - kBorder_vox, box.y_begin - kBorder_vox,
                                         box.z_begin - kBorder_vox);
  return local;
}

/// One connected piece while pieces are compared.
struct Piece {
  std::vector<std::size_t> voxels;  ///< indices in the local lattice
  double surface_distance2_mm2 = 0.0;
  double shallowest_mm = 0.0;  ///< along the axis out of the bone
  double deepest_mm = 0.0;
  bool has_surface = false;
};

/// Local copies of what the search reads.
struct Field {
  Grid grid;
  std::vector<std::uint8_t> removed;
  std::vector<std::uint8_t> is_surface;
};

Field cut_out(const Volume& volume, const VoxelBox& box) {
  Field field;
  field.grid = bordered_grid(volume.grid, box);
  field.removed.assign(field.grid.voxel_count(), 0);
  field.is_surface.assign(field.grid.voxel_count(), 0);
  for (int z = box.z_begin; z < box.z_end; ++z) {
    for (int y = box.y_begin; y < box.y_end; ++y) {
      for (int x = box.x_begin; x < box.x_end; ++x) {
        const std::size_t from = volume.grid.index(x, y, z);
        const std::size_t to =
            field.grid.index(x - box.x_begin + kBorder_vox, y - box.y_begin + kBorder_vox,
                             z - box.z_begin + kBorder_vox);
        field.removed[to] = removed_at(volume, from);
        field.is_surface[to] = volume.initial_coverage[from] < volume::kFullCoverage ? 1 : 0;
      }
    }
  }
  return field;
}

/// Collects the voxels that hang together with `seed` over their faces and marks them as seen.
Piece flood(const Field& field, std::size_t seed, std::vector<std::uint8_t>& seen,
            const math::Vec3& near_mm, const math::Vec3& axis_out_unit) {
  const Grid& grid = field.grid;
  const std::size_t step_y = static_cast<std::size_t>(grid.nx);
  const std::size_t step_z = step_y * static_cast<std::size_t>(grid.ny);
  Piece piece;
  piece.voxels.push_back(seed);
  seen[seed] = 1;
  for (std::size_t next = 0; next < piece.voxels.size(); ++next) {
    const std::size_t at = piece.voxels[next];
    const int x = static_cast<int>(at % step_y);
    const int y = static_cast<int>((at % step_z) / step_y);
    const int z = static_cast<int>(at / step_z);
    const math::Vec3 centre = grid.centre_mm(x, y, z);
    const double height = math::dot(centre - near_mm, axis_out_unit);
    piece.shallowest_mm = next == 0 ? height : std::max(piece.shallowest_mm, height);
    piece.deepest_mm = next == 0 ? height : std::min(piece.deepest_mm, height);
    if (field.is_surface[at] != 0) {
      const double distance2 = math::length2(centre - near_mm);
      piece.surface_distance2_mm2 =
          piece.has_surface ? std::min(piece.surface_distance2_mm2, distance2) : distance2;
      piece.has_surface = true;
    }
    // The border is never removed, so neighbours always exist.
    const std::array<std::size_t, 6> neighbours{at - 1,      at + 1,      at - step_y,
                                                at + step_y, at - step_z, at + step_z};
    for (const std::size_t neighbour : neighbours) {
      if (field.removed[neighbour] != 0 && seen[neighbour] == 0) {
        seen[neighbour] = 1;
        piece.voxels.push_back(neighbour);
      }
    }
  }
  return piece;
}

RemovedRegion region_of(const Field& field, const Piece& piece) {
  RemovedRegion region;
  region.grid = field.grid;
  region.removed.assign(field.grid.voxel_count(), 0);
  std::uint64_t sum = 0;
  for (const std::size_t voxel : piece.voxels) {
    region.removed[voxel] = field.removed[voxel];
    sum += field.removed[voxel];
  }
  region.volume_mm3 = static_cast<double>(sum) / static_cast<double>(volume::kFullCoverage) *
                      field.grid.voxel_volume_mm3();
  return region;
}

}  // namespace

base::Result<RemovedRegion> find_removed_region(const Volume& volume, const math::Vec3& near_mm,
                                                const math::Vec3& axis_out_unit,
                                                double min_extent_mm) {
  DRIFTBENCH_EXPECTS(volume.coverage.size() == volume.grid.voxel_count());
  DRIFTBENCH_EXPECTS(volume.initial_coverage.size() == volume.grid.voxel_count());
  const VoxelBox box = removed_box(volume);
  if (box.empty()) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "Nothing was removed, so there is no hole to measure.");
  }
  const Field field = cut_out(volume, box);
  std::vector<std::uint8_t> seen(field.grid.voxel_count(), 0);
  std::optional<Piece> best;
  for (std::size_t seed = 0; seed < field.removed.size(); ++seed) {
    if (field.removed[seed] == 0 || seen[seed] != 0) {
      continue;
    }
    Piece piece = flood(field, seed, seen, near_mm, axis_out_unit);
    const bool is_long = piece.shallowest_mm - piece.deepest_mm >= min_extent_mm;
    if (is_long && piece.has_surface &&
        (!best || piece.surface_distance2_mm2 < best->surface_distance2_mm2)) {
      best = std::move(piece);
    }
  }
  if (!best) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "What was removed is less than 1 mm deep, too shallow to measure as a hole.");
  }
  return region_of(field, *best);
}

double sample_frac(const Grid& grid, std::span<const std::uint8_t> field,
                   const math::Vec3& point_mm) {
  const double scale = 1.0 / grid.spacing_mm;
  const double gx = (point_mm.x - grid.first_centre_mm.x) * scale;
  const double gy = (point_mm.y - grid.first_centre_mm.y) * scale;
  const double gz = (point_mm.z - grid.first_centre_mm.z) * scale;
  if (!(gx >= 0.0 && gy >= 0.0 && gz >= 0.0) || gx >= grid.nx - 1 || gy >= grid.ny - 1 ||
      gz >= grid.nz - 1) {
    return 0.0;
  }
  const int x = static_cast<int>(gx);
  const int y = static_cast<int>(gy);
  const int z = static_cast<int>(gz);
  const double fx = gx - x;
  const double fy = gy - y;
  const double fz = gz - z;
  const std::uint8_t* low = field.data() + grid.index(x, y, z);
  const std::uint8_t* high =
      low + static_cast<std::size_t>(grid.nx) * static_cast<std::size_t>(grid.ny);
  const std::size_t row = static_cast<std::size_t>(grid.nx);
  const auto across = [fx, fy, row](const std::uint8_t* at) {
    const double near_row = at[0] + fx * (at[1] - at[0]);
    const double far_row = at[row] + fx * (at[row + 1] - at[row]);
    return near_row + fy * (far_row - near_row);
  };
  const double below = across(low);
  const double value = below + fz * (across(high) - below);
  return value * (1.0 / static_cast<double>(volume::kFullCoverage));
}

}  // namespace driftbench::scoring
