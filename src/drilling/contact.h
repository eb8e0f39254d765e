// Which elements of the drill touch material, and how hard they resist being moved.
#pragma once

#include "drilling/params.h"
#include "drilling/pose.h"
#include "drilling/strength_table.h"
#include "drilling/tool.h"
#include "volume/volume.h"

#include <vector>

namespace driftbench::drilling {

/// Generalised velocity of the drill about its tip: v_x, v_y, v_z [mm/s], then the turning rates
/// about the two cross axes of its frame [rad/s].
inline constexpr int kDof = 5;

/// Axes of a drill: two cross axes and the drill's axis, right-handed.
struct DrillFrame {
  math::Vec3 cross_1{1.0, 0.0, 0.0};
  math::Vec3 cross_2{0.0, 1.0, 0.0};
  math::Vec3 axis{0.0, 0.0, 1.0};
};

/// Frame of a pose; cross_1 is +x made perpendicular to the axis.
[[nodiscard]] DrillFrame frame_of(const DrillPose& pose);

/// A vector given in the drill's frame, in the site frame.
[[nodiscard]] inline math::Vec3 to_world(const DrillFrame& frame, const math::Vec3& local) {
  return local.x * frame.cross_1 + local.y * frame.cross_2 + local.z * frame.axis;
}

/// Sets `row` so that row . u is the speed along `direction` of the point `lever` from the tip.
inline void set_row(double (&row)[kDof], const math::Vec3& direction, const math::Vec3& lever_mm,
                    const math::Vec3& cross_1, const math::Vec3& cross_2) {
  const math::Vec3 turning = math::cross(lever_mm, direction);
  row[0] = direction.x;
  row[1] = direction.y;
  row[2] = direction.z;
  row[3] = math::dot(cross_1, turning);
  row[4] = math::dot(cross_2, turning);
}

/// Distance over which an element comes into full contact. Small against the voxel, large against
/// the advance of one step; own assumption (numerical).
inline constexpr double kApproach_mm = 0.02;

/// One element in contact. Pressure on it at normal speed v > 0:
///   p = sigma * (yield * v / (v + creep) + v / (rev_per_s * chip_scale))           (MODEL eq. 3)
struct Contact {
  double row[kDof] = {};         ///< normal speed = row . u
  double yield_n = 0.0;          ///< engaged area * sigma * yield_frac
  double slope_ns_per_mm = 0.0;  ///< engaged area * sigma / (rev_per_s * chip_scale)
  double cut_ns_per_mm = 0.0;    ///< cutting force per feed speed, from the specific energy
  double rub_s_per_mm = 0.0;     ///< sideways friction per normal force and sideways speed
  math::Vec3 tangent{};          ///< direction of the cutting force on the drill
  math::Vec3 lever_mm{};         ///< element position from the tip
  math::Vec3 normal{};
  double engaged_mm2 = 0.0;  ///< area * share in contact
  double strength_mpa = 0.0;
  bool is_point = false;  ///< of the point, not of the body
  bool is_left = false;   ///< local x < 0: sums keep the halves apart, so that they mirror exactly
};

/// Turning of the drill as cutting sees it.
struct Spin {
  double rev_per_s = 0.0;  ///< that cut (0 when reversed: the lips do not bite)
  double direction =
      -1.0;  ///< sense about the drill's outward axis: -1 clockwise from the handpiece
};

/// Gathers the elements of `tool` that touch `volume` into `contacts` (cleared first).
///
/// `area_factor` scales every engaged area, so that what the elements sweep is what the material
/// loses. Frame: site frame. Cost: one or two trilinear reads per element near material
void find_contacts(const Tool& tool, const DrillPose& pose, const DrillFrame& frame,
                   const Spin& spin, const volume::Volume& volume, const CuttingParams& cutting,
                   const StrengthTable& strength, double area_factor,
                   std::vector<Contact>& contacts);

/// A contact of the point `lever` from the tip, along an outward normal; its resistance is not set.
[[nodiscard]] Contact contact_along(const math::Vec3& normal, const math::Vec3& lever_mm,
                                    const DrillFrame& frame);

/// Pressure force of a contact at a normal speed; 0 when it separates.
[[nodiscard]] double normal_force_n(const Contact& contact, double speed_mm_per_s,
                                    double creep_mm_per_s);

}  // namespace driftbench::drilling
