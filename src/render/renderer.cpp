#include "render/renderer.h"

#include "geometry/anatomical_frame.h"
#include "render/fixture_meshes.h"
#include "render/foam_noise.h"
#include "render/glyphs.h"
#include "render/renderer_impl.h"

#include <algorithm>
#include <array>

namespace driftbench::render {
namespace {

GLuint new_texture(GLenum target, GLint smallest, GLint wrap) {
  GLuint id = 0;
  glGenTextures(1, &id);
  glBindTexture(target, id);
  glTexParameteri(target, GL_TEXTURE_MIN_FILTER, smallest);
  glTexParameteri(target, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  for (const GLenum direction :
       std::array<GLenum, 3>{GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T, GL_TEXTURE_WRAP_R}) {
    glTexParameteri(target, direction, wrap);
  }
  return id;
}

void bind_texture(GLenum unit, GLenum target, GLuint id) {
  glActiveTexture(GL_TEXTURE0 + unit);
  glBindTexture(target, id);
}

}  // namespace

void Renderer::Impl::create_textures() {
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  foam = new_texture(GL_TEXTURE_3D, GL_LINEAR_MIPMAP_NEAREST, GL_REPEAT);
  glTexImage3D(GL_TEXTURE_3D, 0, GL_RGBA8, kFoamNoiseSize, kFoamNoiseSize, kFoamNoiseSize, 0,
               GL_RGBA, GL_UNSIGNED_BYTE, foam_noise().data());
  glGenerateMipmap(GL_TEXTURE_3D);
  glyphs = new_texture(GL_TEXTURE_2D, GL_LINEAR, GL_CLAMP_TO_EDGE);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, kGlyphCount * kGlyphWidth_px, kGlyphHeight_px, 0, GL_RED,
               GL_UNSIGNED_BYTE, glyph_atlas().data());
}

void Renderer::Impl::share(const FrameUniforms& frame) const {
  glBindBufferBase(GL_UNIFORM_BUFFER, 0, frame_buffer);
  glBufferSubData(GL_UNIFORM_BUFFER, 0, sizeof(frame), &frame);
}

void Renderer::Impl::bind_volume() const {
  bind_texture(0, GL_TEXTURE_3D, volume.coverage());
  bind_texture(1, GL_TEXTURE_3D, volume.material());
  bind_texture(2, GL_TEXTURE_3D, foam);
  bind_texture(3, GL_TEXTURE_2D, glyphs);
  bind_texture(4, GL_TEXTURE_3D, volume.tissue());
  glActiveTexture(GL_TEXTURE0);
}

void Renderer::Impl::draw_full() const {
  glBindVertexArray(full_array);
  glDrawArrays(GL_TRIANGLES, 0, 3);
  glBindVertexArray(0);
}

Renderer::Renderer() : impl_(std::make_unique<Impl>()) {}

Renderer::~Renderer() = default;

std::string Renderer::create() {
  const Smoothing smoothing = impl_->smoothing;
  impl_ = std::make_unique<Impl>();
  impl_->smoothing = smoothing;
  impl_->programs.make_basic();
  if (!impl_->programs.problem().empty()) {
    return impl_->programs.problem();
  }
  impl_->create_textures();
  glGenVertexArrays(1, &impl_->full_array);
  glGenBuffers(1, &impl_->frame_buffer);
  glBindBuffer(GL_UNIFORM_BUFFER, impl_->frame_buffer);
  glBufferData(GL_UNIFORM_BUFFER, sizeof(FrameUniforms), nullptr, GL_DYNAMIC_DRAW);
  impl_->handpiece.create(handpiece_mesh());
  impl_->cube.create(cube_mesh());
  impl_->crumb.create(crumb_mesh());
  impl_->line_quad.create(line_mesh());
  return {};
}

void Renderer::forget() {
  const Smoothing smoothing = impl_->smoothing;
  impl_ = std::make_unique<Impl>();
  impl_->smoothing = smoothing;
}

void Renderer::upload(const volume::Volume& volume) {
  if (impl_->volume.upload(volume)) {
    impl_->bench_light_is_current = false;
  }
}

void Renderer::update(const volume::Volume& volume, const volume::VoxelBox& box) {
  impl_->volume.update(volume, box);
}

const std::string& Renderer::problem() const {
  return impl_->programs.problem();
}

void Renderer::set_smoothing(Smoothing smoothing) {
  impl_->smoothing = smoothing;
}

void Renderer::Impl::begin_plane(Target& target, int width_px, int height_px) const {
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_CULL_FACE);
  glDisable(GL_BLEND);
  glDisable(GL_DEPTH_TEST);
  target.begin(width_px, height_px);
  bind_volume();
}

