// A drill as the step sees it: a solid to remove material with, and surface elements that feel it.
#pragma once

#include "math/vec.h"
#include "specimen/kit.h"
#include "volume/carve.h"

#include <vector>

namespace driftbench::drilling {

/// Zones that resist differently.
enum class Zone { kChisel, kLip, kMargin, kSideLip };

/// One piece of the drill's surface in the drill's frame (tip at the origin, +z into the shank).
struct SurfaceElement {
  math::Vec3 position_mm{};
  math::Vec3 normal{};  ///< outward, unit
  double area_mm2 = 0.0;
  double radius_mm = 0.0;  ///< lever of the cutting force
  Zone zone = Zone::kLip;
};

/// Drill geometry, fixed for an attempt.
struct Tool {
  volume::RevolvedSolid solid;
  double radius_mm = 0.0;
  double point_height_mm = 0.0;          ///< tip to shoulder
  double body_end_mm = 0.0;              ///< tip to the end of the cutting body
  std::vector<SurfaceElement> elements;  ///< sorted by height
};

/// Samples a drill of the kit into elements whose areas add up to its surface.
///
/// Source: geometry; share of the point's radius that the chisel edge takes: own assumption, see
///         MODEL.md (web of about a quarter of the diameter)
[[nodiscard]] Tool make_tool(const specimen::Drill& drill);

}  // namespace driftbench::drilling
