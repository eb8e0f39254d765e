// Nearest place of a part of the bone's outer surface to an implant or a drill.
#pragma once

#include "specimen/jaw_shape.h"
#include "specimen/revolved_body.h"

#include <cstddef>
#include <optional>

namespace driftbench::specimen {

/// Plates are measured from this far below a body's upper end down, across and beyond its end.
inline constexpr double kPlateFrom_mm = 1.0;

/// Part of a bone's outline, between two of its points.
struct OutlinePart {
  std::size_t begin = 0;
  std::size_t end = 0;
};

struct NearestSide {
  double distance_mm = 0.0;
  math::Vec3 at_mm{0.0};
};

/// Nearest place of the part that lies deep enough to count (`kPlateFrom_mm`) and inside the
/// section; nothing when no place does.
///
/// Frame: jaw frame
/// Unit:  mm, negative inside the body. The limit of what counts is cut exactly, so that the
///        distance follows the body without jumps
[[nodiscard]] std::optional<NearestSide> nearest_side(const Jaw& jaw, const RevolvedBody& body,
                                                      const OutlinePart& part);

}  // namespace driftbench::specimen
