#include "render/foam_noise.h"

#include <glm/geometric.hpp>
#include <glm/vec3.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace driftbench::render {
namespace {

constexpr int kCells = 7;  // per side
constexpr int kSize = kFoamNoiseSize;

std::uint32_t scrambled(std::uint32_t x) {
  x ^= x >> 16;
  x *= 0x7feb352dU;
  x ^= x >> 15;
  x *= 0x846ca68bU;
  return x ^ (x >> 16);
}

float share(std::uint32_t& state) {
  state = scrambled(state + 0x9e3779b9U);
  return static_cast<float>(state >> 8) / 16777216.0F;
}

/// Middle and size of each pore.
struct Pore {
  glm::vec3 middle;
  float radius;
};

std::vector<Pore> pores() {
  std::vector<Pore> all;
  all.reserve(kCells * kCells * kCells);
  for (int z = 0; z < kCells; ++z) {
    for (int y = 0; y < kCells; ++y) {
      for (int x = 0; x < kCells; ++x) {
        std::uint32_t state =
            scrambled(static_cast<std::uint32_t>((z * kCells + y) * kCells + x) + 77U);
        const glm::vec3 jitter(share(state), share(state), share(state));
        const float size = share(state);
        all.push_back({glm::vec3(x, y, z) + 0.1F + 0.8F * jitter, 0.30F + 0.36F * size * size});
      }
    }
  }
  return all;
}

int wrapped(int i, int n) {
  return (i % n + n) % n;
}

}  // namespace

std::vector<std::uint8_t> foam_noise() {
  constexpr float kTexelsPerCell = static_cast<float>(kSize) / static_cast<float>(kCells);
  std::vector<float> height(static_cast<std::size_t>(kSize * kSize * kSize), 1.0F);
  const auto at = [](int x, int y, int z) {
    return static_cast<std::size_t>((wrapped(z, kSize) * kSize + wrapped(y, kSize)) * kSize +
                                    wrapped(x, kSize));
  };
  // A round pit in every pore, a level wall outside; where pores meet the deeper pit counts.
  for (const Pore& pore : pores()) {
    const glm::vec3 middle = pore.middle * kTexelsPerCell - 0.5F;
    const float radius = pore.radius * kTexelsPerCell;
    const auto first = [&](float m) { return static_cast<int>(std::ceil(m - radius)); };
    const auto last = [&](float m) { return static_cast<int>(std::floor(m + radius)); };
    for (int z = first(middle.z); z <= last(middle.z); ++z) {
      for (int y = first(middle.y); y <= last(middle.y); ++y) {
        for (int x = first(middle.x); x <= last(middle.x); ++x) {
          const float distance = glm::length(glm::vec3(x, y, z) - middle) / radius;
          const float pit = std::sqrt(std::max(1.0F - distance * distance, 0.0F));
          float& here = height[at(x, y, z)];
          here = std::min(here, 1.0F - pit);
        }
      }
    }
  }
  std::vector<std::uint8_t> texels(height.size() * 4);
  const auto byte = [](float v) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(v, 0.0F, 1.0F) * 255.0F));
  };
  for (int z = 0; z < kSize; ++z) {
    for (int y = 0; y < kSize; ++y) {
      for (int x = 0; x < kSize; ++x) {
        const glm::vec3 slope(height[at(x + 1, y, z)] - height[at(x - 1, y, z)],
                              height[at(x, y + 1, z)] - height[at(x, y - 1, z)],
                              height[at(x, y, z + 1)] - height[at(x, y, z - 1)]);
        std::uint8_t* texel = &texels[at(x, y, z) * 4];
        texel[0] = byte(0.5F + 0.7F * slope.x);
        texel[1] = byte(0.5F + 0.7F * slope.y);
        texel[2] = byte(0.5F + 0.7F * slope.z);
        texel[3] = byte(height[at(x, y, z)]);
      }
    }
  }
  return texels;
}

}  // namespace driftbench::render
