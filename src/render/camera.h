// Where a look at the site is taken from.
#pragma once

#include "math/vec.h"

namespace driftbench::render {

/// Camera around a point. Frame: site frame. Front look: operator stands at -y, looks toward +y.
struct Camera {
  double heading_deg = 0.0;     ///< 0: from -y (front); 90: from +x (side)
  double elevation_deg = 20.0;  ///< above the horizon
  double distance_mm = 70.0;
  math::Vec3 target_mm{0.0, 0.0, -2.0};
  double field_of_view_deg = 28.0;  ///< vertical
};

}  // namespace driftbench::render
