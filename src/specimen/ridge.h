// The bone of a jaw section: cross-sections blended along the arch, without holes.
#pragma once

#include "specimen/arch.h"
#include "specimen/ridge_profile.h"

namespace driftbench::specimen {

/// Two cross-sections, one at the site and one where neighbouring teeth stand, and where they
/// change into one another.
class Ridge {
 public:
  /// A change of the outline from the site's to the teeth's between two distances from the site.
  struct Change {
    bool exists = false;
    double begin_mm = 0.0;  ///< still the site's outline
    double end_mm = 0.0;    ///< the teeth's outline from here on
  };

  Ridge(const Arch& arch, const Outline& site, const Outline& teeth, const Change& mesial,
        const Change& distal);

  /// Outline at a station, in (lateral, z).
  [[nodiscard]] Outline outline_at(double station_mm) const;

  /// Signed distance to the bone's outer surface with the cortical thickness there; negative
  /// inside.
  ///
  /// Frame:  arch coordinates. Exact where the outline does not change along the arch; elsewhere
  ///         divided by the length of the gradient, exact at the surface to first order
  [[nodiscard]] OutlineDistance distance(const math::Vec3& in_arch) const;

  /// Point of the outer surface; `at` counts outline points, fractions lie between two.
  ///
  /// Frame: jaw frame. Contract: 0 <= at <= kOutlineSize
  [[nodiscard]] math::Vec3 surface_mm(double station_mm, double at) const;

  /// Lateral position of the facial (or lingual) side at a station and z.
  [[nodiscard]] double side_mm(double station_mm, double z_mm, bool is_facial) const;

  [[nodiscard]] const Arch& arch() const { return arch_; }

  /// Share of the teeth's outline at a station, 0..1.
  [[nodiscard]] double share_at(double station_mm) const;

  /// Stations beyond which the outline does not change any more: (mesial, distal).
  [[nodiscard]] math::Vec2 changing_between() const {
    return {mesial_.exists ? -mesial_.end_mm : 0.0, distal_.exists ? distal_.end_mm : 0.0};
  }

 private:
  Arch arch_;
  Outline site_;
  Outline teeth_;
  Change mesial_;
  Change distal_;
};

}  // namespace driftbench::specimen
