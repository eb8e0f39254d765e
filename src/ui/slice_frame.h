// Three linked planes through one point: how a section's picture lies in the volume.
#pragma once

#include "math/vec.h"
#include "volume/volume.h"

namespace driftbench::ui {

enum class SliceKind { kBuccoLingual, kMesioDistal, kAxial };

inline constexpr std::size_t kSliceCount = 3;

/// The movable cross-hair: where the planes meet and how they are turned.
///
/// Frame: core frame, right-handed: -y is the facial side, +z out of the bone
struct SliceCross {
  math::Vec3 point_mm{0.0};
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
  double turn_deg = 0.0;  ///< of the upright planes about the axis, from above against the clock
};

/// A plane with the picture's directions. `away` points into the picture.
struct SlicePlane {
  math::Vec3 centre_mm{0.0};  ///< in the picture's middle
  math::Vec3 right_unit{1.0, 0.0, 0.0};
  math::Vec3 up_unit{0.0, 0.0, 1.0};
  math::Vec3 away_unit{0.0, 1.0, 0.0};

  friend bool operator==(const SlicePlane&, const SlicePlane&) = default;

  /// Right and up of the middle, and behind the plane.
  [[nodiscard]] math::Vec3 in_plane(const math::Vec3& p) const {
    const math::Vec3 d = p - centre_mm;
    return {math::dot(d, right_unit), math::dot(d, up_unit), math::dot(d, away_unit)};
  }

  [[nodiscard]] math::Vec3 at(double right_mm, double up_mm) const {
    return centre_mm + right_mm * right_unit + up_mm * up_unit;
  }
};

/// The plane of one kind through the cross-hair, seen as from outside the mouth (mesio-distal),
/// along the arch (bucco-lingual) and from above (axial). The picture's middle is `view_centre`
/// brought into the plane. Never a mirror image: right, up and toward the eye are right-handed.
[[nodiscard]] SlicePlane slice_plane(const SliceCross& cross, SliceKind kind,
                                     const math::Vec3& view_centre_mm);

/// Value of a section at a point: density times coverage.
///
/// Unit: mg/cm^3; 0 outside the lattice. `single_voxel`: of the nearest voxel, else both read
/// linearly
[[nodiscard]] double slice_value(const volume::Volume& volume, const math::Vec3& p,
                                 bool single_voxel);

/// Tissue label of the voxel nearest to a point; 0 outside and where the volume has none.
[[nodiscard]] std::uint8_t tissue_label(const volume::Volume& volume, const math::Vec3& p);

}  // namespace driftbench::ui
