#include "specimen/tooth_shape.h"

#include "specimen/shape_functions.h"
#include "specimen/tooth_number.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

// Shares of neck and crown that make the outlines look like teeth: own assumptions.

/// Distances beyond this are not told apart.
constexpr double kFarAway_mm = 4.0;

math::Vec3 neck_of(const ToothSpec& spec, const Arch& arch) {
  return arch.from_arch({spec.at_mm, spec.lateral_mm, spec.neck_mm});
}

math::Mat3 axes_of(const ToothSpec& spec, const Arch& arch) {
  const math::Vec3 distal = arch.distal_at(spec.at_mm);
  const math::Vec3 lingual(-distal.y, distal.x, 0.0);
  const math::Vec3 up =
      math::unit(math::Vec3(0.0, 0.0, 1.0) + tangent_of(spec.lean_md_deg) * distal +
                 tangent_of(spec.lean_bl_deg) * lingual);
  const math::Vec3 x = math::unit(distal - math::dot(distal, up) * up);
  return {x, math::cross(up, x), up};
}

ToothSize scaled(const ToothSpec& spec) {
  const ToothSize& s = average_tooth(spec.fdi);
  const double k = spec.scale;
  return {k * s.crown_mm,   k * s.root_mm,     k * s.crown_md_mm,
          k * s.neck_md_mm, k * s.crown_bl_mm, k * s.neck_bl_mm};
}

bool is_molar(int fdi) {
  return position_of(fdi) >= 6;
}

bool is_premolar(int fdi) {
  return position_of(fdi) == 4 || position_of(fdi) == 5;
}

// A crown on an implant, shares of diameter and crown: own assumptions.
constexpr double kInPlatform_mm = 0.1;    // the crown's foot stands this far inside the platform
constexpr double kFoot_mm = 1.0;          // rounded end of the crown, below the platform
constexpr double kBluntEnd = 0.15;        // height of an implant's end over its diameter
constexpr double kPostWidth = 0.6;        // of the post over the implant's diameter
constexpr double kPostHeight = 0.55;      // of the post over the crown's
constexpr double kLeastCeramic_mm = 0.7;  // round the post

RevolvedBody make_implant(const ToothSpec& spec, const Arch& arch) {
  const ImplantRoot& root = *spec.implant;
  RevolvedBody body;
  body.down_unit = -axes_of(spec, arch)[2];
  body.top_mm = neck_of(spec, arch) + root.platform_mm * body.down_unit;
  body.radius_mm = 0.5 * root.diameter_mm;
  body.point_mm = kBluntEnd * root.diameter_mm;
  body.length_mm = root.length_mm - body.point_mm;
  return body;
}

LoftedBody make_crown(const ToothSpec& spec, const Arch& arch) {
  const ToothSize s = scaled(spec);
  const double h = s.crown_mm;
  const double md = s.crown_md_mm;
  const double bl = s.crown_bl_mm;
  std::vector<LoftStation> stations{{-1.5, 0.0, 0.0, 0.47 * s.neck_md_mm, 0.47 * s.neck_bl_mm},
                                    {0.0, 0.0, 0.0, 0.5 * s.neck_md_mm, 0.5 * s.neck_bl_mm}};
  if (spec.implant) {  // from the round platform out to the width of a tooth
    const double half = 0.5 * spec.implant->diameter_mm - kInPlatform_mm;
    const double low = -spec.implant->platform_mm;
    stations.front() = {low, 0.0, 0.0, half, half};
    stations.insert(stations.begin(), {low - kFoot_mm, 0.0, 0.0, half, half});
  }
  LoftShape shape = LoftShape::kEllipse;
  double cap = 0.0;
  if (is_molar(spec.fdi)) {
    shape = LoftShape::kSquarish;
    cap = 0.34 * h;
    stations.push_back({0.38 * h, 0.0, 0.0, 0.485 * md, 0.485 * bl});
    stations.push_back({0.70 * h, 0.0, 0.0, 0.48 * md, 0.44 * bl});
    stations.push_back({h, 0.0, 0.0, 0.46 * md, 0.37 * bl});
  } else if (is_premolar(spec.fdi)) {
    cap = 0.34 * h;
    stations.push_back({0.38 * h, 0.0, 0.0, 0.5 * md, 0.5 * bl});
    stations.push_back({0.70 * h, 0.0, 0.0, 0.48 * md, 0.43 * bl});
    stations.push_back({h, 0.0, 0.0, 0.40 * md, 0.33 * bl});
  } else if (position_of(spec.fdi) == 3) {
    cap = 0.30 * h;
    stations.push_back({0.30 * h, 0.0, 0.05 * bl, 0.47 * md, 0.5 * bl});
    stations.push_back({0.60 * h, 0.0, -0.08 * bl, 0.5 * md, 0.36 * bl});
    stations.push_back({h, 0.0, -0.18 * bl, 0.30 * md, 0.16 * bl});
  } else {
    cap = 0.10 * h;
    stations.push_back({0.25 * h, 0.0, 0.03 * bl, 0.43 * md, 0.5 * bl});
    stations.push_back({0.60 * h, 0.0, -0.12 * bl, 0.48 * md, 0.30 * bl});
    stations.push_back({h, 0.0, -0.22 * bl, 0.49 * md, 0.11 * bl});
  }
  return {neck_of(spec, arch), axes_of(spec, arch), shape, stations, 1.0, cap};
}

