#include "render/renderer.h"

#include "geometry/anatomical_frame.h"
#include "render/drill_mesh.h"
#include "render/foam_noise.h"
#include "render/gl_objects.h"
#include "render/glyphs.h"
#include "render/look_frame.h"
#include "render/overlay.h"
#include "render/projection.h"
#include "render/shader_text.h"
#include "render/volume_texture.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr int kBenchLight_px = 160;
constexpr int kMostPrinted = 16;

const glm::vec4 kPolished{0.60F, 0.595F, 0.58F, 0.05F};
const glm::vec4 kBrushed{0.50F, 0.505F, 0.515F, 0.50F};
const glm::vec4 kSatin{0.56F, 0.555F, 0.54F, 0.45F};
const glm::vec4 kStopTone{0.25F, 0.25F, 0.26F, 0.70F};

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

void bind(GLenum unit, GLenum target, GLuint id) {
  glActiveTexture(GL_TEXTURE0 + unit);
  glBindTexture(target, id);
}

}  // namespace

struct Renderer::Impl {
  // Programs
  struct GuidedPrograms {
    Program bench, block, metal;
  };

  GuidedPrograms free_hand, guided;
  const GuidedPrograms* current = &free_hand;  ///< for the scene that is being drawn
  Program bench_light, resin, chip, line, section, resolve;
  // Shapes; the kit's shapes are remade when another piece is taken.
  GpuMesh drill, stop, handpiece, guide, sleeve, key, cube, crumb, line_quad;
  std::optional<specimen::Drill> shown_drill;
  std::optional<GuideShape> shown_guide;
  std::optional<specimen::Sleeve> shown_sleeve;
  std::optional<specimen::Key> shown_key;
  GLuint full_array = 0;  // no attributes: the vertex shader makes the triangle
  GLuint frame_buffer = 0;
  GLuint foam = 0;
  GLuint glyphs = 0;
  VolumeTexture volume;
  bool bench_light_is_current = false;
  Smoothing smoothing = Smoothing::kFast;
  Target baked{false};
  Target drawn{true};
  std::array<Target, 4> slots{Target(false), Target(false), Target(false), Target(false)};

  std::string create_programs();
  void create_textures();
  void share(const FrameUniforms& frame) const;
  void bind_volume() const;
  void draw_full() const;
  void update_shapes(const Scene& scene);
  void bake_bench_light(const FrameUniforms& frame);
  void draw_block() const;
  void draw_drill(const Scene& scene, const Camera& camera, const Placement& placement) const;
  void draw_guide(const Scene& scene, const Placement& placement) const;
  void draw_crumbs(const Scene& scene) const;
  void draw_drops(const Scene& scene) const;
  void draw_plan(const Scene& scene, const Camera& camera) const;
};

