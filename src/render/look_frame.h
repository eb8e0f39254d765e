// The numbers that all shaders share in one picture, worked out from scene and camera.
#pragma once

#include "render/fixture_meshes.h"
#include "render/renderer.h"
#include "render/volume_texture.h"

#include <glm/mat4x4.hpp>
#include <glm/vec4.hpp>

#include <array>

namespace driftbench::render {

/// Same members in the same order as the uniform block in shaders/frame.glsl (std140).
struct FrameUniforms {
  glm::mat4 world_to_clip{1.0F};
  glm::mat4 clip_to_world{1.0F};
  glm::mat4 world_to_guide{1.0F};
  glm::vec4 eye{0.0F};
  glm::vec4 to_light{0.0F, 0.0F, 1.0F, 0.0F};
  glm::vec4 drill_tip{0.0F};
  glm::vec4 drill_axis{0.0F, 0.0F, 1.0F, 0.0F};
  glm::vec4 drill_lengths{0.0F};
  std::array<glm::vec4, 4> guide_soles{};
  glm::vec4 guide{0.0F};
  glm::vec4 cut{0.0F};
  glm::vec4 box_min{0.0F};
  glm::vec4 box_max{0.0F};
  glm::vec4 lattice_min{0.0F};
  glm::vec4 lattice_scale{1.0F};
  glm::vec4 start_mark{0.0F};
  glm::vec4 backdrop{0.0F};
  glm::vec4 bench{0.0F};
};

/// Where the parts of a scene stand, as rigid transforms.
struct Placement {
  glm::mat4 drill{1.0F};  ///< turned by the spin
  glm::mat4 pin{1.0F};
  glm::mat4 implant{1.0F};  ///< turned by the spin while in hand
  glm::mat4 driver{1.0F};
  glm::mat4 handpiece{1.0F};  ///< not turned
  glm::mat4 stop{1.0F};
  glm::mat4 guide{1.0F};
};

[[nodiscard]] Placement placement_of(const Scene& scene);

/// Feet that reach the specimen's first surface when the guide is seated.
[[nodiscard]] GuideShape guide_shape(const Scene& scene, const VolumeTexture& volume);

/// Everything but camera and scene: the specimen and the light.
[[nodiscard]] FrameUniforms specimen_frame(const VolumeTexture& volume, bool light_theme);

[[nodiscard]] FrameUniforms look_frame(const Scene& scene, const Camera& camera,
                                       const VolumeTexture& volume, int width_px, int height_px);

/// Colour of the theme's background as it is stored, without light.
[[nodiscard]] glm::vec3 background_colour(bool light_theme);

}  // namespace driftbench::render
