// The shapes of drills, from their kit entries.
#pragma once

#include "render/mesh.h"
#include "specimen/kit.h"

namespace driftbench::render {

/// Heights along a drill above its very point.
struct DrillLengths {
  double point_mm = 0.0;     ///< up to the full diameter
  double body_end_mm = 0.0;  ///< end of the cutting body
  double shank_mm = 0.0;     ///< where the thin shank begins
  double head_mm = 0.0;      ///< lower edge of the handpiece's head
};

[[nodiscard]] DrillLengths lengths_of(const specimen::Drill& drill);

/// Body, collar and shank. Frame: tip in the origin, axis +z.
[[nodiscard]] MeshData drill_mesh(const specimen::Drill& drill);

/// Collar that stops the drill, its lower face at z = 0, around a drill of this radius.
[[nodiscard]] MeshData stop_mesh(double drill_radius_mm);

/// Length by which a direction pin stands out of the hole.
inline constexpr double kPinAbove_mm = 14.0;

/// Straight pin with a groove where it leaves a hole of this depth. Frame: end in the origin, +z.
[[nodiscard]] MeshData pin_mesh(double diameter_mm, double depth_mm);

}  // namespace driftbench::render
