#include "specimen/block.h"

#include "math/angle.h"
#include "math/elementary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

/// Open voxels kept around the block, so that a surface is never cut off by the lattice.
constexpr int kMargin_vox = 3;
constexpr double kSmallestEdge_mm = 10.0;
constexpr double kLargestEdge_mm = 40.0;
constexpr double kSmallestVoxel_mm = 0.05;
constexpr double kLargestVoxel_mm = 0.5;
constexpr double kSteepestSlope_deg = 45.0;

std::optional<base::Error> outside(std::string_view field, double found, double low, double high,
                                   std::string_view unit) {
  if (found >= low && found <= high) {
    return std::nullopt;
  }
  return base::Error{
      base::ErrorCode::kOutOfRange,
      fmt::format("{} is {} {}, expected {} to {} {}", field, found, unit, low, high, unit), ""};
}

math::SinCos heading(double degrees) {
  return math::sincos(math::Radians(math::Degrees(degrees)).value);
}

/// Number of voxels that covers a length on both sides of its middle.
int voxels_for(double length_mm, double voxel_mm) {
  return static_cast<int>(std::ceil(length_mm / voxel_mm - 1e-9)) + 2 * kMargin_vox;
}

/// The block as half spaces and a glue plane.
struct Shape {
  double half_mm;
  double bottom_mm;
  math::Vec3 top_normal;       // outward, unit
  math::Vec3 boundary_normal;  // toward the second half, unit
  double boundary_offset_mm;

  /// Depth of a point below the nearest outer face; negative outside.
  [[nodiscard]] double inside_mm(const math::Vec3& p) const {
    const double walls = std::min(half_mm - std::fabs(p.x), half_mm - std::fabs(p.y));
    const double ends = std::min(p.z - bottom_mm, -math::dot(p, top_normal));
    return std::min(walls, ends);
  }

  [[nodiscard]] double beyond_boundary_mm(const math::Vec3& p) const {
    return math::dot(p, boundary_normal) - boundary_offset_mm;
  }
};

Shape shape_of(const BlockSpec& spec) {
  const math::SinCos boundary = heading(spec.boundary_deg);
  const math::SinCos slope = heading(spec.slope_deg);
  const math::SinCos fall = heading(spec.slope_direction_deg);
  return {0.5 * spec.edge_mm, -spec.edge_mm,
          math::Vec3(slope.sin * fall.cos, slope.sin * fall.sin, slope.cos),
          math::Vec3(boundary.cos, boundary.sin, 0.0), spec.boundary_offset_mm};
}

volume::Grid grid_of(const BlockSpec& spec) {
  const math::SinCos slope = heading(spec.slope_deg);
  const math::SinCos fall = heading(spec.slope_direction_deg);
  const double crest_mm =
      0.5 * spec.edge_mm * (std::fabs(fall.cos) + std::fabs(fall.sin)) * (slope.sin / slope.cos);
  volume::Grid grid;
  grid.spacing_mm = spec.voxel_mm;
  grid.nx = voxels_for(spec.edge_mm, spec.voxel_mm);
  grid.ny = grid.nx;
  grid.nz = grid.nx + static_cast<int>(std::ceil(crest_mm / spec.voxel_mm - 1e-9));
  const double first_xy = -spec.voxel_mm * (0.5 * (grid.nx - 1));
  grid.first_centre_mm = {first_xy, first_xy, first_xy - 0.5 * spec.edge_mm};
  return grid;
}

/// Share of a voxel on the far side of a plane at signed distance d, for a ramp one voxel wide.
double share(double distance_mm, double voxel_mm) {
  return std::clamp(0.5 + distance_mm / voxel_mm, 0.0, 1.0);
}

}  // namespace

base::Result<BlockSpec> validated(const BlockSpec& spec) {
  const double half_mm = 0.5 * spec.edge_mm;
  for (const std::optional<base::Error>& error :
       {outside("edge_mm", spec.edge_mm, kSmallestEdge_mm, kLargestEdge_mm, "mm"),
        outside("voxel_mm", spec.voxel_mm, kSmallestVoxel_mm, kLargestVoxel_mm, "mm"),
        outside("boundary_offset_mm", spec.boundary_offset_mm, -half_mm, half_mm, "mm"),
        outside("boundary_deg", spec.boundary_deg, -360.0, 360.0, "degrees"),
        outside("slope_deg", spec.slope_deg, 0.0, kSteepestSlope_deg, "degrees"),
        outside("slope_direction_deg", spec.slope_direction_deg, -360.0, 360.0, "degrees")}) {
    if (error) {
      return tl::make_unexpected(*error);
    }
  }
  return spec;
}

base::Result<volume::Volume> build_block(const BlockSpec& spec) {
  if (const base::Result<BlockSpec> checked = validated(spec); !checked) {
    return tl::make_unexpected(checked.error());
  }
  volume::Volume volume = volume::make_volume(grid_of(spec));
  const volume::Grid& grid = volume.grid;
  const Shape shape = shape_of(spec);
  const double first = foam_grade(spec.first).density_mg_per_cm3;
  const double second = spec.second ? foam_grade(*spec.second).density_mg_per_cm3 : first;
  const double ramp_mm = volume::kRampHalfWidth_vox * grid.spacing_mm;

  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        const math::Vec3 centre = grid.centre_mm(x, y, z);
        const std::size_t at = grid.index(x, y, z);
        const double cover = std::clamp(0.5 + 0.5 * shape.inside_mm(centre) / ramp_mm, 0.0, 1.0);
        volume.coverage[at] =
            static_cast<std::uint8_t>(static_cast<int>(cover * volume::kFullCoverage + 0.5));
        const double beyond = share(shape.beyond_boundary_mm(centre), grid.spacing_mm);
        volume.density_mg_per_cm3[at] =
            static_cast<std::uint16_t>(static_cast<int>(first + beyond * (second - first) + 0.5));
      }
    }
  }
  volume.initial_coverage = volume.coverage;
  return volume;
}

}  // namespace driftbench::specimen
