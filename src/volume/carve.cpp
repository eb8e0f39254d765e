#include "volume/carve.h"

#include "base/contract.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

namespace driftbench::volume {
namespace {

/// Voxels handled at once: long enough to vectorise, short enough to skip empty runs.
constexpr int kRun = 8;

/// Longest row of a lattice. A block of 40 mm on 0.05 mm voxels has 800.
constexpr int kLongestRow = 1024;

/// Axis this close to the x direction: a row has no ends across the axis (1 - axis_x^2).
constexpr float kNearlyAlongRow = 1e-3F;

/// Box of voxels around the part of the axis from a to b, `reach_mm` across it.
VoxelBox box_around(const Grid& grid, const math::Vec3& a, const math::Vec3& b,
                    const math::Vec3& axis, double reach_mm) {
  const math::Vec3 from = a - grid.first_centre_mm;
  const math::Vec3 to = b - grid.first_centre_mm;
  VoxelBox box;
  const auto span = [&](double p, double q, double along, int& begin, int& end) {
    const double across = reach_mm * std::sqrt(std::max(0.0, 1.0 - along * along));
    begin = static_cast<int>(std::floor((std::min(p, q) - across) / grid.spacing_mm));
    end = static_cast<int>(std::floor((std::max(p, q) + across) / grid.spacing_mm)) + 2;
  };
  span(from.x, to.x, axis.x, box.x_begin, box.x_end);
  span(from.y, to.y, axis.y, box.y_begin, box.y_end);
  span(from.z, to.z, axis.z, box.z_begin, box.z_end);
  box.clip(grid);
  return box;
}

/// The solid and pose in single precision, ready for the inner loop.
struct Kernel {
  float radius, sine, cosine, neck, ball;
  float axis_x, axis_y, axis_z;
  float scale;  ///< coverage units per mm of distance
  float reach;  ///< distance from the axis beyond which nothing changes
};

/// Coverage that the solid leaves at `kRun` neighbouring voxels of one row.
///
/// x_mm are the voxels' offsets from the tip along x, y and z the row's; all in mm.
template <bool kIsBall>
void left_by_solid(const Kernel& k, const float* x_mm, float y, float z, std::uint8_t* left) {
  const float row_axial = y * k.axis_y + z * k.axis_z;
  const float row_square = y * y + z * z;
  for (int i = 0; i < kRun; ++i) {
    const float x = x_mm[i];
    const float height = x * k.axis_x + row_axial;
    const float square = x * x + row_square;
    const float radius = std::sqrt(std::max(square - height * height, 0.0F));
    float distance = 0.0F;
    if constexpr (kIsBall) {
      const float above = height - k.ball;
      const float to_ball = std::sqrt(radius * radius + above * above) - k.ball;
      const float to_neck = std::max(radius - k.neck, -above);
      distance = std::min(to_ball, to_neck);
    } else {
      distance = std::max(radius - k.radius, radius * k.cosine - height * k.sine);
    }
    const float units = distance * k.scale + 128.0F;  // 127.5 at the surface, rounded to nearest
    left[i] = static_cast<std::uint8_t>(static_cast<int>(std::clamp(units, 0.0F, 255.0F)));
  }
}

/// Part of a row, in voxels, that lies within the solid's reach of its axis.
///
/// The squared distance from the axis is a quadratic in x; the part is where it stays below
/// reach^2.
struct RowPart {
  int begin = 0;
  int end = 0;
};

RowPart part_of_row(const Kernel& k, float y, float z, float reach, double first_mm,
                    double spacing_mm, const VoxelBox& box) {
  const float along = y * k.axis_y + z * k.axis_z;
  const float a = 1.0F - k.axis_x * k.axis_x;
  const float half_b = -k.axis_x * along;
  const float c = y * y + z * z - along * along - reach * reach;
  const float discriminant = half_b * half_b - a * c;
  if (a < kNearlyAlongRow) {
    return {box.x_begin, box.x_end};
  }
  if (discriminant <= 0.0F) {
    return {0, 0};
  }
  const float root = std::sqrt(discriminant);
  const double low_mm = static_cast<double>((-half_b - root) / a) - first_mm;
  const double high_mm = static_cast<double>((-half_b + root) / a) - first_mm;
  return {std::max(box.x_begin, static_cast<int>(std::floor(low_mm / spacing_mm))),
          std::min(box.x_end, static_cast<int>(std::floor(high_mm / spacing_mm)) + 2)};
}

template <bool kIsBall>
std::uint64_t carve_box(Volume& volume, const Kernel& k, const math::Vec3& tip_mm,
                        const VoxelBox& box, std::uint16_t tick) {
  const Grid& grid = volume.grid;
  // Offsets of the row's voxels from the tip: one by one, so that mirror images have mirrored bits.
  std::array<float, kLongestRow + kRun> offset_mm{};
  const int last = std::min(box.x_end + kRun, grid.nx);
  for (int x = box.x_begin; x < last; ++x) {
    offset_mm[static_cast<std::size_t>(x - box.x_begin)] =
        static_cast<float>(grid.centre_mm(x, 0, 0).x - tip_mm.x);
  }
  std::uint64_t lost = 0;
  std::uint8_t left[kRun];
  for (int z = box.z_begin; z < box.z_end; ++z) {
    for (int y = box.y_begin; y < box.y_end; ++y) {
      const std::size_t row = grid.index(0, y, z);
      const math::Vec3 start = grid.centre_mm(0, y, z) - tip_mm;
      const float row_y = static_cast<float>(start.y);
      const float row_z = static_cast<float>(start.z);
      const RowPart part = part_of_row(k, row_y, row_z, k.reach, start.x, grid.spacing_mm, box);
      for (int x = part.begin; x < part.end; x += kRun) {
        const int run = std::min(kRun, grid.nx - x);
        std::uint8_t* cover = volume.coverage.data() + row + static_cast<std::size_t>(x);
        if (run == kRun) {
          std::uint64_t all = 0;
          std::memcpy(&all, cover, sizeof(all));
          if (all == 0) {
            continue;
          }
        }
        left_by_solid<kIsBall>(k, offset_mm.data() + (x - box.x_begin), row_y, row_z, left);
        std::uint16_t* ticks = volume.removal_tick.data() + row + static_cast<std::size_t>(x);
        std::uint32_t run_lost = 0;
        for (int i = 0; i < run; ++i) {
          const std::uint8_t now = std::min(cover[i], left[i]);
          run_lost += static_cast<std::uint32_t>(cover[i] - now);
          ticks[i] = now < cover[i] ? tick : ticks[i];
          cover[i] = now;
        }
        lost += run_lost;
      }
    }
  }
  return lost;
}

}  // namespace

double signed_distance_mm(const RevolvedSolid& solid, double radius_mm, double height_mm) {
  if (solid.point == RevolvedSolid::Point::kBall) {
    const double above = height_mm - solid.radius_mm;
    const double to_ball = std::sqrt(radius_mm * radius_mm + above * above) - solid.radius_mm;
    return std::min(to_ball, std::max(radius_mm - solid.neck_radius_mm, -above));
  }
  return std::max(radius_mm - solid.radius_mm,
                  radius_mm * solid.half_angle_cos - height_mm * solid.half_angle_sin);
}

std::uint64_t carve(Volume& volume, const RevolvedSolid& solid, const math::Vec3& tip_mm,
                    const math::Vec3& axis_unit, double from_mm, double to_mm,
                    std::uint16_t removal_tick) {
  DRIFTBENCH_EXPECTS(volume.grid.nx <= kLongestRow);
  const double ramp_mm = kRampHalfWidth_vox * volume.grid.spacing_mm;
  // Below a point that sharp the ramp reaches farther than its half width.
  const double sine = solid.point == RevolvedSolid::Point::kBall ? 1.0 : solid.half_angle_sin;
  const double begin_mm = from_mm - ramp_mm / sine;
  const VoxelBox box = box_around(volume.grid, tip_mm + begin_mm * axis_unit,
                                  tip_mm + to_mm * axis_unit, axis_unit, solid.radius_mm + ramp_mm);
  if (box.empty()) {
    return 0;
  }
  const Kernel kernel{static_cast<float>(solid.radius_mm),
                      static_cast<float>(solid.half_angle_sin),
                      static_cast<float>(solid.half_angle_cos),
                      static_cast<float>(solid.neck_radius_mm),
                      static_cast<float>(solid.radius_mm),
                      static_cast<float>(axis_unit.x),
                      static_cast<float>(axis_unit.y),
                      static_cast<float>(axis_unit.z),
                      static_cast<float>(0.5 * kFullCoverage / ramp_mm),
                      static_cast<float>(solid.radius_mm + ramp_mm)};
  const std::uint64_t lost = solid.point == RevolvedSolid::Point::kBall
                                 ? carve_box<true>(volume, kernel, tip_mm, box, removal_tick)
                                 : carve_box<false>(volume, kernel, tip_mm, box, removal_tick);
  if (lost > 0) {
    volume.lost_coverage += lost;
    volume.dirty.include(box);
  }
  return lost;
}

}  // namespace driftbench::volume
