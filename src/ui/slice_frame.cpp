#include "ui/slice_frame.h"

#include "math/angle.h"
#include "ui/study_model.h"
#include "volume/sample.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace driftbench::ui {
namespace {

constexpr double kDegrees = 180.0 / math::kPi;

std::optional<std::size_t> voxel_at(const volume::Grid& grid, const math::Vec3& p) {
  const math::Vec3 at = (p - grid.first_centre_mm) / grid.spacing_mm + 0.5;
  const int x = static_cast<int>(std::floor(at.x));
  const int y = static_cast<int>(std::floor(at.y));
  const int z = static_cast<int>(std::floor(at.z));
  if (x < 0 || y < 0 || z < 0 || x >= grid.nx || y >= grid.ny || z >= grid.nz) {
    return std::nullopt;
  }
  return grid.index(x, y, z);
}

}  // namespace

SlicePlane slice_plane(const SliceCross& cross, SliceKind kind, const math::Vec3& view_centre_mm) {
  const math::Vec3& up = cross.axis_out_unit;
  const math::Vec3 x(1.0, 0.0, 0.0);
  const math::Vec3 first = math::unit(x - math::dot(x, up) * up);
  const math::Vec3 second = math::cross(up, first);
  const double turn = cross.turn_deg / kDegrees;
  const math::Vec3 along = std::cos(turn) * first + std::sin(turn) * second;
  const math::Vec3 across = math::cross(up, along);
  SlicePlane plane;
  plane.right_unit = kind == SliceKind::kBuccoLingual ? across : along;
  plane.up_unit = kind == SliceKind::kAxial ? across : up;
  plane.away_unit = math::cross(plane.up_unit, plane.right_unit);
  const double behind = math::dot(cross.point_mm - view_centre_mm, plane.away_unit);
  plane.centre_mm = view_centre_mm + behind * plane.away_unit;
  return plane;
}

double slice_value(const volume::Volume& volume, const math::Vec3& p, bool single_voxel) {
  if (!single_voxel) {
    return density_at(volume, p) * coverage_at(volume, p);
  }
  const auto voxel = voxel_at(volume.grid, p);
  return voxel.has_value() ? volume.density_mg_per_cm3[*voxel] *
                                 (volume.coverage[*voxel] / double{volume::kFullCoverage})
                           : 0.0;
}

std::uint8_t tissue_label(const volume::Volume& volume, const math::Vec3& p) {
  const auto voxel = voxel_at(volume.grid, p);
  return voxel.has_value() && !volume.tissue.empty() ? volume.tissue[*voxel] : std::uint8_t{0};
}

double length_mm(const Measurement& distance) {
  return math::length(distance.points_mm.back() - distance.points_mm.front());
}

double angle_deg(const Measurement& angle) {
  const math::Vec3 a = angle.points_mm[0] - angle.points_mm[1];
  const math::Vec3 b = angle.points_mm[2] - angle.points_mm[1];
  return std::atan2(math::length(math::cross(a, b)), math::dot(a, b)) * kDegrees;
}

}  // namespace driftbench::ui
