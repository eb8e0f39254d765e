// What is at one point of a jaw section: solid or open, how dense, which tissue.
#pragma once

#include "specimen/jaw_shape.h"

#include <algorithm>
#include <cstdint>

namespace driftbench::specimen {

/// How the soft tissue was opened.
enum class GumState {
  kIntact,
  kFlap,  ///< raised: the bone lies bare
  kPunch  ///< a round hole over the site
};

/// The soft tissue of one build.
struct GumOpening {
  GumState state = GumState::kIntact;
  math::Vec3 entry_mm{0.0};  ///< middle of the punch
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
  double radius_mm = 2.5;

  friend bool operator==(const GumOpening&, const GumOpening&) = default;
};

/// Parts that may matter near a point; the others are not evaluated.
struct NearParts {
  std::uint32_t teeth = 0xFFFFFFFFU;  ///< bit i: tooth i
  bool canals = true;
  bool lumens = true;
  bool socket = true;
};

/// A point's value.
struct PointTissue {
  double solid_mm = 0.0;  ///< signed distance to the solid, negative inside; good near 0
  double density_mg_per_cm3 = 0.0;
  Tissue tissue = Tissue::kAir;
};

/// Spongy bone is denser this near to the cortex; own assumption.
inline constexpr double kDenserReach_mm = 2.0;

/// Density of spongy bone whose mean is `mean` where its trabeculae read `noise`.
[[nodiscard]] inline double spongy_density(double mean, double contrast, double noise) {
  constexpr double kMarrow = 30.0;  // the least; own assumption
  return std::max(mean * (1.0 + contrast * noise), kMarrow);
}

/// Mixes the shapes at one point. `bone` is the distance to the outer bone surface there.
///
/// Frame: jaw frame. Densities change over one voxel's width at every border, and the bone's goes
///        on outside it (coverage says where material is)
[[nodiscard]] PointTissue tissue_at(const Jaw& jaw, const math::Vec3& p,
                                    const OutlineDistance& bone, const NearParts& parts,
                                    const GumOpening& gum, double voxel_mm);

/// The same with everything evaluated exactly: slow, for tests and single points.
[[nodiscard]] PointTissue tissue_at(const Jaw& jaw, const math::Vec3& p, const GumOpening& gum);

}  // namespace driftbench::specimen