Picture Renderer::draw_section(int slot, const Scene& scene, const SectionRequest& request,
                               int width_px, int height_px) {
  Impl& r = *impl_;
  Target& target = r.slots[static_cast<std::size_t>(slot)];
  if (!r.volume.is_ready() || scene.plan == nullptr || width_px <= 0 || height_px <= 0) {
    return {};
  }
  const specimen::Plan& plan = *scene.plan;
  const base::Result<geometry::AnatomicalFrame> axes =
      geometry::make_anatomical_frame(plan.entry_mm, plan.apex_mm(), plan.md_hint, plan.bl_hint);
  if (!axes) {
    return {};
  }
  const math::Vec3 out = -axes->down_unit;
  math::Vec3 right = axes->md_unit;
  math::Vec3 up = out;
  math::Vec3 away = axes->bl_unit;
  if (request.plane == SectionPlane::kBuccoLingual) {
    right = axes->bl_unit;
    away = axes->md_unit;
  } else if (request.plane == SectionPlane::kAxial) {
    up = axes->bl_unit;
    away = axes->down_unit;
  }
  const math::Vec3 centre = plan.entry_mm + request.offset_mm * away + request.centre_u_mm * right +
                            request.centre_v_mm * up;

  r.programs.make_section();
  r.share(specimen_frame(r.volume, request.light_theme));
  r.begin_plane(target, width_px, height_px);
  r.programs.section.use();
  r.programs.section.set("centre", glm::vec3(centre));
  r.programs.section.set("right", glm::vec3(0.5 * width_px * request.mm_per_pixel * right));
  r.programs.section.set("up", glm::vec3(0.5 * height_px * request.mm_per_pixel * up));
  r.programs.section.set("pixel_mm", static_cast<float>(request.mm_per_pixel));
  r.programs.section.set("background", background_colour(request.light_theme));
  r.draw_full();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return {target.texture(), width_px, height_px};
}

Picture Renderer::draw_slice(int slot, const SliceRequest& request, int width_px, int height_px) {
  Impl& r = *impl_;
  Target& target = r.slots[static_cast<std::size_t>(slot)];
  if (!r.volume.is_ready() || width_px <= 0 || height_px <= 0) {
    return {};
  }
  r.programs.make_slice();
  r.share(specimen_frame(r.volume, false));
  r.begin_plane(target, width_px, height_px);
  const Program& slice = r.programs.slice;
  slice.use();
  slice.set("centre", glm::vec3(request.centre_mm));
  slice.set("right", glm::vec3(0.5 * width_px * request.mm_per_pixel * request.right_unit));
  slice.set("up", glm::vec3(0.5 * height_px * request.mm_per_pixel * request.up_unit));
  slice.set("pixel_mm", static_cast<float>(request.mm_per_pixel));
  slice.set("window", glm::vec4(static_cast<float>(request.low_mg_per_cm3),
                                static_cast<float>(request.high_mg_per_cm3),
                                request.single_voxels ? 1.0F : 0.0F,
                                static_cast<float>(request.tissue_colours)));
  std::array<glm::vec4, 2> tops{};
  std::array<glm::vec4, 2> downs{};
  glm::vec4 points{0.0F};
  for (std::size_t i = 0; i < std::min(request.bodies.size(), tops.size()); ++i) {
    const specimen::RevolvedBody& body = request.bodies[i];
    tops[i] = glm::vec4(glm::vec3(body.top_mm), static_cast<float>(body.radius_mm));
    downs[i] = glm::vec4(glm::vec3(body.down_unit), static_cast<float>(body.length_mm));
    points[static_cast<int>(i)] = static_cast<float>(body.point_mm);
  }
  slice.set("body_top", tops.data(), 2);
  slice.set("body_down", downs.data(), 2);
  slice.set("body_point", points);
  slice.set("beam_mm", static_cast<float>(request.beam_mm));
  r.draw_full();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return {target.texture(), width_px, height_px};
}

}  // namespace driftbench::render
