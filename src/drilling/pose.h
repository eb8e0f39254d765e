// Where a drill is, and what it felt: the values that leave the step.
#pragma once

#include "math/vec.h"

#include <cstdint>

namespace driftbench::drilling {

/// Pose of a drill. `tip_mm` is the very point; the shoulder lies point-height above it.
/// Frame: site frame; axis points out of the bone, toward the handpiece.
struct DrillPose {
  math::Vec3 tip_mm{0.0, 0.0, 8.0};
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
};

/// One line of the load trace, taken every kStepsPerSample steps.
struct LoadSample {
  std::int64_t step = 0;
  DrillPose pose;
  double press_n = 0.0;                     ///< feed force of the hand along the drill
  double thrust_n = 0.0;                    ///< resistance of the material along the drill, >= 0
  math::Vec3 side_force_n{0.0, 0.0, 0.0};   ///< material on drill, perpendicular to the drill
  math::Vec3 guide_force_n{0.0, 0.0, 0.0};  ///< sleeve on drill, perpendicular to the drill
  double torque_nmm = 0.0;                  ///< from the specific energy of the material cut
  double power_w = 0.0;
  double feed_mm_per_s = 0.0;     ///< advance along the drill, + deeper
  double strength_mpa = 0.0;      ///< mean strength of what the point touches, 0 in air
  double heat_degc = 0.0;         ///< illustrative temperature at the wall
  std::int32_t drill_index = -1;  ///< in the kit
  bool in_contact = false;
};

inline constexpr std::int64_t kStepsPerSample = 10;

}  // namespace driftbench::drilling
