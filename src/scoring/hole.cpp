#include "scoring/hole.h"

#include "geometry/anatomical_frame.h"
#include "geometry/fit_line.h"
#include "geometry/line.h"
#include "math/angle.h"
#include "scoring/deviation.h"
#include "scoring/hole_floor.h"
#include "scoring/hole_rim.h"
#include "scoring/hole_slicer.h"
#include "scoring/removed_region.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace driftbench::scoring {

namespace {

/// The stretch below the rim over which the diameter is averaged (definition of holes.csv).
constexpr double kDiameterFrom_mm = 1.0;
constexpr double kDiameterTo_mm = 3.0;

base::Error too_shallow() {
  return {base::ErrorCode::kInvalidArgument,
          "The hole is less than 1 mm deep at its full diameter, too shallow to be measured.", ""};
}

/// Hole as seen in planes at right angles to one axis.
struct Profile {
  SlicePlanes planes;
  SliceExtent extent;
  std::vector<Section> sections;
};

Profile cut(const RemovedRegion& region, const SlicePlanes& planes) {
  Profile profile{planes, extent_of(region, planes), {}};
  const int begin = static_cast<int>(std::ceil(profile.extent.low.z / kSectionSpacing_mm));
  const int end = static_cast<int>(std::floor(profile.extent.high.z / kSectionSpacing_mm));
  for (int i = begin; i <= end; ++i) {
    const Section section = section_at(region, planes, profile.extent, i * kSectionSpacing_mm);
    if (section.diameter_mm > 0.0) {
      profile.sections.push_back(section);
    }
  }
  return profile;
}

/// The planes of the plan turned onto a fitted axis, depth 0 where it meets the platform plane.
std::optional<SlicePlanes> planes_along(const geometry::Line& axis, const SlicePlanes& planned) {
  const std::optional<math::Vec3> origin =
      geometry::plane_intersection(axis, planned.origin_mm, planned.down_unit);
  if (!origin) {
    return std::nullopt;
  }
  SlicePlanes planes;
  planes.origin_mm = *origin;
  planes.down_unit =
      math::dot(axis.axis_unit, planned.down_unit) > 0.0 ? axis.axis_unit : -axis.axis_unit;
  const math::Vec3 down = planes.down_unit;
  planes.first_unit = math::unit(planned.first_unit - math::dot(planned.first_unit, down) * down);
  const math::Vec3 second = planned.second_unit - math::dot(planned.second_unit, down) * down;
  planes.second_unit =
      math::unit(second - math::dot(second, planes.first_unit) * planes.first_unit);
  return planes;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

base::Result<geometry::LineFit> fit_axis(const Profile& profile, double from_mm, double to_mm) {
  std::vector<geometry::WeightedPoint> points;
  for (const Section& section : profile.sections) {
    if (section.depth_mm >= from_mm && section.depth_mm <= to_mm) {
      points.push_back(
          {profile.planes.point_mm(section.centroid_mm.x, section.centroid_mm.y, section.depth_mm),
           section.raw_area_mm2});
    }
  }
  if (points.size() < 3) {
    return tl::unexpected<base::Error>(too_shallow());
  }
  return geometry::fit_line(points);
}

/// First guess of the axis: sections that lie wholly in material and are not much below the usual
/// area. Keeps the diameter of the middle section in `radius_mm`.
base::Result<geometry::LineFit> first_axis(const volume::Volume& volume, const Profile& profile,
                                           double& radius_mm) {
  const auto whole = [&](const Section& section) {
    return is_ring_in_material(volume, profile.planes, section.centroid_mm,
                               0.5 * section.diameter_mm, section.depth_mm);
  };
  std::vector<const Section*> candidates;
  for (const Section& section : profile.sections) {
    if (whole(section)) {
      candidates.push_back(&section);
    }
  }
  if (candidates.size() < 3) {  // breaks out of a side: take what there is
    candidates.clear();
    for (const Section& section : profile.sections) {
      candidates.push_back(&section);
    }
  }
  if (candidates.size() < 3) {
    return tl::unexpected<base::Error>(too_shallow());
  }
  std::vector<double> areas;
  for (const Section* section : candidates) {
    areas.push_back(section->raw_area_mm2);
  }
  const double usual = median(areas);
  radius_mm = std::sqrt(usual / math::kPi);
  std::vector<geometry::WeightedPoint> points;
  for (const Section* section : candidates) {
    if (section->raw_area_mm2 > 0.7 * usual) {
      points.push_back({profile.planes.point_mm(section->centroid_mm.x, section->centroid_mm.y,
                                                section->depth_mm),
                        section->raw_area_mm2});
    }
  }
  return geometry::fit_line(points);
}

/// The hole along its own axis.
struct FittedHole {
  Profile profile;
  geometry::LineFit axis;
  double rim_mm = 0.0;    ///< along profile.planes
  double begin_mm = 0.0;  ///< first depth at full diameter
  double floor_mm = 0.0;
  double radius_mm = 0.0;
};

/// Re-slices along an axis, finds rim and floor, and fits the axis again between them.
base::Result<FittedHole> refine(const volume::Volume& volume, const RemovedRegion& region,
                                const SlicePlanes& planned, const geometry::Line& axis,
                                double radius_mm, double last_drill_diameter_mm) {
  const std::optional<SlicePlanes> planes = planes_along(axis, planned);
  if (!planes) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "The hole runs parallel to the planned platform.");
  }
  FittedHole hole;
  hole.profile = cut(region, *planes);
  const SliceExtent& extent = hole.profile.extent;
  const double above = extent.low.z - radius_mm;
  std::optional<double> rim = find_rim_mm(volume, *planes, radius_mm, above, extent.high.z);
  if (!rim) {
    rim = find_rim_mm(volume, *planes, 0.0, above, extent.high.z);
  }
  hole.rim_mm = rim.value_or(extent.low.z);

