#include "scoring/hole_fit.h"

#include "math/angle.h"
#include "scoring/hole.h"
#include "scoring/hole_floor.h"
#include "scoring/hole_rim.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace driftbench::scoring {

namespace {

base::Error too_shallow() {
  return {base::ErrorCode::kInvalidArgument,
          "The hole is less than 1 mm deep at its full diameter, too shallow to be measured.", ""};
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

}  // namespace

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

base::Result<FittedHole> fit_hole(const volume::Volume& volume, const RemovedRegion& region,
                                  const Profile& seen_from_plan, double last_drill_diameter_mm) {
  double radius = 0.0;
  const base::Result<geometry::LineFit> guess = first_axis(volume, seen_from_plan, radius);
  if (!guess) {
    return tl::unexpected<base::Error>(guess.error());
  }
  const SlicePlanes& planned = seen_from_plan.planes;
  const base::Result<FittedHole> once =
      refine(volume, region, planned, guess->line, radius, last_drill_diameter_mm);
  if (!once) {
    return once;
  }
  return refine(volume, region, planned, once->axis.line, once->radius_mm, last_drill_diameter_mm);
}

}  // namespace driftbench::scoring
