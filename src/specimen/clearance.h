// Exact distances from implants and drills to what must not be touched.
#pragma once

#include "specimen/jaw_shape.h"
#include "specimen/revolved_body.h"
#include "specimen/structure.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::specimen {

/// The nearest place of one structure. Negative: the body reaches into it (or out of the bone) by
/// about as much.
struct Clearance {
  Structure structure = Structure::kCanal;
  double distance_mm = 0.0;
  math::Vec3 on_structure_mm{0.0};
  math::Vec3 on_body_mm{0.0};
  std::size_t body = 0;  ///< which of the bodies asked about
};

/// Least distance of a body to every structure that the section has, the other implant being the
/// nearest of `others` and of those that neighbouring crowns stand on; of several bodies (implant
/// and deepest drill with its point) the worse.
///
/// Frame:  jaw frame; bodies point down from the platform
/// Unit:   mm; within 0.02 mm (tests against sphere, cylinder and torus)
/// Cost:   about a millisecond a body
[[nodiscard]] std::vector<Clearance> clearances(const Jaw& jaw,
                                                std::span<const RevolvedBody> bodies,
                                                std::span<const RevolvedBody> others = {});

/// The same of one body to one structure; nothing when the section does not have it.
[[nodiscard]] std::optional<Clearance> clearance_to(const Jaw& jaw, const RevolvedBody& body,
                                                    Structure structure);

/// Least distance from one body to a tube without its wall; on_structure lies on the tube's
/// surface.
[[nodiscard]] Clearance clearance_to_tube(const RevolvedBody& body, const Tube& tube);

/// Least distance from one body to a lofted body's surface.
[[nodiscard]] Clearance clearance_to_lofted(const RevolvedBody& body, const LoftedBody& other);

/// Least distance between two bodies.
[[nodiscard]] Clearance clearance_between(const RevolvedBody& body, const RevolvedBody& other);

/// Bone along a straight line from a point downward: up to the outer surface, an air space, a
/// canal, a root or another implant, whichever comes first; searched in steps of 0.05 mm from 0.3
/// mm on.
struct BoneAlong {
  double length_mm = 0.0;
  std::string_view ends_at;  ///< "outer surface", "sinus" ...
};

[[nodiscard]] BoneAlong bone_along(const Jaw& jaw, const math::Vec3& from,
                                   const math::Vec3& down_unit, double longest_mm = 30.0);

/// Why an implant cannot be meant there: longer than the bone below its platform, or beside the
/// bone. One sentence; nothing when it can.
[[nodiscard]] std::optional<std::string> plan_problem(const Jaw& jaw, const RevolvedBody& implant);

}  // namespace driftbench::specimen
