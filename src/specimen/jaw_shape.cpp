#include "specimen/jaw_shape.h"

#include "specimen/shape_functions.h"
#include "specimen/tooth_number.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr double kBeyond_mm = 3.0;        // canals run on past the cut ends
constexpr double kCanalStep_mm = 3.0;     // between knots of a canal
constexpr int kCurvePieces = 6;           // straight pieces between knots
constexpr double kHalfSpan_mm = 13.0;     // sag of a canal is meant for this half length
constexpr double kChangeLength_mm = 3.5;  // of the crest toward a neighbouring tooth
constexpr double kAbove_mm = 12.0;        // an air space goes on this far beyond the cut

Arch arch_of(const JawSpec& spec) {
  return {spec.arch_radius_mm > 0.0 ? 1.0 / spec.arch_radius_mm : 0.0};
}

/// The outline changes just before the neck of the nearest tooth on one side.
Ridge::Change change_of(const JawSpec& spec, bool is_mesial) {
  Ridge::Change change;
  for (const ToothSpec& tooth : spec.teeth) {
    if ((tooth.at_mm < 0.0) != is_mesial) {
      continue;
    }
    const double half_neck = 0.5 * tooth.scale * average_tooth(tooth.fdi).neck_md_mm;
    const double end = std::max(std::fabs(tooth.at_mm) - 0.8 * half_neck, 1.5);
    if (!change.exists || end < change.end_mm) {
      change = {true, std::max(end - kChangeLength_mm, 0.5), end};
    }
  }
  return change;
}

Ridge ridge_of(const JawSpec& spec) {
  return {arch_of(spec), outline_of(spec.ridge, spec.cortex),
          outline_of(spec.tooth_ridge, spec.tooth_cortex), change_of(spec, true),
          change_of(spec, false)};
}

/// Middle of the canal at a station, in arch coordinates.
math::Vec3 canal_middle(const CanalSpec& canal, double station_mm) {
  const double share = station_mm / kHalfSpan_mm;
  return {station_mm, canal.lateral_mm + tangent_of(canal.drift_deg) * station_mm,
          -canal.depth_mm - 0.5 * canal.diameter_mm + tangent_of(canal.rise_deg) * station_mm +
              canal.sag_mm * share * share};
}

Tube placed(const std::vector<math::Vec3>& in_arch, const Arch& arch, double radius_mm,
            double wall_mm) {
  std::vector<math::Vec3> knots;
  knots.reserve(in_arch.size());
  for (const math::Vec3& q : in_arch) {
    knots.push_back(arch.from_arch(q));
  }
  return {smooth_curve(knots, kCurvePieces), radius_mm, wall_mm};
}

Tube canal_tube(const JawSpec& spec, const CanalSpec& canal) {
  const double end = 0.5 * spec.length_mm + kBeyond_mm;
  const double begin = canal.foramen ? canal.foramen->at_mm - canal.foramen->loop_mm : -end;
  const int steps = std::max(2, static_cast<int>((end - begin) / kCanalStep_mm));
  std::vector<math::Vec3> knots;
  for (int i = 0; i <= steps; ++i) {
    knots.push_back(canal_middle(canal, begin + (end - begin) * i / steps));
  }
  return placed(knots, arch_of(spec), 0.5 * canal.diameter_mm, canal.wall_mm);
}

/// From the end of the canal back, up and outward to the opening.
Tube foramen_tube(const CanalSpec& canal, const Ridge& ridge) {
  const ForamenSpec& foramen = *canal.foramen;
  const math::Vec3 end = canal_middle(canal, foramen.at_mm - foramen.loop_mm);
  const double side = ridge.side_mm(foramen.at_mm, -foramen.depth_mm, true);
  const math::Vec3 opening(foramen.at_mm + 0.6, side - 1.0, -foramen.depth_mm + 0.4);
  const math::Vec3 inner(foramen.at_mm + 0.2, side + 2.0, -foramen.depth_mm - 0.6);
  const math::Vec3 turn(foramen.at_mm - 0.6 * foramen.loop_mm, end.y + 0.45 * (inner.y - end.y),
                        end.z + 0.5 * (inner.z - end.z));
  return placed({end, turn, inner, opening}, ridge.arch(), 0.5 * foramen.diameter_mm,
                canal.wall_mm);
}

Tube nasopalatine_tube(const JawSpec& spec, const NasopalatineSpec& canal) {
  const double lean = tangent_of(canal.lean_deg);
  std::vector<math::Vec3> knots;
  for (int i = 0; i <= 8; ++i) {
    const double depth = -2.0 + (spec.depth_mm + 4.0) * i / 8.0;
    knots.push_back({canal.at_mm, canal.lateral_mm + lean * depth, -depth});
  }
  return placed(knots, arch_of(spec), 0.5 * canal.diameter_mm, canal.wall_mm);
}

/// An air space as a body along x, open toward the cut side above it.
LoftedBody lumen_body(const JawSpec& spec, const LumenSpec& lumen, LoftShape shape) {
  const double end = 0.5 * spec.length_mm + 12.0;
  const double begin = std::max(lumen.mesial_end_mm, -end);
  const double ceiling = -spec.depth_mm - kAbove_mm;
  std::vector<LoftStation> stations;
  constexpr int kSteps = 12;
  for (int i = 0; i <= kSteps; ++i) {
    const double x = begin + (end - begin) * i / kSteps;
    const double off = x - lumen.lowest_mm;
    const double floor =
        -lumen.floor_mm - std::min(0.5 * off * off / lumen.bow_radius_mm, 0.5 * spec.depth_mm);
    stations.push_back({x, lumen.lateral_mm, 0.5 * (floor + ceiling), 0.5 * lumen.width_mm,
                        0.5 * (floor - ceiling)});
  }
  const math::Mat3 axes(math::Vec3(0.0, 1.0, 0.0), math::Vec3(0.0, 0.0, 1.0),
                        math::Vec3(1.0, 0.0, 0.0));
  return {math::Vec3(0.0), axes, shape, stations, 4.0, 4.0};
}

}  // namespace

Jaw::Jaw(const JawSpec& spec, Texture texture) : spec_(spec), ridge_(ridge_of(spec)) {
  if (texture == Texture::kTrabeculae) {
    trabeculae_ = Trabeculae(spec.cancellous.texture);
  }
  for (const ToothSpec& tooth : spec.teeth) {
    teeth_.emplace_back(tooth, ridge_.arch());
  }
  if (spec.socket) {
    socket_.emplace(*spec.socket, ridge_.arch());
  }
  if (spec.canal) {
    canal_ = canal_tube(spec, *spec.canal);
    if (spec.canal->foramen) {
      foramen_ = foramen_tube(*spec.canal, ridge_);
    }
  }
  if (spec.nasopalatine) {
    nasopalatine_ = nasopalatine_tube(spec, *spec.nasopalatine);
  }
  if (spec.sinus) {
    sinus_ = lumen_body(spec, *spec.sinus, LoftShape::kEllipse);
  }
  if (spec.nose) {
    nose_ = lumen_body(spec, *spec.nose, LoftShape::kSquarish);
  }
}

double Jaw::bone_mm(const math::Vec3& p) const {
  return ridge_.distance(ridge_.arch().to_arch(p)).distance_mm;
}

}  // namespace driftbench::specimen