std::string Renderer::Impl::create_programs() {
  using Names = std::initializer_list<std::string_view>;
  using Samplers = std::initializer_list<const char*>;
  std::string problem;
  const auto make = [&](Program& program, std::string_view definitions, Names vertex,
                        Names fragment, Samplers samplers) {
    if (problem.empty()) {
      problem = program.create(shader_text(definitions, vertex), shader_text(definitions, fragment),
                               samplers);
      if (!problem.empty()) {
        problem = std::string(*(fragment.end() - 1)) + ": " + problem;
      }
    }
  };
  const auto make_with_volume = [&](Program& program, std::string_view definitions, Names vertex,
                                    std::string_view fragment) {
    make(program, definitions, vertex, {"frame.glsl", "volume.glsl", fragment},
         {"coverage_map", "material_map", "foam_map", "glyph_map"});
  };
  const Names full = {"frame.glsl", "full.vert"};
  const Names solid = {"frame.glsl", "solid.vert"};
  for (const bool with_guide : {false, true}) {
    const std::string_view definitions = with_guide ? "#define WITH_GUIDE\n" : "";
    GuidedPrograms& programs = with_guide ? guided : free_hand;
    make(programs.bench, definitions, full, {"frame.glsl", "bench.frag"}, {"bench_light"});
    make_with_volume(programs.block, definitions, {"frame.glsl", "block.vert"}, "block.frag");
    make_with_volume(programs.metal, definitions, solid, "metal.frag");
  }
  make_with_volume(bench_light, {}, full, "bench_light.frag");
  make_with_volume(section, {}, full, "section.frag");
  make(resin, {}, solid, {"frame.glsl", "resin.frag"}, {});
  make(chip, {}, {"frame.glsl", "chip.vert"}, {"frame.glsl", "chip.frag"}, {});
  make(line, {}, {"frame.glsl", "line.vert"}, {"frame.glsl", "line.frag"}, {});
  make(resolve, {}, full, {"frame.glsl", "resolve.frag"}, {"drawn"});
  return problem;
}

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
  bind(0, GL_TEXTURE_3D, volume.coverage());
  bind(1, GL_TEXTURE_3D, volume.material());
  bind(2, GL_TEXTURE_3D, foam);
  bind(3, GL_TEXTURE_2D, glyphs);
  glActiveTexture(GL_TEXTURE0);
}

void Renderer::Impl::draw_full() const {
  glBindVertexArray(full_array);
  glDrawArrays(GL_TRIANGLES, 0, 3);
  glBindVertexArray(0);
}

