#include "specimen/specimen.h"

#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/jaw_volume.h"

#include <algorithm>

namespace driftbench::specimen {
namespace {

math::Vec3 md_of(const BlockSpec& block) {
  if (!block.second.has_value() || *block.second == block.first) {
    return {1.0, 0.0, 0.0};
  }
  const math::SinCos heading =
      math::sincos(math::to_radians(math::Degrees(block.boundary_deg)).value);
  const bool is_first_softer =
      foam_grade(block.first).density_mg_per_cm3 < foam_grade(*block.second).density_mg_per_cm3;
  const double sign = is_first_softer ? -1.0 : 1.0;
  return {sign * heading.cos, sign * heading.sin, 0.0};
}

}  // namespace

const std::string& id_of(const Specimen& specimen) {
  const JawSite* jaw = jaw_in(specimen);
  return jaw != nullptr ? jaw->id : block_in(specimen)->id;
}

base::Result<volume::Volume> build_specimen(const Specimen& specimen) {
  const JawSite* site = jaw_in(specimen);
  if (site == nullptr) {
    return build_block(*block_in(specimen));
  }
  if (const base::Result<JawSpec> checked = validated(site->jaw); !checked) {
    return tl::make_unexpected(checked.error());
  }
  return build_jaw(Jaw(site->jaw), pose_of(*site), opening_of(*site));
}

SiteDirections directions_of(const Specimen& specimen) {
  // Adding 0 turns -0 into 0, which files do not keep.
  const math::Vec3 zero(0.0);
  if (const JawSite* site = jaw_in(specimen)) {
    const JawPose pose = pose_of(*site);
    return {pose.direction_to_core({1.0, 0.0, 0.0}) + zero,
            pose.direction_to_core({0.0, 1.0, 0.0}) + zero};
  }
  const math::Vec3 md = md_of(*block_in(specimen)) + zero;
  return {md, math::cross({0.0, 0.0, 1.0}, md) + zero};
}

Material material_of(const Specimen& specimen) {
  return jaw_in(specimen) != nullptr ? Material::kJaw : Material::kFoam;
}

Reach reach_of(const Specimen& specimen) {
  constexpr double kBelow_mm = 10.0;  // room under the lower border
  if (const JawSite* site = jaw_in(specimen)) {
    const JawSpec& jaw = site->jaw;
    return {0.5 * jaw.length_mm, std::min(jaw.depth_mm, jaw.ridge.height_mm) + kBelow_mm};
  }
  const double edge_mm = block_in(specimen)->edge_mm;
  return {0.5 * edge_mm, 2.0 * edge_mm};
}

}  // namespace driftbench::specimen
