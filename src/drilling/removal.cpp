#include "drilling/removal.h"

#include <algorithm>

namespace driftbench::drilling {
namespace {

/// Motion, in coverage units, before material is removed again: 3 um on a 0.2 mm lattice, small
/// against the contact's approach distance. Numerical.
constexpr double kMotion_units = 2.0;

/// Sideways part of a displacement.
double across_mm(const math::Vec3& moved, const math::Vec3& axis) {
  return math::length(moved - math::dot(moved, axis) * axis);
}

bool body_has_moved(const Tool& tool, const DrillState& state, double unit_mm) {
  if (!state.has_stamped) {
    return true;
  }
  const DrillPose& now = state.pose;
  const DrillPose& then = state.body_stamped;
  const math::Vec3 tip = now.tip_mm - then.tip_mm;
  const math::Vec3 end = tip + tool.body_end_mm * (now.axis_out_unit - then.axis_out_unit);
  return std::max(across_mm(tip, now.axis_out_unit), across_mm(end, now.axis_out_unit)) >
         kMotion_units * unit_mm;
}

}  // namespace

std::uint64_t remove_material(const Tool& tool, DrillState& state, volume::Volume& volume,
                              std::uint16_t removal_tick) {
  const double ramp_mm = volume::kRampHalfWidth_vox * volume.grid.spacing_mm;
  const double unit_mm = 2.0 * ramp_mm / volume::kFullCoverage;
  const DrillPose& pose = state.pose;
  const bool body = body_has_moved(tool, state, unit_mm);
  if (!body && math::length(pose.tip_mm - state.tip_stamped_mm) <= kMotion_units * unit_mm) {
    return 0;
  }
  state.tip_stamped_mm = pose.tip_mm;
  if (body) {
    state.body_stamped = pose;
    state.has_stamped = true;
  }
  const double to_mm = body ? tool.body_end_mm : tool.point_height_mm + ramp_mm;
  return volume::carve(volume, tool.solid, pose.tip_mm, pose.axis_out_unit, 0.0, to_mm,
                       removal_tick);
}

}  // namespace driftbench::drilling