  // Sections that the surface's own ramp does not touch.
  const double clear = ramp_mm(region) + region.grid.spacing_mm;
  std::vector<Section> inner;
  for (const Section& section : hole.profile.sections) {
    if (section.depth_mm >= hole.rim_mm + clear) {
      inner.push_back(section);
    }
  }
  std::vector<Plateau> plateaus = find_plateaus(inner, kSectionSpacing_mm);
  std::erase_if(plateaus, [&hole](const Plateau& plateau) {
    return plateau.step_mm < hole.rim_mm + kShallowestHole_mm;
  });
  const std::optional<Plateau> plateau = full_diameter_plateau(plateaus, last_drill_diameter_mm);
  if (!plateau) {
    return tl::unexpected<base::Error>(too_shallow());
  }
  hole.floor_mm = shoulder_depth_mm(region, *planes, extent, *plateau);
  if (hole.floor_mm < hole.rim_mm + kShallowestHole_mm) {
    return tl::unexpected<base::Error>(too_shallow());
  }
  hole.begin_mm = plateau->begin_mm;
  hole.radius_mm = plateau->radius_mm;
  base::Result<geometry::LineFit> fit =
      fit_axis(hole.profile, hole.begin_mm, hole.floor_mm - ramp_mm(region));
  if (!fit) {
    return tl::unexpected<base::Error>(fit.error());
  }
  hole.axis = *fit;
  return hole;
}

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

  // The axis is found from the planned planes, then twice more from planes along itself.
  double radius = 0.0;
  base::Result<geometry::LineFit> axis = first_axis(volume, seen_from_plan, radius);
  if (!axis) {
    return tl::unexpected<base::Error>(axis.error());
  }
  base::Result<FittedHole> hole =
      refine(volume, *region, planned, axis->line, radius, last_drill_diameter_mm);
  if (hole) {
    const FittedHole once = *hole;
    hole = refine(volume, *region, planned, once.axis.line, once.radius_mm, last_drill_diameter_mm);
  }
  if (!hole) {
    return tl::unexpected<base::Error>(hole.error());
  }
  const std::optional<SlicePlanes> along = planes_along(hole->axis.line, planned);
  if (!along) {
    return tl::unexpected<base::Error>(too_shallow());
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
