#include "specimen/clearance.h"

#include "specimen/nearest_point.h"
#include "specimen/nearest_side.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::specimen {
namespace {

Clearance at_point(const RevolvedBody& body, Structure structure, double distance_mm,
                   const math::Vec3& on_structure) {
  return {structure, distance_mm, on_structure, nearest_on_body(body, on_structure), 0};
}

void keep_worse(std::vector<Clearance>& all, const Clearance& found) {
  const auto same = std::find_if(all.begin(), all.end(), [&](const Clearance& one) {
    return one.structure == found.structure;
  });
  if (same == all.end()) {
    all.push_back(found);
  } else if (found.distance_mm < same->distance_mm) {
    *same = found;
  }
}

/// The same for a distance to a part of `structure`.
void keep_worse(std::vector<Clearance>& all, Clearance found, Structure structure) {
  found.structure = structure;
  keep_worse(all, found);
}

/// A part of the bone's outer surface and what it is called.
struct Side {
  Structure structure;
  OutlinePart part;
};

/// Points of the rounded base that still count as side.
constexpr std::size_t kLowerFlank = kBaseSteps / 4;

constexpr std::array<Side, 3> kSides{
    {{Structure::kFacialPlate, {0, kBaseBegin + kLowerFlank}},
     {Structure::kBase, {kBaseBegin + kLowerFlank, kLingualBegin - kLowerFlank}},
     {Structure::kLingualPlate, {kLingualBegin - kLowerFlank, kOutlineSize}}}};

std::optional<Clearance> clearance_to_side(const Jaw& jaw, const RevolvedBody& body,
                                           const Side& side) {
  const std::optional<NearestSide> nearest = nearest_side(jaw, body, side.part);
  if (!nearest) {
    return std::nullopt;
  }
  return at_point(body, side.structure, nearest->distance_mm, nearest->at_mm);
}

/// The structures that are asked about: one of them, or all.
using Only = std::optional<Structure>;

bool is_asked(const Only& only, Structure structure) {
  return !only || *only == structure;
}

void add_teeth(std::vector<Clearance>& all, const Jaw& jaw, const RevolvedBody& body,
               const Only& only) {
  for (const ToothShape& tooth : jaw.teeth()) {
    const bool is_mesial = tooth.spec().at_mm < 0.0;
    const Structure structure = tooth.implant() ? Structure::kOtherImplant
                                : is_mesial     ? Structure::kRootMesial
                                                : Structure::kRootDistal;
    if (!is_asked(only, structure)) {
      continue;
    }
    if (tooth.implant()) {
      keep_worse(all, clearance_between(body, *tooth.implant()));
    }
    for (const LoftedBody& root : tooth.roots()) {
      keep_worse(all, clearance_to_lofted(body, root), structure);
    }
  }
}

/// The outside of a tube's wall as a tube of its own.
std::optional<Tube> wall_of(std::optional<Tube> tube) {
  if (tube) {
    tube->radius_mm += tube->wall_mm;
  }
  return tube;
}

std::vector<Clearance> of_one_body(const Jaw& jaw, const RevolvedBody& body,
                                   std::span<const RevolvedBody> others, const Only& only = {}) {
  std::vector<Clearance> all;
  const auto add_tube = [&](const std::optional<Tube>& tube, Structure structure) {
    if (tube && is_asked(only, structure)) {
      keep_worse(all, clearance_to_tube(body, *tube), structure);
    }
  };
  const auto add_lumen = [&](const std::optional<LoftedBody>& lumen, Structure structure) {
    if (lumen && is_asked(only, structure)) {
      keep_worse(all, clearance_to_lofted(body, *lumen), structure);
    }
  };
  add_tube(jaw.canal(), Structure::kCanal);
  add_tube(wall_of(jaw.canal()), Structure::kCanalWall);
  add_tube(jaw.foramen(), Structure::kForamen);
  add_tube(jaw.nasopalatine(), Structure::kNasopalatine);
  add_teeth(all, jaw, body, only);
  for (const Side& side : kSides) {
    if (is_asked(only, side.structure)) {
      if (const std::optional<Clearance> found = clearance_to_side(jaw, body, side)) {
        keep_worse(all, *found);
      }
    }
  }
  add_lumen(jaw.sinus(), Structure::kSinusFloor);
  add_lumen(jaw.nose(), Structure::kNasalFloor);
  for (const RevolvedBody& other : others) {
    keep_worse(all, clearance_between(body, other));
  }
  return all;
}

}  // namespace

