#include "specimen/jaw_site.h"

#include "specimen/shape_functions.h"

namespace driftbench::specimen {

Plan plan_of(const JawSite& site) {
  Plan plan;
  plan.entry_mm = site.plan.entry_mm;
  plan.axis_out_unit = math::unit(
      math::Vec3(-tangent_of(site.plan.lean_md_deg), -tangent_of(site.plan.lean_bl_deg), 1.0));
  plan.depth_mm = site.plan.length_mm;
  return plan;
}

RevolvedBody implant_of(const JawSite& site) {
  RevolvedBody body;
  body.top_mm = site.plan.entry_mm;
  body.down_unit = -plan_of(site).axis_out_unit;
  body.radius_mm = 0.5 * site.plan.diameter_mm;
  body.length_mm = site.plan.length_mm;
  return body;
}

JawPose pose_of(const JawSite& site) {
  return pose_at(site.jaw.site_fdi, site.plan.entry_mm, plan_of(site).axis_out_unit);
}

GumOpening opening_of(const JawSite& site) {
  GumOpening opening;
  opening.state = site.access;
  opening.entry_mm = site.plan.entry_mm;
  opening.axis_out_unit = plan_of(site).axis_out_unit;
  return opening;
}

}  // namespace driftbench::specimen
