// Named scenes that the render tests draw: fresh block, drilling, finished hole, guide, sections.
#pragma once

#include "render/renderer.h"

#include <string_view>
#include <vector>

namespace driftbench::render_test {

/// A scene with everything it points to, and the camera of its looks.
struct NamedScene {
  volume::Volume volume;
  specimen::Plan plan;
  specimen::Drill drill;
  specimen::Guide guide;
  specimen::Sleeve sleeve;
  specimen::Key key;
  render::Scene scene;
  render::Camera camera;
  bool is_section = false;
  render::SectionRequest section;
  bool is_slice = false;
  render::SliceRequest slice;
};

/// The names that scene() knows.
[[nodiscard]] std::vector<std::string_view> scene_names();

/// Fills `named`; false for an unknown name. The volume is built and drilled by the project's own
/// code.
[[nodiscard]] bool make_scene(std::string_view name, NamedScene& named);

}  // namespace driftbench::render_test
