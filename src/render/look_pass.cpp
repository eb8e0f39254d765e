// Draws a look: specimen, drill, guide, debris, plan.
#include "render/drill_mesh.h"
#include "render/glyphs.h"
#include "render/implant_mesh.h"
#include "render/overlay.h"
#include "render/projection.h"
#include "render/renderer_impl.h"

#include <algorithm>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr int kBenchLight_px = 160;
constexpr int kMostPrinted = 16;

const glm::vec4 kPolished{0.60F, 0.595F, 0.58F, 0.05F};
const glm::vec4 kBrushed{0.50F, 0.505F, 0.515F, 0.50F};
const glm::vec4 kSatin{0.56F, 0.555F, 0.54F, 0.45F};
const glm::vec4 kStopTone{0.25F, 0.25F, 0.26F, 0.70F};

}  // namespace

void Renderer::Impl::update_shapes(const Scene& scene) {
  if (scene.drill != nullptr && shown_drill != *scene.drill) {
    drill.create(drill_mesh(*scene.drill));
    stop.create(stop_mesh(0.5 * scene.drill->diameter_mm));
    shown_drill = *scene.drill;
  }
  const math::Vec2 wanted_pin_mm(scene.pin_diameter_mm, scene.pin_depth_mm);
  if (scene.pin_diameter_mm > 0.0 && shown_pin_mm != wanted_pin_mm) {
    pin.create(pin_mesh(scene.pin_diameter_mm, scene.pin_depth_mm));
    shown_pin_mm = wanted_pin_mm;
  }
  if (scene.implant != nullptr && shown_implant != *scene.implant) {
    implant.create(implant_mesh(*scene.implant));
    driver.create(driver_mesh(*scene.implant));
    shown_implant = *scene.implant;
  }
  if (scene.sleeve != nullptr && shown_sleeve != *scene.sleeve) {
    sleeve.create(sleeve_mesh(*scene.sleeve));
    shown_sleeve = *scene.sleeve;
    shown_key.reset();
  }
  if (scene.key != nullptr && scene.sleeve != nullptr && shown_key != *scene.key) {
    key.create(key_mesh(*scene.key, *scene.sleeve));
    shown_key = *scene.key;
  }
  if (scene.guide != nullptr) {
    const GuideShape shape = guide_shape(scene, volume);
    if (shown_guide != shape) {
      guide.create(guide_mesh(shape));
      shown_guide = shape;
    }
  }
}

void Renderer::Impl::bake_bench_light(const FrameUniforms& frame) {
  share(frame);
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_BLEND);
  baked.begin(kBenchLight_px, kBenchLight_px);
  bind_volume();
  programs.bench_light.use();
  draw_full();
  bench_light_is_current = true;
}

void Renderer::Impl::draw_specimen(const Scene& scene) {
  // The far faces of the box, so that it is drawn once even with the eye inside.
  glEnable(GL_CULL_FACE);
  glCullFace(GL_FRONT);
  if (volume.has_tissue()) {
    programs.make_jaw(*shaded);
    shaded->jaw.use();
    shaded->jaw.set("reveal", glm::vec4(scene.show_gum ? 1.0F : 0.0F,
                                        static_cast<float>(scene.clear), 0.0F, 0.0F));
  } else {
    shaded->block.use();
  }
  cube.draw();
  glDisable(GL_CULL_FACE);
  glCullFace(GL_BACK);
}