/// Builds roots and pulps of one tooth in its own frame.
struct RootBuilder {
  math::Vec3 neck;
  math::Mat3 axes;
  ToothSize s;
  std::vector<LoftedBody> roots;
  std::vector<LoftedBody> pulps;

  /// A root from `top` down to `length`, its middle going from (x0, y0) to (x1, y1).
  void add(double top, double length, math::Vec2 from, math::Vec2 to, double half_x,
           double half_y) {
    const auto station = [&](double share, double width) {
      const double bend = share * share;
      return LoftStation{top - share * (top + length), from.x + bend * (to.x - from.x),
                         from.y + bend * (to.y - from.y), width * half_x, width * half_y};
    };
    const double cap = 0.16 * length;
    roots.push_back(
        {neck,
         axes,
         LoftShape::kEllipse,
         {station(1.0, 0.40), station(0.75, 0.66), station(0.4, 0.92), station(0.0, 1.0)},
         cap,
         0.5});
    const auto canal = [&](double share, double half) {
      const LoftStation root = station(share, 1.0);
      return LoftStation{root.height_mm, root.centre_x_mm, root.centre_y_mm, half, half * 1.4};
    };
    pulps.push_back({neck,
                     axes,
                     LoftShape::kEllipse,
                     {canal(0.95, 0.15), canal(0.5, 0.32), canal(0.02, 0.45)},
                     0.4,
                     0.4});
  }

  /// Chamber of the pulp from `low` to `high` above the neck.
  void add_chamber(double low, double high, double half_x, double half_y) {
    pulps.push_back(
        {neck,
         axes,
         LoftShape::kEllipse,
         {{low, 0.0, 0.0, half_x, half_y}, {high, 0.0, 0.0, 0.6 * half_x, 0.6 * half_y}},
         0.3 * (high - low),
         0.4 * (high - low)});
  }

  /// The part of a molar above the furcation.
  void add_trunk(double length) {
    roots.push_back({neck,
                     axes,
                     LoftShape::kSquarish,
                     {{-length, 0.0, 0.0, 0.40 * s.neck_md_mm, 0.40 * s.neck_bl_mm},
                      {0.0, 0.0, 0.0, 0.48 * s.neck_md_mm, 0.48 * s.neck_bl_mm},
                      {0.8, 0.0, 0.0, 0.48 * s.neck_md_mm, 0.48 * s.neck_bl_mm}},
                     1.2,
                     0.5});
    add_chamber(-0.7 * length, 0.35 * s.crown_mm, 0.20 * s.neck_md_mm, 0.20 * s.neck_bl_mm);
  }
};

