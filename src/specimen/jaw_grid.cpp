#include "specimen/jaw_grid.h"

#include "specimen/tooth_number.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr int kMargin_vox = 3;         // open voxels round the section
constexpr double kGumHeight_mm = 5.0;  // above z = 0, without teeth
constexpr double kSide_mm = 3.0;       // soft tissue and crowns beside the bone

/// The section's box in the jaw frame.
JawBox section_box(const JawSpec& spec) {
  JawBox box;
  double facial = 0.0;
  double lingual = 0.0;
  double deepest = 0.0;
  for (const RidgeSpec* ridge : {&spec.ridge, &spec.tooth_ridge}) {
    for (const OutlinePoint& point : outline_of(*ridge, CortexSpec{})) {
      deepest = std::max(deepest, -point.at.y);
      if (point.at.y > -spec.depth_mm - 1.0) {
        facial = std::min(facial, point.at.x);
        lingual = std::max(lingual, point.at.x);
      }
    }
  }
  const double half = 0.5 * spec.length_mm;
  // Bent toward the lingual side by the arch at the ends.
  const double bent = spec.arch_radius_mm > 0.0 ? 0.7 * half * half / spec.arch_radius_mm : 0.0;
  box.include({-half, facial - kSide_mm, -std::min(deepest, spec.depth_mm)});
  double top = kGumHeight_mm;
  for (const ToothSpec& tooth : spec.teeth) {
    top = std::max(top, tooth.neck_mm + tooth.scale * average_tooth(tooth.fdi).crown_mm + 0.5);
  }
  box.include({half, lingual + kSide_mm + bent, top});
  return box;
}

JawBox posed_box(const JawSpec& spec, const JawPose& pose) {
  const JawBox jaw = section_box(spec);
  JawBox core;
  for (const double x : {jaw.low.x, jaw.high.x}) {
    for (const double y : {jaw.low.y, jaw.high.y}) {
      for (const double z : {jaw.low.z, jaw.high.z}) {
        core.include(pose.to_core({x, y, z}));
      }
    }
  }
  return core;
}

}  // namespace

volume::Grid jaw_grid(const JawSpec& spec, const JawPose& pose) {
  const JawBox box = posed_box(spec, pose);
  volume::Grid grid;
  grid.spacing_mm = spec.voxel_mm;
  const auto count = [&](double length) {
    return static_cast<int>(std::ceil(length / spec.voxel_mm - 1e-9)) + 2 * kMargin_vox;
  };
  grid.nx = count(box.high.x - box.low.x);
  grid.ny = count(box.high.y - box.low.y);
  grid.nz = count(box.high.z - box.low.z);
  const math::Vec3 middle = 0.5 * (box.low + box.high);
  grid.first_centre_mm =
      middle - 0.5 * spec.voxel_mm * math::Vec3(grid.nx - 1, grid.ny - 1, grid.nz - 1);
  return grid;
}

}  // namespace driftbench::specimen
