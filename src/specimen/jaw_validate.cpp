#include "specimen/jaw.h"
#include "specimen/jaw_grid.h"
#include "specimen/jaw_limits.h"
#include "specimen/jaw_shape.h"
#include "specimen/tooth_number.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

namespace driftbench::specimen {
namespace {

using Finding = std::optional<base::Error>;

Finding impossible(std::string sentence) {
  return base::Error{base::ErrorCode::kInvalidArgument, std::move(sentence), ""};
}

/// First number of a part outside its range.
template <class T, std::size_t kCount>
Finding first_outside(std::string_view name, const std::array<SizeLimit<T>, kCount>& limits,
                      const T& part) {
  for (const SizeLimit<T>& limit : limits) {
    const double found = part.*limit.member;
    if (!(found >= limit.low && found <= limit.high)) {
      return base::Error{base::ErrorCode::kOutOfRange,
                         fmt::format("{}{} is {}, expected {} to {}", name, limit.name, found,
                                     limit.low, limit.high),
                         ""};
    }
  }
  return std::nullopt;
}

/// The table with another range for one of its numbers.
template <class T, std::size_t kCount>
std::array<SizeLimit<T>, kCount> with_range(std::array<SizeLimit<T>, kCount> limits,
                                            double T::*member, double low, double high) {
  for (SizeLimit<T>& limit : limits) {
    if (limit.member == member) {
      limit.low = low;
      limit.high = high;
    }
  }
  return limits;
}

Finding check_ridge(std::string_view name, const RidgeSpec& r) {
  if (Finding found = first_outside(
          name, with_range(kRidgeLimits, &RidgeSpec::body_depth_mm, 5.0, 0.65 * r.height_mm), r)) {
    return found;
  }
  if (r.undercut_depth_mm > 0.0 && r.undercut_level_mm > r.height_mm - 4.0) {
    return impossible(
        fmt::format("{}undercut_level_mm is {}, expected at least 4 mm above the base at {} mm",
                    name, r.undercut_level_mm, r.height_mm));
  }
  return std::nullopt;
}

Finding check_lumen(std::string_view name, const LumenSpec& l, const JawSpec& spec) {
  return first_outside(name,
                       with_range(kLumenLimits, &LumenSpec::floor_mm, 1.5, spec.depth_mm - 1.0), l);
}

Finding check_tooth(std::string_view name, const ToothSpec& t, const JawSpec& spec) {
  if (!is_fdi(t.fdi) || is_upper(t.fdi) != is_upper(spec.site_fdi)) {
    return impossible(fmt::format("{}not in the jaw of tooth {}", name, spec.site_fdi));
  }
  if (Finding found = first_outside(name, kToothLimits, t)) {
    return found;
  }
  return t.implant ? first_outside(fmt::format("{}implant.", name), kImplantRootLimits, *t.implant)
                   : std::nullopt;
}

Finding check_canal(const CanalSpec& c) {
  if (Finding found = first_outside("canal.", kCanalLimits, c)) {
    return found;
  }
  return c.foramen ? first_outside("canal.foramen.", kForamenLimits, *c.foramen) : std::nullopt;
}

/// An arch is straight (0) or wide enough for the section.
Finding check_section(const JawSpec& spec) {
  if (spec.arch_radius_mm == 0.0) {
    return first_outside("", kSectionLimits, spec);
  }
  const double tightest_mm = std::max(22.0, 0.9 * spec.length_mm);
  return first_outside("", with_range(kSectionLimits, &JawSpec::arch_radius_mm, tightest_mm, 500.0),
                       spec);
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
  for (Finding found : {check_section(spec), check_ridge("ridge.", spec.ridge),
                        check_ridge("tooth_ridge.", spec.tooth_ridge),
                        first_outside("cortex.", kCortexLimits, spec.cortex),
                        first_outside("tooth_cortex.", kCortexLimits, spec.tooth_cortex),
                        first_outside("gum.", kGumLimits, spec.gum),
                        first_outside("cancellous.", kCancellousLimits, spec.cancellous),
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

/// Points of all roots or of the implant, and of the crown.
std::vector<math::Vec3> points_of(const ToothShape& tooth) {
  constexpr int kSteps = 20;
  std::vector<math::Vec3> points;
  for (int i = 0; i < kSteps; ++i) {
    for (int j = 0; j <= kSteps; ++j) {
      const double around = static_cast<double>(i) / kSteps;
      const double along = static_cast<double>(j) / kSteps;
      for (const LoftedBody& root : tooth.roots()) {
        points.push_back(root.surface_mm(around, along));
      }
      if (tooth.implant()) {
        points.push_back(surface_mm(*tooth.implant(), around, 3.0 * along));
      }
      points.push_back(tooth.crown().surface_mm(around, along));
    }
  }
  return points;
}

Finding check_teeth(const Jaw& jaw) {
  const std::vector<ToothShape>& teeth = jaw.teeth();
  for (std::size_t i = 0; i < teeth.size(); ++i) {
    const int fdi = teeth[i].spec().fdi;
    const std::vector<math::Vec3> points = points_of(teeth[i]);
    for (const std::optional<Tube>* tube : {&jaw.canal(), &jaw.foramen()}) {
      if (*tube && std::any_of(points.begin(), points.end(), [&](const math::Vec3& p) {
            return signed_distance_mm(**tube, p) < (*tube)->wall_mm;
          })) {
        return impossible(
            teeth[i].implant()
                ? fmt::format("The implant under crown {} goes through the canal", fdi)
                : fmt::format("A root of tooth {} goes through the canal", fdi));
      }
    }
    for (std::size_t j = i + 1; j < teeth.size(); ++j) {
      constexpr double kContact_mm = 0.3;
      if (std::any_of(points.begin(), points.end(), [&](const math::Vec3& p) {
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
    if (const std::optional<RevolvedBody>& implant = teeth[i].implant()) {
      const math::Vec3 end = implant->deepest_mm();
      if (jaw.bone_mm(end) > 0.0) {
        return impossible(fmt::format("The implant under crown {} ends outside the bone", fdi));
      }
      for (const std::optional<LoftedBody>* lumen : {&jaw.sinus(), &jaw.nose()}) {
        if (*lumen && (*lumen)->distance_mm(end) < 0.0) {
          return impossible(fmt::format("The implant under crown {} ends in an air space", fdi));
        }
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
