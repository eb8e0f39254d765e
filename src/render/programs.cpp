#include "render/programs.h"

#include "render/shader_text.h"

namespace driftbench::render {
namespace {

constexpr std::string_view kWithGuide = "#define WITH_GUIDE\n";

}  // namespace

void Programs::make(Program& program, std::string_view definitions, Names vertex, Names fragment,
                    std::initializer_list<const char*> samplers) {
  if (!problem_.empty()) {
    return;
  }
  problem_ = program.create(shader_text(definitions, vertex), shader_text(definitions, fragment),
                            samplers);
  if (!problem_.empty()) {
    problem_ = std::string(*(fragment.end() - 1)) + ": " + problem_;
  }
}

void Programs::make_with_volume(Program& program, std::string_view definitions, Names vertex,
                                std::string_view fragment) {
  // The order gives the texture units that Renderer binds.
  make(program, definitions, vertex, {"frame.glsl", "volume.glsl", fragment},
       {"coverage_map", "material_map", "foam_map", "glyph_map"});
}

void Programs::make_with_tissue(Program& program, std::string_view definitions,
                                std::string_view vertex, std::string_view fragment) {
  make(program, definitions, {"frame.glsl", vertex},
       {"frame.glsl", "volume.glsl", "tissue.glsl", fragment},
       {"coverage_map", "material_map", "foam_map", "glyph_map", "tissue_map"});
}

void Programs::make_shaded(Shaded& shaded, std::string_view definitions) {
  if (shaded.is_made) {
    return;
  }
  shaded.is_made = true;
  make_with_volume(shaded.block, definitions, {"frame.glsl", "block.vert"}, "block.frag");
  make_with_volume(shaded.metal, definitions, {"frame.glsl", "solid.vert"}, "metal.frag");
}

void Programs::make_basic() {
  make_shaded(free_hand, {});
  make(bench, {}, {"frame.glsl", "full.vert"}, {"frame.glsl", "bench.frag"}, {"bench_light"});
  make_with_volume(bench_light, {}, {"frame.glsl", "full.vert"}, "bench_light.frag");
  make(resolve, {}, {"frame.glsl", "full.vert"}, {"frame.glsl", "resolve.frag"}, {"drawn"});
}

void Programs::make_guided() {
  if (guided.is_made) {
    return;
  }
  make_shaded(guided, kWithGuide);
  make(resin, {}, {"frame.glsl", "solid.vert"}, {"frame.glsl", "resin.frag"}, {});
}

void Programs::make_overlay() {
  if (has_overlay_) {
    return;
  }
  has_overlay_ = true;
  make(chip, {}, {"frame.glsl", "chip.vert"}, {"frame.glsl", "chip.frag"}, {});
  make(line, {}, {"frame.glsl", "line.vert"}, {"frame.glsl", "line.frag"}, {});
}

void Programs::make_section() {
  if (has_section_) {
    return;
  }
  has_section_ = true;
  make_with_volume(section, {}, {"frame.glsl", "full.vert"}, "section.frag");
}

void Programs::make_slice() {
  if (!has_slice_) {
    has_slice_ = true;
    make_with_tissue(slice, {}, "full.vert", "slice.frag");
  }
}

void Programs::make_jaw(Shaded& shaded) {
  if (!shaded.has_jaw) {
    shaded.has_jaw = true;
    make_with_tissue(shaded.jaw, &shaded == &guided ? kWithGuide : std::string_view(), "block.vert",
                     "jaw.frag");
  }
}

}  // namespace driftbench::render
