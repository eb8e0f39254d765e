// The sleeve and key as one-sided limits on the drill: two rings, an end face for the stop.
#pragma once

#include "drilling/pose.h"
#include "drilling/tool.h"
#include "specimen/kit.h"

#include <array>
#include <optional>

namespace driftbench::drilling {

/// A ring through which the drill runs.
struct Ring {
  double height_mm = 0.0;  ///< above the sleeve's lower edge, along the sleeve
  double bore_radius_mm =
      0.0;                  ///< largest distance of the drill's surface from the sleeve's axis here
  double lead_in_mm = 0.0;  ///< chamfer that gathers the point; own assumption
};

/// How a drill runs in the guide as it sits. Empty rings do nothing.
struct SleeveFit {
  DrillPose sleeve;                 ///< centre of the lower edge, axis out
  std::array<Ring, 2> rings{};      ///< lower, upper
  double end_face_mm = 0.0;         ///< upper end of sleeve or key above the lower edge
  double stop_from_tip_mm = 0.0;    ///< the drill's stop above its tip; 0: none
  double collar_radius_mm = 0.0;    ///< of the shank's guiding collar; 0: the body guides
  double collar_from_tip_mm = 0.0;  ///< its lower end above the tip
  bool passes = true;               ///< false: the drill is thicker than the bore
};

/// Fit of one drill in a sleeve, with or without a key.
///
/// Two nested plays: the key tilts in the sleeve, the drill in the key. Written as two rings whose
/// radii give exactly the sum of both shifts and of both first-order tilts:
///   lower ring: (c1 + c2)/2;  upper ring: c1 (1/2 + collar/H1) + c2/2            (MODEL eq. 8)
/// with c1 the play of key in sleeve (height H1) and c2 that of drill in key.
///
/// Where a collar on the shank guides instead of the body, the guided length is what of the collar
/// is inside: short at first contact, full at the stop.
///
/// Source: rigid-body geometry; plays add in the worst case
[[nodiscard]] SleeveFit make_sleeve_fit(const specimen::Sleeve& sleeve, const specimen::Key* key,
                                        const Tool& tool, const specimen::Drill& drill,
                                        double stop_length_mm);

/// Radius of the drill at a height above its tip (the conical point is slimmer).
[[nodiscard]] double radius_at_mm(const Tool& tool, double height_mm);

/// One side limit in a solve: the drill may move along `direction` by `room_mm` before it is held.
struct SideLimit {
  double row[5] = {};
  double room_mm = 0.0;  ///< negative: already past
  math::Vec3 direction{};
  math::Vec3 at_mm{};  ///< where it acts
};

/// The ring's limit on a pose, or nothing while the point is not yet inside it.
[[nodiscard]] std::optional<SideLimit> ring_limit(const SleeveFit& fit, const Ring& ring,
                                                  const Tool& tool, const DrillPose& pose,
                                                  const math::Vec3& cross_1,
                                                  const math::Vec3& cross_2);

/// Distance by which the stop (or the shoulder of a drill too thick) is still above the end face.
[[nodiscard]] double stop_room_mm(const SleeveFit& fit, const DrillPose& pose);

}  // namespace driftbench::drilling
