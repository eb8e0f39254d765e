#include "drilling/contact.h"

#include "math/angle.h"
#include "volume/sample.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

/// Depth at which the strength ahead of an element is read: the material that is cut next.
constexpr double kLookAhead_mm = 0.1;

/// Sideways speed at which a spot that does not turn rubs with its full friction. Numerical.
constexpr double kSlowRub_mm_per_s = 2.0;
constexpr double kSmallestRadius_mm = 1e-9;

const ZoneLaw& law_of(const CuttingParams& cutting, Zone zone) {
  switch (zone) {
    case Zone::kChisel:
      return cutting.chisel;
    case Zone::kMargin:
      return cutting.margin;
    case Zone::kSideLip:
      return cutting.side_lip;
    case Zone::kLip:
      break;
  }
  return cutting.lip;
}

/// Height of the highest material, to skip rings in the open.
double top_mm(const volume::Grid& grid) {
  return grid.first_centre_mm.z + grid.spacing_mm * grid.nz;
}

}  // namespace

DrillFrame frame_of(const DrillPose& pose) {
  DrillFrame frame;
  frame.axis = pose.axis_out_unit;
  const math::Vec3 along_x(1.0, 0.0, 0.0);
  frame.cross_1 = math::unit(along_x - math::dot(along_x, frame.axis) * frame.axis);
  frame.cross_2 = math::cross(frame.axis, frame.cross_1);
  return frame;
}

void find_contacts(const Tool& tool, const DrillPose& pose, const DrillFrame& frame,
                   const Spin& spin, const volume::Volume& volume, const CuttingParams& cutting,
                   const StrengthTable& strength, double area_factor,
                   std::vector<Contact>& contacts) {
  contacts.clear();
  const double rev_per_s = std::max(spin.rev_per_s, cutting.idle_rev_per_s);
  const double ceiling_mm = top_mm(volume.grid);
  const bool cuts = spin.rev_per_s > cutting.idle_rev_per_s;
  for (const SurfaceElement& element : tool.elements) {
    const math::Vec3 lever = to_world(frame, element.position_mm);
    const math::Vec3 at = pose.tip_mm + lever;
    if (at.z > ceiling_mm) {
      continue;
    }
    const double gap_mm = volume::surface_gap_mm(volume, at);
    if (gap_mm >= kApproach_mm) {
      continue;
    }
    const double share = std::min(1.0 - gap_mm / kApproach_mm, 1.0);
    const math::Vec3 normal = to_world(frame, element.normal);
    const double sigma = strength.at(volume::density_at(volume, at + kLookAhead_mm * normal));
    const ZoneLaw& law = law_of(cutting, element.zone);

    Contact contact = contact_along(normal, lever, frame);
    contact.engaged_mm2 = area_factor * share * element.area_mm2;
    contact.strength_mpa = sigma;
    contact.yield_n = contact.engaged_mm2 * sigma * law.yield_frac;
    contact.slope_ns_per_mm = contact.engaged_mm2 * sigma / (rev_per_s * law.chip_scale_mm);
    contact.is_point = element.zone == Zone::kChisel || element.zone == Zone::kLip ||
                       (element.zone == Zone::kSideLip && element.normal.z < 0.0);
    contact.is_left = element.position_mm.x < 0.0;
    const double edge_speed = 2.0 * math::kPi * element.radius_mm * rev_per_s;
    contact.rub_s_per_mm = cutting.friction / (edge_speed + kSlowRub_mm_per_s);
    const double chip_share = -math::dot(normal, frame.axis);  // of the feed, along the normal
    if (cuts && chip_share > 0.0 && element.zone != Zone::kChisel) {
      // Edge moves along direction * (axis x radius); the material pushes the other way.
      const math::Vec3 radial = lever - math::dot(lever, frame.axis) * frame.axis;
      contact.tangent = (-spin.direction / std::max(element.radius_mm, kSmallestRadius_mm)) *
                        math::cross(frame.axis, radial);
      contact.cut_ns_per_mm = cutting.walk_frac * cutting.specific_energy_frac * sigma *
                              contact.engaged_mm2 * chip_share / edge_speed;
    }
    contacts.push_back(contact);
  }
}

Contact contact_along(const math::Vec3& normal, const math::Vec3& lever_mm,
                      const DrillFrame& frame) {
  Contact contact;
  set_row(contact.row, normal, lever_mm, frame.cross_1, frame.cross_2);
  contact.normal = normal;
  contact.lever_mm = lever_mm;
  return contact;
}

double normal_force_n(const Contact& contact, double speed_mm_per_s, double creep_mm_per_s) {
  if (speed_mm_per_s <= 0.0) {
    return 0.0;
  }
  return contact.yield_n * speed_mm_per_s / (speed_mm_per_s + creep_mm_per_s) +
         contact.slope_ns_per_mm * speed_mm_per_s;
}

}  // namespace driftbench::drilling