void Renderer::Impl::draw_drill(const Scene& scene, const Camera& camera,
                                const Placement& placement) const {
  const specimen::Drill& kit_drill = *scene.drill;
  const DrillLengths lengths = lengths_of(kit_drill);
  const math::Vec3 toward_eye = frame_of(camera).eye_mm - scene.pose.tip_mm;
  const math::Vec3 side = math::cross(scene.pose.axis_out_unit, toward_eye);
  const double side_length = math::length(side);
  const math::Vec3 side_unit = side_length > 1e-6 ? side / side_length : math::Vec3(1.0, 0.0, 0.0);

  // Lines differ in width, not in colour; the number stands above its line, in the room it has.
  std::array<glm::vec4, kMostPrinted> printed{};
  int count = 0;
  for (std::size_t i = 0; i < kit_drill.depth_lines_mm.size() && count < kMostPrinted - 1; ++i) {
    const double line_mm = kit_drill.depth_lines_mm[i];
    const double half_mm = i % 2 == 0 ? 0.11 : 0.24;
    double room_mm = lengths.body_end_mm - lengths.point_mm - line_mm;
    for (const double other_mm : kit_drill.depth_lines_mm) {
      if (other_mm > line_mm) {
        room_mm = std::min(room_mm, other_mm - line_mm);
      }
    }
    const double digit_mm = std::min(1.45, room_mm - half_mm - 0.5);
    printed[static_cast<std::size_t>(count++)] = glm::vec4(
        static_cast<float>(lengths.point_mm + line_mm), static_cast<float>(half_mm),
        coded_number(line_mm, false), digit_mm > 0.6 ? static_cast<float>(digit_mm) : 0.0F);
  }
  // The diameter on the collar.
  const double collar_mm = lengths.shank_mm - lengths.body_end_mm;
  printed[static_cast<std::size_t>(count++)] =
      glm::vec4(static_cast<float>(lengths.body_end_mm + 0.28 * collar_mm), -0.05F,
                coded_number(kit_drill.diameter_mm, true), 1.2F);

  const Program& metal = shaded->metal;
  metal.use();
  metal.set("tint", kPolished);
  metal.set("print_lines", printed.data(), count);
  metal.set("print_count", count);
  metal.set("print_side", glm::vec3(side_unit));
  metal.set("placed", placement.drill);
  drill.draw();
  if (scene.stop_length_mm > 0.0) {
    draw_metal(stop, kStopTone, placement.stop);
  }
  draw_metal(handpiece, kBrushed, placement.handpiece);
}

void Renderer::Impl::draw_metal(const GpuMesh& part, const glm::vec4& tint,
                                const glm::mat4& placed) const {
  const Program& metal = shaded->metal;
  metal.use();
  metal.set("print_count", 0);
  metal.set("tint", tint);
  metal.set("placed", placed);
  part.draw();
}

void Renderer::Impl::draw_pin(const Placement& placement) const {
  draw_metal(pin, kSatin, placement.pin);
}

void Renderer::Impl::draw_implant(const Scene& scene, const Placement& placement) const {
  draw_metal(implant, kSatin, placement.implant);
  if (scene.implant_in_hand) {
    draw_metal(driver, kPolished, placement.driver);
    draw_metal(handpiece, kBrushed, placement.handpiece);
  }
}

void Renderer::Impl::draw_guide(const Scene& scene, const Placement& placement) const {
  if (scene.sleeve != nullptr) {
    draw_metal(sleeve, kSatin, placement.guide);
    if (scene.key != nullptr) {
      draw_metal(key, kPolished, placement.guide);
    }
  }
  // Resin: first its depth, so that only the nearest surface shows, then its colour.
  programs.resin.use();
  programs.resin.set("placed", placement.guide);
  glEnable(GL_CULL_FACE);
  glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
  guide.draw();
  glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDepthMask(GL_FALSE);
  guide.draw();
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
  glDisable(GL_CULL_FACE);
}

void Renderer::Impl::draw_crumbs(const Scene& scene) {
  const Crumbs all = crumbs_of(scene, volume);
  if (all.count == 0) {
    return;
  }
  programs.make_overlay();
  programs.chip.use();
  programs.chip.set("crumbs", all.crumbs.data(), all.count);
  programs.chip.set("tone", glm::vec4(0.50F, 0.45F, 0.37F, 1.0F));
  crumb.draw_instances(all.count);
}

void Renderer::Impl::draw_water(const Scene& scene) {
  const Lines water = water_of(scene, volume);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDepthMask(GL_FALSE);
  programs.make_overlay();
  programs.line.use();
  programs.line.set("picture", glm::vec2(drawn.width_px(), drawn.height_px()));
  programs.line.set("core", glm::vec4(0.90F, 0.95F, 1.0F, 0.34F));
  programs.line.set("casing", glm::vec4(0.80F, 0.88F, 0.95F, 0.12F));
  programs.line.set("ends", water.ends.data(), 2 * water.count);
  programs.line.set("half_width", std::max(1.0F, static_cast<float>(drawn.height_px()) / 360.0F));
  programs.line.set("dash", glm::vec2(0.0F));
  line_quad.draw_instances(water.count);
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
}