RootBuilder build_roots(const ToothSpec& spec, const Arch& arch) {
  RootBuilder b{neck_of(spec, arch), axes_of(spec, arch), scaled(spec), {}, {}};
  const double md = b.s.neck_md_mm;
  const double bl = b.s.neck_bl_mm;
  const double length = b.s.root_mm;
  if (is_molar(spec.fdi) && is_upper(spec.fdi)) {
    b.add_trunk(3.5);
    b.add(-1.5, length, {-0.24 * md, -0.24 * bl}, {-0.30 * md, -0.32 * bl}, 0.20 * md, 0.23 * bl);
    b.add(-1.5, length, {0.24 * md, -0.26 * bl}, {0.30 * md, -0.30 * bl}, 0.19 * md, 0.18 * bl);
    b.add(-1.5, length + 1.0, {0.0, 0.26 * bl}, {0.04 * md, 0.44 * bl}, 0.26 * md, 0.20 * bl);
  } else if (is_molar(spec.fdi)) {
    b.add_trunk(3.5);
    b.add(-1.5, length, {-0.28 * md, 0.0}, {-0.27 * md, 0.0}, 0.17 * md, 0.42 * bl);
    b.add(-1.5, length - 0.5, {0.28 * md, 0.0}, {0.40 * md, 0.0}, 0.17 * md, 0.38 * bl);
  } else if (spec.fdi == 14 || spec.fdi == 24) {
    b.add(0.8, 0.55 * length, {0.0, 0.0}, {0.0, 0.0}, 0.47 * md, 0.48 * bl);
    b.add(-0.35 * length, length, {0.0, -0.22 * bl}, {0.05 * md, -0.26 * bl}, 0.34 * md, 0.20 * bl);
    b.add(-0.35 * length, length, {0.0, 0.22 * bl}, {0.05 * md, 0.24 * bl}, 0.34 * md, 0.20 * bl);
    b.add_chamber(-3.0, 0.35 * b.s.crown_mm, 0.14 * md, 0.22 * bl);
  } else {
    b.add(0.8, length, {0.0, 0.0}, {0.12 * md, 0.0}, 0.49 * md, 0.49 * bl);
    b.add_chamber(-2.0, 0.40 * b.s.crown_mm, 0.14 * md, 0.14 * bl);
  }
  return b;
}

double least(const std::vector<LoftedBody>& bodies, const math::Vec3& p) {
  double best = kFarAway_mm;
  for (const LoftedBody& body : bodies) {
    best = std::min(best, body.distance_within_mm(p, best));
  }
  return best;
}

}  // namespace

ToothShape::ToothShape(const ToothSpec& spec, const Arch& arch)
    : spec_(spec),
      cusps_(is_molar(spec.fdi) ? 4 : (is_premolar(spec.fdi) ? 2 : 0)),
      crown_height_mm_(scaled(spec).crown_mm),
      crown_(make_crown(spec, arch)) {
  if (spec.implant) {
    implant_ = make_implant(spec, arch);
    return;
  }
  RootBuilder built = build_roots(spec, arch);
  roots_ = std::move(built.roots);
  pulps_ = std::move(built.pulps);
}

double ToothShape::crown_mm(const math::Vec3& p) const {
  const double body = crown_.distance_within_mm(p, kFarAway_mm);
  if (cusps_ == 0 || body > 2.0) {
    return body;
  }
  // Grooves between the cusps: a V along the arch, and for molars a shallower one across it.
  const math::Vec3 q = crown_.to_local(p);
  const LoftStation neck = crown_.section_at(0.4 * crown_height_mm_);
  const double u = std::fabs(q.x) / neck.half_x_mm;
  const double v = std::fabs(q.y) / neck.half_y_mm;
  double groove = 1.5 * std::max(0.0, 1.0 - v / 0.5);
  if (cusps_ == 4) {
    groove = std::max(groove, 0.9 * std::max(0.0, 1.0 - u / 0.35));
  }
  const double above = (q.z - (crown_height_mm_ - groove)) * 0.85;  // the V's flanks lean
  return std::max(body, above);
}

double ToothShape::roots_mm(const math::Vec3& p) const {
  if (implant_) {
    return std::min(signed_distance_mm(*implant_, p), kFarAway_mm);
  }
  return least(roots_, p);
}

double ToothShape::pulp_mm(const math::Vec3& p) const {
  return least(pulps_, p);
}

double ToothShape::metal_mm(const math::Vec3& p) const {
  const math::Vec3 q = crown_.to_local(p);
  const double post =
      std::max({std::sqrt(q.x * q.x + q.y * q.y) - 0.5 * kPostWidth * spec_.implant->diameter_mm,
                q.z - kPostHeight * crown_height_mm_, crown_mm(p) + kLeastCeramic_mm});
  return std::min(roots_mm(p), post);
}

double ToothShape::enamel_mm(double height_mm) const {
  return std::clamp(0.15 + 0.4 * height_mm, 0.15, std::min(1.6, 0.2 * crown_height_mm_));
}

}  // namespace driftbench::specimen
