// The lattice that a jaw section needs.
#pragma once

#include "specimen/jaw.h"
#include "specimen/jaw_pose.h"
#include "volume/grid.h"

#include <algorithm>

namespace driftbench::specimen {

/// Box that grows by points.
struct JawBox {
  math::Vec3 low{1e9};
  math::Vec3 high{-1e9};

  void include(const math::Vec3& p) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
};

/// Lattice round the whole section: bone, gum and crowns, with open voxels on every side.
[[nodiscard]] volume::Grid jaw_grid(const JawSpec& spec, const JawPose& pose);

}  // namespace driftbench::specimen