void Renderer::Impl::draw_plan(const Scene& scene, const Camera& camera) {
  glDisable(GL_DEPTH_TEST);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  const float half_width = std::max(2.1F, static_cast<float>(drawn.height_px()) / 330.0F);
  programs.make_overlay();
  programs.line.use();
  programs.line.set("picture", glm::vec2(drawn.width_px(), drawn.height_px()));
  programs.line.set("core", glm::vec4(0.97F, 0.97F, 0.97F, 0.95F));
  programs.line.set("casing", glm::vec4(0.03F, 0.03F, 0.03F, 0.95F));
  const Lines outline = plan_outline(scene, camera);
  programs.line.set("ends", outline.ends.data(), 2 * outline.count);
  programs.line.set("half_width", half_width);
  programs.line.set("dash", glm::vec2(1.1F, 0.66F));
  line_quad.draw_instances(outline.count);
  const Lines axis = plan_axis(scene);
  programs.line.set("ends", axis.ends.data(), 2 * axis.count);
  programs.line.set("half_width", 0.75F * half_width);
  programs.line.set("dash", glm::vec2(0.7F, 0.28F));
  line_quad.draw_instances(axis.count);
  glDisable(GL_BLEND);
}

Picture Renderer::draw_look(int slot, const Scene& scene, const Camera& camera, int width_px,
                            int height_px) {
  Impl& r = *impl_;
  Target& target = r.slots[static_cast<std::size_t>(slot)];
  if (!r.volume.is_ready() || width_px <= 0 || height_px <= 0) {
    return {};
  }
  r.update_shapes(scene);
  const bool fine = r.smoothing == Smoothing::kFine;
  const int scale = fine ? 2 : 1;
  const FrameUniforms frame =
      look_frame(scene, camera, r.volume, width_px * scale, height_px * scale);
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_CULL_FACE);
  if (!r.bench_light_is_current) {
    r.bake_bench_light(specimen_frame(r.volume, scene.light_theme));
  }

  r.share(frame);
  r.drawn.begin(width_px * scale, height_px * scale);
  glClearDepthf(1.0F);
  glClear(GL_DEPTH_BUFFER_BIT);
  glDisable(GL_BLEND);
  r.bind_volume();
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LEQUAL);
  glDepthMask(GL_TRUE);
  const bool has_guide = scene.guide != nullptr && scene.guide_state.placed;
  if (has_guide) {
    r.programs.make_guided();
  }
  r.shaded = has_guide ? &r.programs.guided : &r.programs.free_hand;
  const Placement placement = placement_of(scene);
  if (scene.drill != nullptr) {
    r.draw_drill(scene, camera, placement);
  }
  if (scene.pin_diameter_mm > 0.0) {
    r.draw_pin(placement);
  }
  if (scene.implant != nullptr) {
    r.draw_implant(scene, placement);
  }
  r.draw_specimen(scene);
  r.draw_crumbs(scene);
  // The bench only where nothing else was drawn.
  r.baked.bind_texture();
  r.programs.bench.use();
  r.draw_full();
  r.bind_volume();
  if (has_guide) {
    r.draw_guide(scene, placement);
  }
  if (scene.irrigation && scene.drill != nullptr) {
    r.draw_water(scene);
  }
  if (scene.show_plan && scene.plan != nullptr) {
    r.draw_plan(scene, camera);
  }

  glDisable(GL_DEPTH_TEST);
  target.begin(width_px, height_px);
  r.drawn.bind_texture();
  r.programs.resolve.use();
  r.programs.resolve.set("texel", glm::vec2(1.0F / static_cast<float>(r.drawn.width_px()),
                                            1.0F / static_cast<float>(r.drawn.height_px())));
  r.programs.resolve.set("smoothing", fine ? 0.0F : 1.0F);
  r.draw_full();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return {target.texture(), width_px, height_px};
}

}  // namespace driftbench::render
