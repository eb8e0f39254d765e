#include "scoring/hole.h"

#include "geometry/anatomical_frame.h"
#include "geometry/line.h"
#include "math/angle.h"
#include "scoring/deviation.h"
#include "scoring/hole_fit.h"
#include "scoring/hole_slicer.h"
#include "scoring/removed_region.h"

#include <algorithm>
#include <optional>
#include <vector>

namespace driftbench::scoring {

namespace {

/// The stretch below the rim over which the diameter is averaged (definition of holes.csv).
constexpr double kDiameterFrom_mm = 1.0;
constexpr double kDiameterTo_mm = 3.0;

/// Mean diameter and ovality below the rim.
void measure_width(const FittedHole& hole, double ramp, double last_drill_diameter_mm,
                   HoleMeasures& measures) {
  const double lowest = hole.floor_mm - ramp;
  double from = hole.rim_mm + kDiameterFrom_mm;
  double to = std::min(hole.rim_mm + kDiameterTo_mm, lowest);
  if (to - from < kSectionSpacing_mm) {  // a shallow hole: what it has
    from = hole.begin_mm;
    to = lowest;
  }
  double diameter = 0.0;
  double ovality = 0.0;
  int count = 0;
  for (const Section& section : hole.profile.sections) {
    if (section.depth_mm >= from && section.depth_mm <= to) {
      diameter += section.diameter_mm;
      ovality += section.major_mm - section.minor_mm;
      ++count;
    }
  }
  measures.hole_diameter_mm = count > 0 ? diameter / count : 2.0 * hole.radius_mm;
  measures.ovality_mm = count > 0 ? ovality / count : 0.0;
  measures.oversize_mm = measures.hole_diameter_mm - last_drill_diameter_mm;
}

std::vector<HoleSlice> slices_below(const Profile& profile, double from_mm) {
  std::vector<HoleSlice> slices;
  for (const Section& section : profile.sections) {
    if (section.depth_mm >= from_mm) {
      slices.push_back({section.depth_mm, section.centroid_mm.x, section.centroid_mm.y,
                        section.diameter_mm, section.major_mm, section.minor_mm,
                        math::to_degrees(math::Radians(section.heading_rad)).value});
    }
  }
  return slices;
}

}  // namespace

base::Result<HoleMeasures> measure_hole(const volume::Volume& volume, const specimen::Plan& plan,
                                        double last_drill_diameter_mm) {
  const base::Result<geometry::AnatomicalFrame> frame =
      geometry::make_anatomical_frame(plan.entry_mm, plan.apex_mm(), plan.md_hint, plan.bl_hint);
  if (!frame) {
    return tl::unexpected<base::Error>(frame.error());
  }
  const base::Result<RemovedRegion> region =
      find_removed_region(volume, plan.entry_mm, plan.axis_out_unit, kShallowestHole_mm);
  if (!region) {
    return tl::unexpected<base::Error>(region.error());
  }
  const SlicePlanes planned{plan.entry_mm, frame->md_unit, frame->bl_unit, frame->down_unit};
  const Profile seen_from_plan = cut(*region, planned);

  const base::Result<FittedHole> hole =
      fit_hole(volume, *region, seen_from_plan, last_drill_diameter_mm);
  if (!hole) {
    return tl::unexpected<base::Error>(hole.error());
  }
  const std::optional<SlicePlanes> along = planes_along(hole->axis.line, planned);
  if (!along) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "The hole runs parallel to the planned platform.");
  }

  HoleMeasures measures;
  measures.entry_mm = along->origin_mm;
  measures.apex_mm = geometry::closest_point(
      hole->axis.line, hole->profile.planes.point_mm(0.0, 0.0, hole->floor_mm));
  const base::Result<Deviation> against_plan =
      deviation(plan.entry_mm, plan.apex_mm(), measures.entry_mm, measures.apex_mm, plan.md_hint,
                plan.bl_hint);
  if (!against_plan) {
    return tl::unexpected<base::Error>(against_plan.error());
  }
  measures.deviation = *against_plan;
  measures.depth_error_mm = against_plan->apex_depth_mm;
  measures.axis_residual_mm = hole->axis.rms_mm;
  measures.removed_mm3 = region->volume_mm3;
  measure_width(*hole, ramp_mm(*region), last_drill_diameter_mm, measures);
  const math::Vec3 rim = hole->profile.planes.point_mm(0.0, 0.0, hole->rim_mm);
  measures.slices = slices_below(
      seen_from_plan, math::dot(rim - plan.entry_mm, frame->down_unit) + ramp_mm(*region));
  return measures;
}

}  // namespace driftbench::scoring
