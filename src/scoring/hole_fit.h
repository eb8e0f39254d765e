// Axis, rim and floor of a hole, found in sections that are laid along the hole itself.
#pragma once

#include "base/result.h"
#include "geometry/fit_line.h"
#include "geometry/line.h"
#include "scoring/hole_slicer.h"
#include "scoring/removed_region.h"
#include "volume/volume.h"

#include <optional>
#include <vector>

namespace driftbench::scoring {

/// Hole as seen in planes at right angles to one axis.
struct Profile {
  SlicePlanes planes;
  SliceExtent extent;
  std::vector<Section> sections;
};

/// The hole along its own axis.
struct FittedHole {
  Profile profile;
  geometry::LineFit axis;
  double rim_mm = 0.0;    ///< along profile.planes
  double begin_mm = 0.0;  ///< first depth at full diameter
  double floor_mm = 0.0;
  double radius_mm = 0.0;
};

/// Sections at multiples of kSectionSpacing_mm wherever something was removed.
[[nodiscard]] Profile cut(const RemovedRegion& region, const SlicePlanes& planes);

/// The planes of the plan turned onto an axis, depth 0 where it meets the platform plane.
///
/// Result: nothing when the axis runs parallel to the platform
[[nodiscard]] std::optional<SlicePlanes> planes_along(const geometry::Line& axis,
                                                      const SlicePlanes& planned);

/// The hole along its own axis: a first guess from the planned planes, refined twice.
///
/// Errors: kInvalidArgument with one sentence when the hole is too shallow
/// Source: total least squares of the centroids, weighted by area, over the full diameter only
[[nodiscard]] base::Result<FittedHole> fit_hole(const volume::Volume& volume,
                                                const RemovedRegion& region,
                                                const Profile& seen_from_plan,
                                                double last_drill_diameter_mm);

}  // namespace driftbench::scoring
