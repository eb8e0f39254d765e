// What the renderer holds. Private to render/.
#pragma once

#include "render/gl_objects.h"
#include "render/look_frame.h"
#include "render/programs.h"
#include "render/renderer.h"
#include "render/volume_texture.h"

#include <array>
#include <optional>

namespace driftbench::render {

struct Renderer::Impl {
  Programs programs;
  Programs::Shaded* shaded = &programs.free_hand;  ///< for the scene that is being drawn
  // Shapes; the kit's shapes are remade when another piece is taken.
  GpuMesh drill, stop, pin, implant, driver, handpiece, guide, sleeve, key, cube, crumb, line_quad;
  std::optional<specimen::Drill> shown_drill;
  math::Vec2 shown_pin_mm{0.0};  ///< diameter and depth
  std::optional<specimen::Implant> shown_implant;
  std::optional<GuideShape> shown_guide;
  std::optional<specimen::Sleeve> shown_sleeve;
  std::optional<specimen::Key> shown_key;
  GLuint full_array = 0;  // no attributes: the vertex shader makes the triangle
  GLuint frame_buffer = 0;
  GLuint foam = 0;
  GLuint glyphs = 0;
  VolumeTexture volume;
  bool is_made = false;
  bool bench_light_is_current = false;
  Smoothing smoothing = Smoothing::kFast;
  Target baked{false};
  Target drawn{true};
  std::array<Target, 5> slots{Target(false), Target(false), Target(false), Target(false),
                              Target(false)};

  /// What the first picture needs; `programs.problem()` says why not.
  void make();
  void create_textures();
  void share(const FrameUniforms& frame) const;
  void bind_volume() const;
  void draw_full() const;
  /// Opens a target for a plane through the volume, with nothing but the volume bound.
  void begin_plane(Target& target, int width_px, int height_px) const;
  void update_shapes(const Scene& scene);
  void bake_bench_light(const FrameUniforms& frame);
  void draw_specimen(const Scene& scene);
  void draw_drill(const Scene& scene, const Camera& camera, const Placement& placement) const;
  void draw_pin(const Placement& placement) const;
  /// One plain metal part, nothing printed on it.
  void draw_metal(const GpuMesh& part, const glm::vec4& tint, const glm::mat4& placed) const;
  void draw_implant(const Scene& scene, const Placement& placement) const;
  void draw_guide(const Scene& scene, const Placement& placement) const;
  void draw_crumbs(const Scene& scene);
  void draw_water(const Scene& scene);
  void draw_plan(const Scene& scene, const Camera& camera);
};

}  // namespace driftbench::render
