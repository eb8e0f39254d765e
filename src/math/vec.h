// Vectors and small matrices of the core, with the few operations that step-grade code may use.
#pragma once

#include <glm/geometric.hpp>
#include <glm/mat3x3.hpp>
#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

namespace driftbench::math {

using Vec2 = glm::dvec2;
using Vec3 = glm::dvec3;
using Mat3 = glm::dmat3;  ///< column-major: m[column][row]

using glm::cross;
using glm::dot;
using glm::length;

/// Vector of length 1 in the same direction. Contract: finite and not zero.
[[nodiscard]] Vec3 unit(const Vec3& v);

/// Squared length.
[[nodiscard]] double length2(const Vec3& v);

/// True when every component is finite.
[[nodiscard]] bool is_finite(const Vec3& v);
[[nodiscard]] bool is_finite(const Vec2& v);

/// A unit vector at right angles to the axis, always the same one for the same axis.
///
/// It is the axis crossed with the coordinate direction along which the axis is shortest (x before
/// y before z where equal). Contract: axis finite and not zero.
[[nodiscard]] Vec3 any_perpendicular(const Vec3& axis);

}  // namespace driftbench::math
