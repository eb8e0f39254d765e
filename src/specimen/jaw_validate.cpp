#include "specimen/jaw.h"
#include "specimen/jaw_grid.h"
#include "specimen/jaw_shape.h"
#include "specimen/tooth_number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>

namespace driftbench::specimen {
namespace {

using Finding = std::optional<base::Error>;

struct Range {
  std::string_view field;
  double found;
  double low;
  double high;
};

Finding impossible(std::string sentence) {
  return base::Error{base::ErrorCode::kInvalidArgument, std::move(sentence), ""};
}

/// First number outside its range.
Finding first_outside(std::string_view part, std::initializer_list<Range> ranges) {
  for (const Range& range : ranges) {
    if (!(range.found >= range.low && range.found <= range.high)) {
      return base::Error{base::ErrorCode::kOutOfRange,
                         fmt::format("{}{} is {}, expected {} to {}", part, range.field,
                                     range.found, range.low, range.high),
                         ""};
    }
  }
  return std::nullopt;
}

Finding check_ridge(std::string_view part, const RidgeSpec& r) {
  if (Finding found =
          first_outside(part, {{"height_mm", r.height_mm, 12.0, 45.0},
                               {"crest_width_mm", r.crest_width_mm, 0.8, 16.0},
                               {"upper_width_mm", r.upper_width_mm, 1.5, 20.0},
                               {"body_width_mm", r.body_width_mm, 4.0, 24.0},
                               {"body_depth_mm", r.body_depth_mm, 5.0, 0.65 * r.height_mm},
                               {"base_width_mm", r.base_width_mm, 4.0, 24.0},
                               {"lean_mm", r.lean_mm, -15.0, 15.0},
                               {"crest_slope_deg", r.crest_slope_deg, -45.0, 45.0},
                               {"rise_mm", r.rise_mm, -2.0, 6.0},
                               {"undercut_depth_mm", r.undercut_depth_mm, 0.0, 6.0},
                               {"undercut_level_mm", r.undercut_level_mm, 4.0, 20.0},
                               {"undercut_angle_deg", r.undercut_angle_deg, 35.0, 85.0},
                               {"facial_hollow_mm", r.facial_hollow_mm, 0.0, 4.0},
                               {"facial_hollow_level_mm", r.facial_hollow_level_mm, 3.0, 20.0},
                               {"palate_flare_mm", r.palate_flare_mm, 0.0, 15.0}})) {
    return found;
  }
  if (r.undercut_depth_mm > 0.0 && r.undercut_level_mm > r.height_mm - 4.0) {
    return impossible(
        fmt::format("{}undercut_level_mm is {}, expected at least 4 mm above the base at {} mm",
                    part, r.undercut_level_mm, r.height_mm));
  }
  return std::nullopt;
}

Finding check_cortex(std::string_view part, const CortexSpec& c) {
  return first_outside(part, {{"facial_mm", c.facial_mm, 0.2, 5.0},
                              {"lingual_mm", c.lingual_mm, 0.2, 5.0},
                              {"crest_mm", c.crest_mm, 0.2, 5.0},
                              {"base_mm", c.base_mm, 0.2, 6.0}});
}

Finding check_lumen(std::string_view part, const LumenSpec& l, const JawSpec& spec) {
  return first_outside(part, {{"floor_mm", l.floor_mm, 1.5, spec.depth_mm - 1.0},
                              {"lowest_mm", l.lowest_mm, -30.0, 30.0},
                              {"bow_radius_mm", l.bow_radius_mm, 5.0, 1000.0},
                              {"mesial_end_mm", l.mesial_end_mm, -40.0, 20.0},
                              {"lateral_mm", l.lateral_mm, -15.0, 20.0},
                              {"width_mm", l.width_mm, 2.0, 25.0},
                              {"cortex_mm", l.cortex_mm, 0.2, 3.0},
                              {"membrane_mm", l.membrane_mm, 0.1, 6.0}});
}

Finding check_tooth(std::string_view part, const ToothSpec& t, const JawSpec& spec) {
  if (!is_fdi(t.fdi) || is_upper(t.fdi) != is_upper(spec.site_fdi)) {
    return impossible(fmt::format("{}not in the jaw of tooth {}", part, spec.site_fdi));
  }
  return first_outside(part, {{"at_mm", t.at_mm, -40.0, 40.0},
                              {"lateral_mm", t.lateral_mm, -8.0, 8.0},
                              {"neck_mm", t.neck_mm, -3.0, 8.0},
                              {"lean_md_deg", t.lean_md_deg, -35.0, 35.0},
                              {"lean_bl_deg", t.lean_bl_deg, -40.0, 40.0},
                              {"scale", t.scale, 0.7, 1.3}});
}

Finding check_canal(const CanalSpec& c) {
  if (Finding found = first_outside("canal.", {{"diameter_mm", c.diameter_mm, 1.0, 5.0},
                                               {"wall_mm", c.wall_mm, 0.0, 2.0},
                                               {"depth_mm", c.depth_mm, 1.0, 30.0},
                                               {"lateral_mm", c.lateral_mm, -6.0, 6.0},
                                               {"rise_deg", c.rise_deg, -30.0, 30.0},
                                               {"drift_deg", c.drift_deg, -30.0, 30.0},
                                               {"sag_mm", c.sag_mm, -4.0, 4.0}})) {
    return found;
  }
  if (c.foramen) {
    return first_outside("canal.foramen.", {{"at_mm", c.foramen->at_mm, -25.0, 25.0},
                                            {"depth_mm", c.foramen->depth_mm, 4.0, 25.0},
                                            {"diameter_mm", c.foramen->diameter_mm, 1.0, 6.0},
                                            {"loop_mm", c.foramen->loop_mm, 0.0, 6.0}});
  }
  return std::nullopt;
}

Finding check_numbers(const JawSpec& spec) {
  if (!is_fdi(spec.site_fdi)) {
    return impossible(fmt::format("tooth is {}, expected an FDI number 11 to 48", spec.site_fdi));
  }
  const bool upper =
      spec.region == JawRegion::kPosteriorMaxilla || spec.region == JawRegion::kAnteriorMaxilla;
  if (upper != is_upper(spec.site_fdi)) {
    return impossible(fmt::format("tooth is {}, expected one of the {} jaw, as the region says",
                                  spec.site_fdi, upper ? "upper" : "lower"));
  }
  for (Finding found :
       {first_outside("", {{"length_mm", spec.length_mm, 14.0, 70.0},
                           {"depth_mm", spec.depth_mm, 10.0, 60.0},
                           {"voxel_mm", spec.voxel_mm, 0.1, 0.5}}),
        spec.arch_radius_mm == 0.0
            ? std::nullopt
            : first_outside("", {{"arch_radius_mm", spec.arch_radius_mm,
                                  std::max(22.0, 0.9 * spec.length_mm), 500.0}}),
        check_ridge("ridge.", spec.ridge), check_ridge("tooth_ridge.", spec.tooth_ridge),
        check_cortex("cortex.", spec.cortex), check_cortex("tooth_cortex.", spec.tooth_cortex),
        first_outside("gum.", {{"crest_mm", spec.gum.crest_mm, 0.3, 8.0},
                               {"side_mm", spec.gum.side_mm, 0.3, 6.0},
                               {"reach_mm", spec.gum.reach_mm, 4.0, 20.0}}),
        first_outside("cancellous.", {{"contrast", spec.cancellous.contrast, 0.0, 0.9}}),
        spec.canal ? check_canal(*spec.canal) : std::nullopt,
        spec.sinus ? check_lumen("sinus.", *spec.sinus, spec) : std::nullopt,
        spec.nose ? check_lumen("nose.", *spec.nose, spec) : std::nullopt,
        spec.socket ? check_tooth("socket.", *spec.socket, spec) : std::nullopt}) {
    if (found) {
      return found;
    }
  }
  if (spec.teeth.size() > kMostTeeth) {
    return impossible(
        fmt::format("There are {} teeth, expected at most {}", spec.teeth.size(), kMostTeeth));
  }
  for (const ToothSpec& tooth : spec.teeth) {
    if (Finding found = check_tooth(fmt::format("Teeth: {}: ", tooth.fdi), tooth, spec)) {
      return found;
    }
  }
  return std::nullopt;
}

/// A tube must lie in the bone within the section, wall included.
Finding check_tube(const Jaw& jaw, const std::optional<Tube>& tube, std::string_view name) {
  if (!tube) {
    return std::nullopt;
  }
  const double half = 0.5 * jaw.spec().length_mm;
  for (const math::Vec3& p : tube->centre_mm) {
    const double needed = tube->radius_mm + tube->wall_mm;
    if (std::fabs(p.x) <= half && -jaw.bone_mm(p) < needed) {
      return impossible(fmt::format(
          "The {} leaves the bone at {:.1f} mm along the arch: its middle lies {:.1f} mm under the "
          "surface, expected at least {:.1f} mm",
          name, p.x, -jaw.bone_mm(p), needed));
    }
  }
  return std::nullopt;
}

/// The first of (steps) x (steps + 1) points of a surface for which `is_it` holds.
template <class IsIt>
std::optional<math::Vec3> surface_point(const LoftedBody& body, int steps, IsIt is_it) {
  for (int i = 0; i < steps; ++i) {
    for (int j = 0; j <= steps; ++j) {
      const math::Vec3 p =
          body.surface_mm(static_cast<double>(i) / steps, static_cast<double>(j) / steps);
      if (is_it(p)) {
        return p;
      }
    }
  }
  return std::nullopt;
}

Finding check_lumen_inside(const Jaw& jaw, const std::optional<LoftedBody>& lumen,
                           std::string_view name) {
  if (!lumen) {
    return std::nullopt;
  }
  constexpr int kSteps = 40;
  constexpr double kThinnest_mm = 0.3;
  const auto broken = surface_point(*lumen, kSteps, [&](const math::Vec3& p) {
    const bool counts = std::fabs(p.x) < 0.5 * jaw.spec().length_mm && p.z > -jaw.spec().depth_mm;
    return counts && jaw.bone_mm(p) > -kThinnest_mm;
  });
  if (broken) {
    return impossible(
        fmt::format("The {} breaks through the outer surface at ({:.1f}, {:.1f}, {:.1f}) mm", name,
                    broken->x, broken->y, broken->z));
  }
  return std::nullopt;
}

/// Whether `is_it` holds for a point of any root or of the crown.
template <class IsIt>
bool any_point(const ToothShape& tooth, IsIt is_it) {
  constexpr int kSteps = 20;
  const auto any_of_body = [&](const LoftedBody& body) {
    return surface_point(body, kSteps, is_it).has_value();
  };
  return std::any_of(tooth.roots().begin(), tooth.roots().end(), any_of_body) ||
         any_of_body(tooth.crown());
}

Finding check_teeth(const Jaw& jaw) {
  const std::vector<ToothShape>& teeth = jaw.teeth();
  for (std::size_t i = 0; i < teeth.size(); ++i) {
    const int fdi = teeth[i].spec().fdi;
    for (const std::optional<Tube>* tube : {&jaw.canal(), &jaw.foramen()}) {
      if (*tube && any_point(teeth[i], [&](const math::Vec3& p) {
            return signed_distance_mm(**tube, p) < (*tube)->wall_mm;
          })) {
        return impossible(fmt::format("A root of tooth {} goes through the canal", fdi));
      }
    }
    for (std::size_t j = i + 1; j < teeth.size(); ++j) {
      constexpr double kContact_mm = 0.3;
      if (any_point(teeth[i], [&](const math::Vec3& p) {
            return std::min(teeth[j].crown_mm(p), teeth[j].roots_mm(p)) < -kContact_mm;
          })) {
        return impossible(
            fmt::format("Teeth {} and {} run through one another", fdi, teeth[j].spec().fdi));
      }
    }
    for (const LoftedBody& root : teeth[i].roots()) {
      const math::Vec3 apex = root.surface_mm(0.0, 0.0);
      if (std::fabs(apex.x) < 0.5 * jaw.spec().length_mm && jaw.bone_mm(apex) > 0.0) {
        return impossible(fmt::format("A root of tooth {} ends outside the bone", fdi));
      }
    }
    constexpr double kFree_mm = 1.0;
    if (teeth[i].crown_mm({0.0, 0.0, 3.0}) < kFree_mm ||
        teeth[i].roots_mm({0.0, 0.0, -3.0}) < kFree_mm) {
      return impossible(fmt::format("Tooth {} stands where the implant is to go", fdi));
    }
  }
  return std::nullopt;
}

Finding check_socket(const Jaw& jaw) {
  if (!jaw.socket()) {
    return std::nullopt;
  }
  for (const LoftedBody& root : jaw.socket()->roots()) {
    if (jaw.bone_mm(root.surface_mm(0.0, 0.0)) > 0.0) {
      return impossible("The socket ends outside the bone");
    }
  }
  return std::nullopt;
}

Finding check_size(const JawSpec& spec) {
  constexpr double kMostVoxels = 20e6;
  const volume::Grid grid = jaw_grid(spec, pose_of(spec.site_fdi));
  const double count = static_cast<double>(grid.nx) * grid.ny * grid.nz;
  if (count > kMostVoxels) {
    return impossible(fmt::format("The section has {:.1f} million voxels, expected at most {:.0f}",
                                  count * 1e-6, kMostVoxels * 1e-6));
  }
  return std::nullopt;
}

}  // namespace

base::Result<JawSpec> validated(const JawSpec& spec) {
  if (const Finding found = check_numbers(spec)) {
    return tl::make_unexpected(*found);
  }
  const Jaw jaw(spec, Jaw::Texture::kNone);
  for (const Finding& found :
       {check_size(spec), check_tube(jaw, jaw.canal(), "canal"),
        check_lumen_inside(jaw, jaw.sinus(), "sinus"), check_lumen_inside(jaw, jaw.nose(), "nose"),
        check_teeth(jaw), check_socket(jaw)}) {
    if (found) {
      return tl::make_unexpected(*found);
    }
  }
  return spec;
}

}  // namespace driftbench::specimen
