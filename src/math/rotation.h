// Rotations of vectors and frames from our own sine and cosine.
#pragma once

#include "math/angle.h"
#include "math/vec.h"

namespace driftbench::math {

/// The vector turned about a unit axis, counter-clockwise seen against the axis.
///
/// Source: Rodrigues' rotation formula. Contract: axis has length 1 within 1e-9.
[[nodiscard]] Vec3 rotated(const Vec3& v, const Vec3& axis_unit, Radians angle);

/// The vector turned by a rotation vector (axis times angle), exact also for tiny and zero angles.
///
/// Unit:   omega_rad in rad, |omega| <= 1e5
/// Source: Rodrigues' formula with sin(t)/t and (1-cos t)/t^2, by series below t = 1e-2
[[nodiscard]] Vec3 rotated_small(const Vec3& v, const Vec3& omega_rad);

/// The vector turned about +z.
[[nodiscard]] Vec3 rotated_about_z(const Vec3& v, Radians angle);

/// Right-handed frame with columns x, y, z; z along the axis, x as near to the hint as possible.
///
/// A hint that is zero or parallel to the axis is replaced by any_perpendicular(axis).
/// Contract: axis finite and not zero.
[[nodiscard]] Mat3 frame_from_axis(const Vec3& z_axis, const Vec3& x_hint);

}  // namespace driftbench::math
