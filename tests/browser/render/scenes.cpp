#include "scenes.h"

#include "math/angle.h"
#include "specimen/block.h"
#include "specimen/jaw_volume.h"
#include "volume/carve.h"

#include <cmath>

namespace driftbench::render_test {
namespace {

constexpr std::uint16_t kTick = 1;

specimen::Drill twist_drill(double diameter_mm) {
  specimen::Drill drill;
  drill.id = "test";
  drill.diameter_mm = diameter_mm;
  drill.tip_length_mm = specimen::point_height_mm(diameter_mm, drill.point_angle_deg);
  drill.body_length_mm = 20.0;
  drill.depth_lines_mm = {6.0, 8.0, 10.0, 12.0, 14.0, 16.0};
  drill.stop_lengths_mm = {19.5};
  return drill;
}

math::Vec3 tilted(double toward_x_deg, double toward_y_deg) {
  const double x = std::tan(math::Radians(math::Degrees(toward_x_deg)).value);
  const double y = std::tan(math::Radians(math::Degrees(toward_y_deg)).value);
  return math::unit(math::Vec3(x, y, 1.0));
}

void drill_hole(NamedScene& named, double diameter_mm, const math::Vec3& tip_mm,
                const math::Vec3& axis) {
  volume::RevolvedSolid solid;
  solid.radius_mm = 0.5 * diameter_mm;
  volume::carve(named.volume, solid, tip_mm, axis, 0.0, 30.0, kTick);
}

void take_drill(NamedScene& named, double diameter_mm, const math::Vec3& tip_mm,
                const math::Vec3& axis) {
  named.drill = twist_drill(diameter_mm);
  named.scene.drill = &named.drill;
  named.scene.pose = {tip_mm, axis};
  named.scene.spin_rad = 0.8;
}

void put_guide(NamedScene& named, double lean_deg, double lift_mm, bool with_key) {
  named.sleeve = {"test", 5.2, 4.5, 6.2};
  named.key = {"test", "test", 5.15, 2.05, 1.5};
  named.scene.guide = &named.guide;
  named.scene.sleeve = &named.sleeve;
  named.scene.key = with_key ? &named.key : nullptr;
  named.scene.guide_state.placed = true;
  named.scene.guide_state.held = true;
  const math::Vec3 axis = tilted(lean_deg, -0.6 * lean_deg);
  named.scene.guide_state.sleeve = {math::Vec3(0.0, 0.0, named.guide.gap_mm + lift_mm), axis};
}

struct Row {
  std::string_view name;
  void (*fill)(NamedScene&);
};

const Row kRows[] = {
    {"fresh",
     [](NamedScene& n) {
       take_drill(n, 2.0, {1.2, -0.6, 3.0}, tilted(2.0, 1.0));
     }},
    {"drilling",
     [](NamedScene& n) {
       const math::Vec3 axis = tilted(9.0, -5.0);
       drill_hole(n, 2.0, {0.0, 0.0, -4.6}, axis);
       take_drill(n, 2.0, {0.0, 0.0, -4.6}, axis);
       n.scene.chips = 0.8;
       n.scene.spin_rad = 11.0;
     }},
    {"side",
     [](NamedScene& n) {
       const math::Vec3 axis = tilted(9.0, -5.0);
       drill_hole(n, 2.0, {0.0, 0.0, -4.6}, axis);
       take_drill(n, 2.0, {0.0, 0.0, -4.6}, axis);
       n.camera.heading_deg = 90.0;
     }},
    {"wide",
     [](NamedScene& n) {
       drill_hole(n, 3.4, {0.0, 0.0, -9.0}, tilted(1.0, 0.0));
       take_drill(n, 4.0, {0.0, 0.0, 2.5}, tilted(1.0, 0.0));
       n.scene.drill = &n.drill;
     }},
    {"starter",
     [](NamedScene& n) {
       take_drill(n, 2.3, {-1.5, 0.0, 0.4}, tilted(-4.0, 0.0));
       n.drill.kind = specimen::DrillKind::kStarter;
       n.drill.depth_lines_mm.clear();
       n.scene.irrigation = true;
       n.camera.distance_mm = 90.0;
       n.camera.target_mm = {0.0, 0.0, 8.0};
     }},
    {"side_cutter",
     [](NamedScene& n) {
       take_drill(n, 2.7, {0.5, 0.0, 0.0}, tilted(3.0, 0.0));
       n.drill.kind = specimen::DrillKind::kSideCutter;
     }},
    {"hole",
     [](NamedScene& n) {
       drill_hole(n, 3.4, {0.4, 0.2, -10.9}, tilted(4.0, -3.0));
       n.camera.elevation_deg = 52.0;
       n.camera.distance_mm = 44.0;
     }},
    {"seated",
     [](NamedScene& n) {
       put_guide(n, 0.0, 0.0, false);
       n.camera.target_mm = {0.0, 0.0, 0.0};
     }},
    {"unseated",
     [](NamedScene& n) {
       put_guide(n, 3.2, 0.5, false);
       n.camera.target_mm = {0.0, 0.0, 0.0};
     }},
    {"guided",
     [](NamedScene& n) {
       put_guide(n, 0.0, 0.0, true);
       drill_hole(n, 2.0, {0.0, 0.0, -5.0}, tilted(0.0, 0.0));
       take_drill(n, 2.0, {0.0, 0.0, -5.0}, tilted(0.0, 0.0));
       n.scene.stop_length_mm = 19.5;
       n.camera.target_mm = {0.0, 0.0, 3.0};
       n.camera.distance_mm = 80.0;
     }},
    {"through",
     [](NamedScene& n) {
       drill_hole(n, 3.4, {0.4, 0.2, -10.9}, tilted(4.0, -3.0));
       n.scene.see_through = true;
       n.scene.show_plan = true;
       n.camera.elevation_deg = 14.0;
       n.camera.target_mm = {0.0, 0.0, -8.0};
       n.camera.distance_mm = 62.0;
     }},
    {"sloped",
     [](NamedScene& n) {
       take_drill(n, 2.7, {0.3, 0.2, 4.0}, tilted(0.0, 0.0));
       n.scene.show_start_mark = true;
     }},
    {"section_md",
     [](NamedScene& n) {
       drill_hole(n, 3.4, {0.4, 0.2, -10.9}, tilted(4.0, -3.0));
       n.is_section = true;
     }},
    {"section_axial",
     [](NamedScene& n) {
       drill_hole(n, 3.4, {0.4, 0.2, -10.9}, tilted(4.0, -3.0));
       n.is_section = true;
       n.section.plane = render::SectionPlane::kAxial;
       n.section.offset_mm = 5.0;
       n.section.centre_v_mm = 0.0;
     }},
};

/// A typical lower jaw at the first left molar, coarse; perhaps the crown in front is on an
/// implant.
volume::Volume small_jaw(bool beside_implant) {
  specimen::JawSpec spec = specimen::typical_jaw(specimen::JawRegion::kPosteriorMandible);
  spec.voxel_mm = 0.4;
  spec.length_mm = 20.0;
  if (beside_implant) {
    spec.teeth.front().at_mm = -6.0;
    spec.teeth.front().implant = specimen::ImplantRoot{};
  }
  return specimen::build_jaw(specimen::Jaw(spec), specimen::pose_of(spec.site_fdi), {});
}

/// A plane that no axis of the lattice lies in.
void lay_slice(NamedScene& named, bool single_voxels) {
  named.is_slice = true;
  named.slice.centre_mm = {0.7, 0.3, -7.0};
  named.slice.up_unit = tilted(11.0, -7.0);
  named.slice.right_unit = math::unit(math::cross(math::Vec3(0.3, 1.0, 0.0), named.slice.up_unit));
  named.slice.single_voxels = single_voxels;
}

const Row kJawRows[] = {
    {"jaw",
     [](NamedScene& n) {
       n.camera.target_mm = {0.0, 0.0, -6.0};
       n.camera.distance_mm = 90.0;
       n.camera.heading_deg = 90.0;
       n.scene.see_through = true;
     }},
    {"jaw_front",
     [](NamedScene& n) {
       n.camera.target_mm = {0.0, 0.0, -2.0};
       n.camera.distance_mm = 70.0;
     }},
    {"jaw_drill",
     [](NamedScene& n) {
       n.camera.target_mm = {0.0, 0.0, -2.0};
       n.camera.distance_mm = 70.0;
       take_drill(n, 4.0, {0.0, 0.0, 0.5}, tilted(0.0, 0.0));
     }},
    {"jaw_bare",
     [](NamedScene& n) {
       n.camera.target_mm = {0.0, 0.0, -6.0};
       n.camera.distance_mm = 90.0;
       n.scene.show_gum = false;
     }},
    {"jaw_clear",
     [](NamedScene& n) {
       n.camera.target_mm = {0.0, 0.0, -6.0};
       n.camera.distance_mm = 90.0;
       n.scene.show_gum = false;
       n.scene.clear = 0.8;
     }},
    {"slice_linear", [](NamedScene& n) { lay_slice(n, false); }},
    {"slice_nearest", [](NamedScene& n) { lay_slice(n, true); }},
    {"film",
     [](NamedScene& n) {
       lay_slice(n, false);
       n.slice.beam_mm = 30.0;
     }},
    {"film_pin",
     [](NamedScene& n) {
       lay_slice(n, false);
       n.slice.beam_mm = 30.0;
       specimen::RevolvedBody pin;
       pin.top_mm = n.slice.centre_mm;
       pin.down_unit = -n.slice.up_unit;
       pin.radius_mm = 1.0;
       pin.length_mm = 8.0;
       n.slice.bodies = {pin};
     }},
    {"film_implant",
     [](NamedScene& n) {
       lay_slice(n, false);
       n.slice.centre_mm = {-3.0, 0.0, -5.0};
       n.slice.right_unit = {1.0, 0.0, 0.0};
       n.slice.up_unit = {0.0, 0.0, 1.0};
       n.slice.beam_mm = 30.0;
     }},
    {"slice_drilled",
     [](NamedScene& n) {
       drill_hole(n, 3.4, {0.0, 0.0, -10.0}, tilted(0.0, 0.0));
       lay_slice(n, false);
     }},
    {"slice_implant",
     [](NamedScene& n) {
       lay_slice(n, false);
       n.slice.centre_mm = {0.0, 0.0, -5.0};
       n.slice.right_unit = {1.0, 0.0, 0.0};
       n.slice.up_unit = {0.0, 0.0, 1.0};
       specimen::RevolvedBody implant;
       n.slice.bodies = {implant};
     }},
};

}  // namespace

std::vector<std::string_view> scene_names() {
  std::vector<std::string_view> names;
  for (const Row& row : kRows) {
    names.push_back(row.name);
  }
  for (const Row& row : kJawRows) {
    names.push_back(row.name);
  }
  return names;
}

bool make_scene(std::string_view name, NamedScene& named) {
  for (const Row& row : kRows) {
    if (row.name != name) {
      continue;
    }
    specimen::BlockSpec spec;
    spec.second = specimen::DensityClass::kD4;
    spec.slope_deg = name == "sloped" ? 20.0 : 0.0;
    base::Result<volume::Volume> block = specimen::build_block(spec);
    if (!block) {
      return false;
    }
    named = NamedScene{};
    named.volume = std::move(*block);
    named.scene.volume = &named.volume;
    named.scene.plan = &named.plan;
    row.fill(named);
    return true;
  }
  for (const Row& row : kJawRows) {
    if (row.name == name) {
      named = NamedScene{};
      named.volume = small_jaw(name == "film_implant");
      named.scene.volume = &named.volume;
      named.scene.plan = &named.plan;
      row.fill(named);
      return true;
    }
  }
  return false;
}

}  // namespace driftbench::render_test