void Renderer::Impl::update_shapes(const Scene& scene) {
  if (scene.drill != nullptr && shown_drill != *scene.drill) {
    drill.create(drill_mesh(*scene.drill));
    stop.create(stop_mesh(0.5 * scene.drill->diameter_mm));
    shown_drill = *scene.drill;
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
  bench_light.use();
  draw_full();
  bench_light_is_current = true;
}

void Renderer::Impl::draw_block() const {
  // The far faces of the box, so that it is drawn once even with the eye inside.
  glEnable(GL_CULL_FACE);
  glCullFace(GL_FRONT);
  current->block.use();
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

  const Program& metal = current->metal;
  metal.use();
  metal.set("tint", kPolished);
  metal.set("print_lines", printed.data(), count);
  metal.set("print_count", count);
  metal.set("print_side", glm::vec3(side_unit));
  metal.set("placed", placement.drill);
  drill.draw();
  metal.set("print_count", 0);
  if (scene.stop_length_mm > 0.0) {
    metal.set("tint", kStopTone);
    metal.set("placed", placement.stop);
    stop.draw();
  }
  metal.set("tint", kBrushed);
  metal.set("placed", placement.handpiece);
  handpiece.draw();
}

void Renderer::Impl::draw_guide(const Scene& scene, const Placement& placement) const {
  const Program& metal = current->metal;
  metal.use();
  metal.set("print_count", 0);
  metal.set("placed", placement.guide);
  metal.set("tint", kSatin);
  if (scene.sleeve != nullptr) {
    sleeve.draw();
    if (scene.key != nullptr) {
      metal.set("tint", kPolished);
      key.draw();
    }
  }
  // Resin: first its depth, so that only the nearest surface shows, then its colour.
  resin.use();
  resin.set("placed", placement.guide);
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

void Renderer::Impl::draw_crumbs(const Scene& scene) const {
  const Crumbs all = crumbs_of(scene, volume);
  if (all.count == 0) {
    return;
  }
  chip.use();
  chip.set("crumbs", all.crumbs.data(), all.count);
  chip.set("tone", glm::vec4(0.50F, 0.45F, 0.37F, 1.0F));
  crumb.draw_instances(all.count);
}

void Renderer::Impl::draw_drops(const Scene& scene) const {
  const Crumbs all = drops_of(scene, volume);
  if (all.count == 0) {
    return;
  }
  chip.use();
  chip.set("crumbs", all.crumbs.data(), all.count);
  chip.set("tone", glm::vec4(0.62F, 0.72F, 0.80F, 0.42F));
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDepthMask(GL_FALSE);
  crumb.draw_instances(all.count);
  glDepthMask(GL_TRUE);
  glDisable(GL_BLEND);
}

void Renderer::Impl::draw_plan(const Scene& scene, const Camera& camera) const {
  glDisable(GL_DEPTH_TEST);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  const float half_width = std::max(2.1F, static_cast<float>(drawn.height_px()) / 330.0F);
  line.use();
  line.set("picture", glm::vec2(drawn.width_px(), drawn.height_px()));
  const Lines outline = plan_outline(scene, camera);
  line.set("ends", outline.ends.data(), 2 * outline.count);
  line.set("half_width", half_width);
  line.set("dash", glm::vec2(1.1F, 0.66F));
  line_quad.draw_instances(outline.count);
  const Lines axis = plan_axis(scene);
  line.set("ends", axis.ends.data(), 2 * axis.count);
  line.set("half_width", 0.75F * half_width);
  line.set("dash", glm::vec2(0.7F, 0.28F));
  line_quad.draw_instances(axis.count);
  glDisable(GL_BLEND);
}

Renderer::Renderer() : impl_(std::make_unique<Impl>()) {}

Renderer::~Renderer() = default;

std::string Renderer::create() {
  const Smoothing smoothing = impl_->smoothing;
  impl_ = std::make_unique<Impl>();
  impl_->smoothing = smoothing;
  if (std::string problem = impl_->create_programs(); !problem.empty()) {
    return problem;
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
  impl_->volume.upload(volume);
  impl_->bench_light_is_current = false;
}

void Renderer::update(const volume::Volume& volume, const volume::VoxelBox& box) {
  impl_->volume.update(volume, box);
}

void Renderer::set_smoothing(Smoothing smoothing) {
  impl_->smoothing = smoothing;
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
  r.current = has_guide ? &r.guided : &r.free_hand;
  const Placement placement = placement_of(scene);
  if (scene.drill != nullptr) {
    r.draw_drill(scene, camera, placement);
  }
  r.draw_block();
  r.draw_crumbs(scene);
  // The bench only where nothing else was drawn.
  bind(0, GL_TEXTURE_2D, r.baked.texture());
  r.current->bench.use();
  r.draw_full();
  r.bind_volume();
  if (has_guide) {
    r.draw_guide(scene, placement);
  }
  r.draw_drops(scene);
  if (scene.show_plan && scene.plan != nullptr) {
    r.draw_plan(scene, camera);
  }

  glDisable(GL_DEPTH_TEST);
  target.begin(width_px, height_px);
  bind(0, GL_TEXTURE_2D, r.drawn.texture());
  r.resolve.use();
  r.resolve.set("texel", glm::vec2(1.0F / static_cast<float>(r.drawn.width_px()),
                                   1.0F / static_cast<float>(r.drawn.height_px())));
  r.resolve.set("smoothing", fine ? 0.0F : 1.0F);
  r.draw_full();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return {target.texture(), width_px, height_px};
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

  r.share(specimen_frame(r.volume, request.light_theme));
  glDisable(GL_SCISSOR_TEST);
  glDisable(GL_CULL_FACE);
  glDisable(GL_BLEND);
  glDisable(GL_DEPTH_TEST);
  target.begin(width_px, height_px);
  r.bind_volume();
  r.section.use();
  r.section.set("centre", glm::vec3(centre));
  r.section.set("right", glm::vec3(0.5 * width_px * request.mm_per_pixel * right));
  r.section.set("up", glm::vec3(0.5 * height_px * request.mm_per_pixel * up));
  r.section.set("pixel_mm", static_cast<float>(request.mm_per_pixel));
  r.section.set("background", background_colour(request.light_theme));
  r.draw_full();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  return {target.texture(), width_px, height_px};
}

}  // namespace driftbench::render