Clearance clearance_to_tube(const RevolvedBody& body, const Tube& tube) {
  const auto point_at = [&](double at) {
    const std::size_t low = std::min(static_cast<std::size_t>(at), tube.centre_mm.size() - 2);
    const double t = at - static_cast<double>(low);
    return tube.centre_mm[low] + t * (tube.centre_mm[low + 1] - tube.centre_mm[low]);
  };
  const double last = static_cast<double>(tube.centre_mm.size() - 1);
  const LeastValue least =
      least_value({0.0, last, 2 * static_cast<int>(last)}, {},
                  [&](double at, double) { return signed_distance_mm(body, point_at(at)); });
  const math::Vec3 centre = point_at(least.u);
  const math::Vec3 toward = nearest_on_body(body, centre) - centre;
  const double length = math::length(toward);
  const math::Vec3 on_tube =
      least.value > 0.0 && length > 0.0 ? centre + tube.radius_mm / length * toward : centre;
  return at_point(body, Structure::kCanal, least.value - tube.radius_mm, on_tube);
}

Clearance clearance_to_lofted(const RevolvedBody& body, const LoftedBody& other) {
  constexpr int kAround = 36;
  constexpr int kAlong = 40;
  const LeastValue least = least_value(
      {0.0, 1.0, kAround}, {0.0, 1.0, kAlong},
      [&](double u, double v) { return signed_distance_mm(body, other.surface_mm(u, v)); });
  double distance = least.value;
  // A body wholly inside the other has no surface of the other inside it.
  if (distance > 0.0 && other.distance_mm(body.deepest_mm()) < 0.0) {
    distance = -distance;
  }
  return at_point(body, Structure::kOtherImplant, distance, other.surface_mm(least.u, least.v));
}

Clearance clearance_between(const RevolvedBody& body, const RevolvedBody& other) {
  constexpr int kAround = 36;
  const double top = other.point_mm > 0.0 ? 3.0 : 2.999;
  const LeastValue least = least_value(
      {0.0, 1.0, kAround}, {0.0, top, 60},
      [&](double u, double v) { return signed_distance_mm(body, surface_mm(other, u, v)); });
  return at_point(body, Structure::kOtherImplant, least.value, surface_mm(other, least.u, least.v));
}

std::vector<Clearance> clearances(const Jaw& jaw, std::span<const RevolvedBody> bodies,
                                  std::span<const RevolvedBody> others) {
  std::vector<Clearance> all;
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    for (Clearance& found : of_one_body(jaw, bodies[i], others)) {
      found.body = i;
      keep_worse(all, found);
    }
  }
  return all;
}

std::optional<Clearance> clearance_to(const Jaw& jaw, const RevolvedBody& body,
                                      Structure structure) {
  const std::vector<Clearance> found = of_one_body(jaw, body, {}, structure);
  return found.empty() ? std::nullopt : std::optional(found.front());
}

BoneAlong bone_along(const Jaw& jaw, const math::Vec3& from, const math::Vec3& down_unit,
                     double longest_mm) {
  constexpr double kStep_mm = 0.05;
  constexpr double kFirst_mm = 0.3;
  for (double along = kFirst_mm; along < longest_mm; along += kStep_mm) {
    const math::Vec3 p = from + along * down_unit;
    const double length = along - 0.5 * kStep_mm;
    if (jaw.bone_mm(p) > 0.0) {
      return {length, "outer surface"};
    }
    if (jaw.sinus() && jaw.sinus()->distance_mm(p) < 0.0) {
      return {length, "sinus"};
    }
    if (jaw.nose() && jaw.nose()->distance_mm(p) < 0.0) {
      return {length, "nose"};
    }
    for (const std::optional<Tube>* tube : {&jaw.canal(), &jaw.foramen(), &jaw.nasopalatine()}) {
      if (*tube && signed_distance_mm(**tube, p) < 0.0) {
        return {length, "canal"};
      }
    }
    const auto in_root =
        std::find_if(jaw.teeth().begin(), jaw.teeth().end(),
                     [&](const ToothShape& tooth) { return tooth.roots_mm(p) < 0.0; });
    if (in_root != jaw.teeth().end()) {
      return {length, in_root->implant() ? "other implant" : "root"};
    }
  }
  return {longest_mm, "end of the search"};
}

std::optional<std::string> plan_problem(const Jaw& jaw, const RevolvedBody& implant) {
  constexpr double kIntoBone_mm = 2.5;  // past a sloped or sunken crest
  if (jaw.bone_mm(implant.top_mm + kIntoBone_mm * implant.down_unit) > 0.0) {
    return fmt::format(
        "The implant stands beside the bone: there is none {} mm below its platform.",
        kIntoBone_mm);
  }
  const math::Vec3 start = implant.top_mm + kIntoBone_mm * implant.down_unit;
  const BoneAlong bone = bone_along(jaw, start, implant.down_unit);
  const double length = bone.length_mm + kIntoBone_mm;
  if (length < implant.length_mm) {
    return fmt::format("The implant of {:.1f} mm is longer than the bone: {:.1f} mm to the {}.",
                       implant.length_mm, length, bone.ends_at);
  }
  return std::nullopt;
}

}  // namespace driftbench::specimen
