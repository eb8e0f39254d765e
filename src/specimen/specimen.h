// What an attempt drills: a bench block or a piece of jaw, behind one set of questions.
#pragma once

#include "base/result.h"
#include "specimen/block.h"
#include "specimen/jaw_site.h"
#include "volume/volume.h"

#include <string>
#include <variant>

namespace driftbench::specimen {

/// Block or jaw. Whoever drills, probes or scores asks the functions below and never which it is.
using Specimen = std::variant<BlockSpec, JawSite>;

/// The block; null for a jaw.
[[nodiscard]] inline const BlockSpec* block_in(const Specimen& specimen) {
  return std::get_if<BlockSpec>(&specimen);
}

[[nodiscard]] inline BlockSpec* block_in(Specimen& specimen) {
  return std::get_if<BlockSpec>(&specimen);
}

/// The jaw; null for a block.
[[nodiscard]] inline const JawSite* jaw_in(const Specimen& specimen) {
  return std::get_if<JawSite>(&specimen);
}

/// Name of the specimen in tables.
[[nodiscard]] const std::string& id_of(const Specimen& specimen);

/// The voxels in the site frame: planned platform at the origin, planned axis along +z.
///
/// Errors: those of the description, see validated()
[[nodiscard]] base::Result<volume::Volume> build_specimen(const Specimen& specimen);

/// Anatomical directions in the site frame. In a block `md` points along the boundary's normal
/// toward the softer half, or along +x where there is none, and `bl` = z x md; in a jaw they are
/// distal and lingual, not square to the axis where that leans (geometry/anatomical_frame.h).
struct SiteDirections {
  math::Vec3 md{1.0, 0.0, 0.0};
  math::Vec3 bl{0.0, 1.0, 0.0};
};

[[nodiscard]] SiteDirections directions_of(const Specimen& specimen);

[[nodiscard]] Material material_of(const Specimen& specimen);

/// How far from the site there may be something to drill.
struct Reach {
  double half_width_mm = 0.0;  ///< sideways from the axis
  double depth_mm = 0.0;       ///< below the platform
};

[[nodiscard]] Reach reach_of(const Specimen& specimen);

}  // namespace driftbench::specimen
