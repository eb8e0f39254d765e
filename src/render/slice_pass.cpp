// Draws planes through the volume: sections in the block's own planes, and slices as a scan shows
// them.
#include "geometry/anatomical_frame.h"
#include "render/renderer_impl.h"

#include <algorithm>
#include <array>

namespace driftbench::render {

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
  std::array<glm::vec4, kSliceBodies> tops{};
  std::array<glm::vec4, kSliceBodies> downs{};
  glm::vec4 points{0.0F};
  for (std::size_t i = 0; i < std::min(request.bodies.size(), tops.size()); ++i) {
    const specimen::RevolvedBody& body = request.bodies[i];
    tops[i] = glm::vec4(glm::vec3(body.top_mm), static_cast<float>(body.radius_mm));
    downs[i] = glm::vec4(glm::vec3(body.down_unit), static_cast<float>(body.length_mm));
    points[static_cast<int>(i)] = static_cast<float>(body.point_mm);
  }
  slice.set("body_top", tops.data(), kSliceBodies);
  slice.set("body_down", downs.data(), kSliceBodies);
  slice.set("body_point", points);
  slice.set("beam_mm", static_cast<float>(request.beam_mm));
  r.draw_full();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return {target.texture(), width_px, height_px};
}

}  // namespace driftbench::render
