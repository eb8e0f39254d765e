// Texture of spongy bone: seeded noise that looks like struts, the same in every build.
#pragma once

#include "math/vec.h"
#include "specimen/material.h"

#include <cstdint>
#include <vector>

namespace driftbench::specimen {

/// Mean model density of spongy bone of a class.
///
/// Unit:   mg/cm^3
/// Source: middles of the classes after Misch (D1 above 1,250; D2 850 to 1,250; D3 350 to 850; D4
///         150 to 350), read as model density: own assumption
[[nodiscard]] double cancellous_density(DensityClass density);

/// A block of noise that repeats in all directions.
class Trabeculae {
 public:
  /// Even bone: 0 everywhere.
  Trabeculae() = default;

  explicit Trabeculae(std::uint64_t seed);

  /// Noise at a point, -1 (marrow) to 1 (strut), mean about 0; trilinear in a lattice of 0.3 mm.
  [[nodiscard]] double at(const math::Vec3& p) const;

 private:
  std::vector<std::int8_t> lattice_;
};

}  // namespace driftbench::specimen
