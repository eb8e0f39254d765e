#include "scoring/hole_slicer.h"

#include "geometry/moments.h"
#include "math/angle.h"

#include <algorithm>
#include <cmath>

namespace driftbench::scoring {

namespace {

/// Samples per voxel edge within a section: enough that sampling adds less than 5 um.
constexpr double kSamplesPerVoxel = 2.0;

/// Calls `use(first, second, fraction)` for every sample of the plane in which something is
/// removed.
///
/// Sample points are centred about the origin, so a mirrored hole is sampled in the mirrored way.
template <typename Use>
void for_each_sample(const RemovedRegion& region, const SlicePlanes& planes,
                     const SliceExtent& extent, double depth_mm, const Use& use) {
  const double pitch = region.grid.spacing_mm / kSamplesPerVoxel;
  const int first_begin = static_cast<int>(std::floor(extent.low.x / pitch));
  const int first_end = static_cast<int>(std::ceil(extent.high.x / pitch));
  const int second_begin = static_cast<int>(std::floor(extent.low.y / pitch));
  const int second_end = static_cast<int>(std::ceil(extent.high.y / pitch));
  for (int j = second_begin; j < second_end; ++j) {
    for (int i = first_begin; i < first_end; ++i) {
      const double first = (i + 0.5) * pitch;
      const double second = (j + 0.5) * pitch;
      const double frac =
          sample_frac(region.grid, region.removed, planes.point_mm(first, second, depth_mm));
      if (frac > 0.0) {
        use(first, second, frac);
      }
    }
  }
}

double sample_area_mm2(const RemovedRegion& region) {
  const double pitch = region.grid.spacing_mm / kSamplesPerVoxel;
  return pitch * pitch;
}

double unblurred_diameter(double diameter_mm, double variance_mm2) {
  const double radius_of_gyration2 = diameter_mm * diameter_mm / 16.0;
  return 4.0 * std::sqrt(std::max(radius_of_gyration2 - variance_mm2, 0.0));
}

}  // namespace

double ramp_mm(const RemovedRegion& region) {
  return volume::kRampHalfWidth_vox * region.grid.spacing_mm;
}

SliceExtent extent_of(const RemovedRegion& region, const SlicePlanes& planes) {
  const volume::Grid& grid = region.grid;
  SliceExtent extent;
  for (int corner = 0; corner < 8; ++corner) {
    const math::Vec3 from_origin =
        grid.centre_mm((corner & 1) != 0 ? grid.nx - 1 : 0, (corner & 2) != 0 ? grid.ny - 1 : 0,
                       (corner & 4) != 0 ? grid.nz - 1 : 0) -
        planes.origin_mm;
    const math::Vec3 at(math::dot(from_origin, planes.first_unit),
                        math::dot(from_origin, planes.second_unit),
                        math::dot(from_origin, planes.down_unit));
    for (int i = 0; i < 3; ++i) {
      extent.low[i] = corner == 0 ? at[i] : std::min(extent.low[i], at[i]);
      extent.high[i] = corner == 0 ? at[i] : std::max(extent.high[i], at[i]);
    }
  }
  return extent;
}

Section section_at(const RemovedRegion& region, const SlicePlanes& planes,
                   const SliceExtent& extent, double depth_mm) {
  const double area = sample_area_mm2(region);
  geometry::RegionMoments moments;
  for_each_sample(region, planes, extent, depth_mm,
                  [&moments, area](double first, double second, double frac) {
                    moments.add_point(math::Vec2(first, second), frac * area);
                  });
  Section section;
  section.depth_mm = depth_mm;
  if (moments.is_empty()) {
    return section;
  }
  const double ramp2 = ramp_mm(region) * ramp_mm(region);
  const double spacing2 = region.grid.spacing_mm * region.grid.spacing_mm;
  const double blur = 5.0 / 12.0 * ramp2 + spacing2 / 6.0;
  const geometry::EquivalentEllipse ellipse = moments.ellipse();
  section.raw_area_mm2 = moments.area_mm2();
  section.centroid_mm = moments.centroid();
  section.diameter_mm =
      2.0 * std::sqrt(std::max(section.raw_area_mm2 / math::kPi - ramp2 / 3.0, 0.0));
  section.major_mm = unblurred_diameter(ellipse.major_diameter_mm, blur);
  section.minor_mm = unblurred_diameter(ellipse.minor_diameter_mm, blur);
  section.heading_rad = ellipse.orientation.value;
  return section;
}

double raw_area_at(const RemovedRegion& region, const SlicePlanes& planes,
                   const SliceExtent& extent, double depth_mm) {
  double sum = 0.0;
  for_each_sample(region, planes, extent, depth_mm,
                  [&sum](double, double, double frac) { sum += frac; });
  return sum * sample_area_mm2(region);
}

}  // namespace driftbench::scoring
