// Angles as types, so that degrees and radians cannot be mixed up.
#pragma once

#include <compare>

namespace driftbench::math {

inline constexpr double kPi = 3.14159265358979323846;

/// Angle in degrees; for borders and reports.
struct Degrees {
  double value = 0.0;

  constexpr Degrees() = default;

  constexpr explicit Degrees(double degrees) : value(degrees) {}

  friend constexpr auto operator<=>(const Degrees&, const Degrees&) = default;
};

/// Angle in radians; what the core computes with.
struct Radians {
  double value = 0.0;

  constexpr Radians() = default;

  constexpr explicit Radians(double radians) : value(radians) {}

  constexpr explicit Radians(Degrees degrees) : value(degrees.value * (kPi / 180.0)) {}

  friend constexpr auto operator<=>(const Radians&, const Radians&) = default;
};

[[nodiscard]] constexpr Radians to_radians(Degrees angle) {
  return Radians(angle);
}

[[nodiscard]] constexpr Degrees to_degrees(Radians angle) {
  return Degrees(angle.value * (180.0 / kPi));
}

[[nodiscard]] constexpr Radians operator-(Radians a) {
  return Radians(-a.value);
}

[[nodiscard]] constexpr Radians operator+(Radians a, Radians b) {
  return Radians(a.value + b.value);
}

[[nodiscard]] constexpr Radians operator-(Radians a, Radians b) {
  return Radians(a.value - b.value);
}

[[nodiscard]] constexpr Radians operator*(double factor, Radians a) {
  return Radians(factor * a.value);
}

}  // namespace driftbench::math
