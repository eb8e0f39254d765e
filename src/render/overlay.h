// What is drawn over and around the specimen: the dashed plan, crumbs and debris.
#pragma once

#include "render/camera.h"
#include "render/renderer.h"
#include "render/volume_texture.h"

#include <glm/vec3.hpp>
#include <glm/vec4.hpp>

#include <array>

namespace driftbench::render {

inline constexpr int kMostLines = 64;
inline constexpr int kMostCrumbs = 64;

/// Line pieces: pairs of ends; w is the length along the line, which places the dashes.
struct Lines {
  std::array<glm::vec4, 2 * kMostLines> ends{};
  int count = 0;

  void add(const glm::vec3& from, const glm::vec3& to, float from_length, float to_length);
};

/// Outline of the planned cylinder as this camera sees it: two edges, both rims.
[[nodiscard]] Lines plan_outline(const Scene& scene, const Camera& camera);

/// The planned axis, reaching a little beyond both ends.
[[nodiscard]] Lines plan_axis(const Scene& scene);

struct Crumbs {
  std::array<glm::vec4, kMostCrumbs> crumbs{};  ///< place, size
  int count = 0;
};

/// Debris that lies around the entry (more the more was removed) and flies while material comes
/// off. Deterministic from removed volume and spin.
[[nodiscard]] Crumbs crumbs_of(const Scene& scene, const VolumeTexture& volume);

/// Streaks of cooling water on their way from the head to the entry; none without irrigation.
[[nodiscard]] Lines water_of(const Scene& scene, const VolumeTexture& volume);

}  // namespace driftbench::render
