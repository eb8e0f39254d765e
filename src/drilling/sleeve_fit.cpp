#include "drilling/sleeve_fit.h"

#include "drilling/contact.h"

#include <algorithm>

namespace driftbench::drilling {
namespace {

constexpr double kLeadIn_mm = 2.5;    // chamfer of the upper end; own assumption
constexpr double kCentred_mm = 1e-6;  // closer to the axis than this a side has no direction

/// Height of a place on the drill above the sleeve's lower edge, along the sleeve.
double height_in_sleeve_mm(const SleeveFit& fit, const DrillPose& pose, double from_tip_mm) {
  const math::Vec3 place = pose.tip_mm + from_tip_mm * pose.axis_out_unit;
  return math::dot(place - fit.sleeve.tip_mm, fit.sleeve.axis_out_unit);
}

/// Sleeve and key are tubes: a body whose end is still inside is held at its end, as far from the
/// axis as the tube lets it there. Without this the point could leave the tube between its rings
/// and wedge in the lower one.
Ring at_end_of_body(const SleeveFit& fit, const Ring& ring, double end_mm) {
  if (end_mm <= ring.height_mm || end_mm >= fit.end_face_mm) {
    return ring;
  }
  const Ring& low = fit.rings.front();
  const Ring& high = fit.rings.back();
  const double share = end_mm / high.height_mm;
  Ring held = ring;
  held.height_mm = end_mm;
  held.bore_radius_mm = low.bore_radius_mm + share * (high.bore_radius_mm - low.bore_radius_mm);
  held.lead_in_mm = std::max(0.0, kLeadIn_mm - (fit.end_face_mm - end_mm));
  return held;
}

}  // namespace

double radius_at_mm(const Tool& tool, double height_mm) {
  if (height_mm <= 0.0) {
    return 0.0;
  }
  return tool.radius_mm * std::min(1.0, height_mm / std::max(tool.point_height_mm, 1e-9));
}

SleeveFit make_sleeve_fit(const specimen::Sleeve& sleeve, const specimen::Key* key,
                          const Tool& tool, const specimen::Drill& drill, double stop_length_mm) {
  SleeveFit fit;
  fit.stop_from_tip_mm = stop_length_mm > 0.0 ? tool.point_height_mm + stop_length_mm : 0.0;
  const bool has_collar = drill.collar_length_mm > 0.0 && stop_length_mm > 0.0;
  const double widest_mm = has_collar ? drill.collar_diameter_mm : drill.diameter_mm;
  if (has_collar) {
    fit.collar_radius_mm = 0.5 * drill.collar_diameter_mm;
    fit.collar_from_tip_mm = fit.stop_from_tip_mm - drill.collar_length_mm;
  }
  if (key == nullptr) {
    const double bore_radius = 0.5 * sleeve.bore_mm;
    fit.rings = {Ring{0.0, bore_radius, 0.0}, Ring{sleeve.height_mm, bore_radius, kLeadIn_mm}};
    fit.end_face_mm = sleeve.height_mm;
    fit.passes = widest_mm < sleeve.bore_mm;
    return fit;
  }
  const double play_key = std::max(0.0, sleeve.bore_mm - key->spigot_diameter_mm);
  const double bore_radius = 0.5 * key->bore_mm;
  const double tilt_room = play_key * (0.5 + key->collar_mm / sleeve.height_mm);
  fit.rings = {Ring{0.0, bore_radius + 0.5 * play_key, 0.0},
               Ring{sleeve.height_mm + key->collar_mm, bore_radius + tilt_room, kLeadIn_mm}};
  fit.end_face_mm = sleeve.height_mm + key->collar_mm;
  fit.passes = widest_mm < key->bore_mm;
  return fit;
}

std::optional<SideLimit> ring_limit(const SleeveFit& fit, const Ring& of_bore, const Tool& tool,
                                    const DrillPose& pose, const math::Vec3& cross_1,
                                    const math::Vec3& cross_2) {
  const math::Vec3& along = fit.sleeve.axis_out_unit;
  const double collar_at_mm = height_in_sleeve_mm(fit, pose, fit.collar_from_tip_mm);
  const bool by_collar = fit.collar_radius_mm > 0.0 && collar_at_mm < fit.end_face_mm;
  const double shoulder_mm = height_in_sleeve_mm(fit, pose, tool.point_height_mm);
  const Ring ring = by_collar ? of_bore : at_end_of_body(fit, of_bore, shoulder_mm);
  const double ring_at_mm = by_collar ? std::max(ring.height_mm, collar_at_mm) : ring.height_mm;
  const math::Vec3 centre = fit.sleeve.tip_mm + ring_at_mm * along;
  const double cosine = math::dot(pose.axis_out_unit, along);
  const double height = math::dot(centre - pose.tip_mm, along) / cosine;  // along the drill
  if (height <= 0.0) {
    return std::nullopt;
  }
  const math::Vec3 lever = height * pose.axis_out_unit;
  const math::Vec3 off = pose.tip_mm + lever - centre;
  const math::Vec3 side = off - math::dot(off, along) * along;
  const double distance = math::length(side);
  if (distance < kCentred_mm) {
    return std::nullopt;
  }
  SideLimit limit;
  limit.direction = side / distance;
  const double inside_mm = by_collar ? height - fit.collar_from_tip_mm : height;
  const double lead_in = std::max(0.0, ring.lead_in_mm - inside_mm);
  const double radius_mm = by_collar ? fit.collar_radius_mm : radius_at_mm(tool, height);
  limit.room_mm = ring.bore_radius_mm + lead_in - radius_mm - distance;
  set_row(limit.row, limit.direction, lever, cross_1, cross_2);
  limit.at_mm = centre;
  return limit;
}

double stop_room_mm(const SleeveFit& fit, const DrillPose& pose) {
  const math::Vec3& along = fit.sleeve.axis_out_unit;
  const math::Vec3 face = fit.sleeve.tip_mm + fit.end_face_mm * along;
  const double from_tip = fit.passes ? fit.stop_from_tip_mm : 0.0;
  return math::dot(pose.tip_mm + from_tip * pose.axis_out_unit - face, along);
}

}  // namespace driftbench::drilling
