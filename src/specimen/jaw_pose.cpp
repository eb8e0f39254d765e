#include "specimen/jaw_pose.h"

#include "specimen/tooth_number.h"

namespace driftbench::specimen {

JawPose pose_of(int site_fdi) {
  JawPose pose;
  pose.is_mirrored = is_mirrored(site_fdi);
  return pose;
}

JawPose pose_at(int site_fdi, const math::Vec3& entry_mm, const math::Vec3& axis_out) {
  JawPose pose = pose_of(site_fdi);
  const math::Vec3 z = math::unit(axis_out);
  const math::Vec3 distal(1.0, 0.0, 0.0);
  const math::Vec3 x = math::unit(distal - math::dot(distal, z) * z);
  pose.origin_mm = entry_mm;
  pose.axes = math::Mat3(x, math::cross(z, x), z);
  return pose;
}

Plan plan_in_core(const JawPose& pose, const Plan& in_jaw) {
  Plan plan = in_jaw;
  plan.entry_mm = pose.to_core(in_jaw.entry_mm);
  plan.axis_out_unit = math::unit(pose.direction_to_core(in_jaw.axis_out_unit));
  plan.md_hint = pose.direction_to_core(math::Vec3(1.0, 0.0, 0.0));
  plan.bl_hint = pose.direction_to_core(math::Vec3(0.0, 1.0, 0.0));
  return plan;
}

}  // namespace driftbench::specimen
