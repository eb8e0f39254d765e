#include "scoring/explain_trace.h"

namespace driftbench::scoring {

math::Vec2 in_plane(const DrillTrace& trace, const math::Vec3& v) {
  return {math::dot(v, trace.frame.md_unit), math::dot(v, trace.frame.bl_unit)};
}

math::Vec2 lateral_mm(const DrillTrace& trace, const drilling::LoadSample& sample) {
  return in_plane(trace, sample.pose.tip_mm - trace.planned_entry_mm);
}

math::Vec3 across(const drilling::LoadSample& sample, const math::Vec3& force) {
  const math::Vec3& axis = sample.pose.axis_out_unit;
  return force - math::dot(force, axis) * axis;
}

Moment moment_at(const DrillTrace& trace, MomentKind kind, const drilling::LoadSample& sample) {
  Moment moment;
  moment.kind = kind;
  moment.step = sample.step;
  moment.drill_index = sample.drill_index;
  moment.depth_mm = math::dot(sample.pose.tip_mm - trace.planned_entry_mm, trace.frame.down_unit);
  return moment;
}

void set_direction(Moment& moment, const math::Vec2& direction) {
  const double size = math::length(direction);
  if (size > 0.0) {
    moment.direction_md = direction.x / size;
    moment.direction_bl = direction.y / size;
  }
}

bool is_next(const drilling::LoadSample& before, const drilling::LoadSample& after) {
  return after.step - before.step <= drilling::kStepsPerSample;
}

}  // namespace driftbench::scoring
