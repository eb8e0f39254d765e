// The solid texture of foam: cells with walls, repeating in all directions.
#pragma once

#include <cstdint>
#include <vector>

namespace driftbench::render {

inline constexpr int kFoamNoiseSize = 48;

/// Slope of the cell walls and wall height.
///
/// Shape: (48, 48, 48, 4): x, y, z of the slope (128 = level), height (0 pore, 255 wall)
[[nodiscard]] std::vector<std::uint8_t> foam_noise();

}  // namespace driftbench::render
