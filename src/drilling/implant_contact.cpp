#include "drilling/implant_contact.h"

#include "math/angle.h"
#include "volume/sample.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

constexpr int kThreadReads = 4;
constexpr int kCoreReads = 3;
constexpr double kCoreBand_mm = 0.4;  // inside the core, where a tighter hole is felt; numerical
constexpr double kThreadShare = 0.5;  // of the thread's band that is metal: a symmetric V
constexpr double kSpring_mm = 0.40;   // displaced thickness at which the wall presses with its
                                      // whole strength; own assumption
constexpr double kLargestPressure = 1.2;  // of the strength: foam that is crushed; own assumption
constexpr double kShear_frac = 0.5;   // shear over compressive strength: 4.3 of 8.4 MPa at 20 pcf
constexpr double kPullOut = 0.57735;  // tan 30: a thread of 60 degrees (Chapman et al. 1996)
constexpr double kSideYield = 0.4;    // of the strength before a seated thread moves sideways

/// Material within the thread's band and just inside the core, along one radius [mm].
struct Embedded {
  double thread_mm = 0.0;
  double core_mm = 0.0;
};

Embedded embedded(const volume::Volume& volume, const math::Vec3& axis_point,
                  const math::Vec3& normal, const ThreadElement& element) {
  const auto summed = [&](double from_mm, double to_mm, int reads) {
    const double stride_mm = (to_mm - from_mm) / reads;
    double sum = 0.0;
    for (int i = 0; i < reads; ++i) {
      const double radius_mm = from_mm + (i + 0.5) * stride_mm;
      sum += stride_mm * volume::coverage_at(volume, axis_point + radius_mm * normal);
    }
    return sum;
  };
  const double core_from_mm = std::max(0.0, element.core_mm - kCoreBand_mm);
  return {summed(element.core_mm, element.radius_mm, kThreadReads),
          summed(core_from_mm, element.core_mm, kCoreReads)};
}

/// Area that the thread displaces anew per mm of advance: its taper meets new material, and so does
/// its blunt end.
double formed_mm2(const volume::Volume& volume, const math::Vec3& at, const math::Vec3& normal,
                  const ThreadElement& element, const Embedded& in, bool is_end) {
  const double depth_mm = element.radius_mm - element.core_mm;
  const double outer = volume::coverage_at(volume, at);
  const double core = volume::coverage_at(volume, at - depth_mm * normal);
  const double core_area_mm2 = element.area_mm2 * element.core_mm / element.radius_mm;
  const double by_taper = element.taper * (kThreadShare * element.area_mm2 * outer +
                                           (1.0 - kThreadShare) * core_area_mm2 * core);
  if (!is_end) {
    return by_taper;
  }
  const double width_mm = element.area_mm2 / (2.0 * element.position_mm.z);
  return by_taper + width_mm * (kThreadShare * in.thread_mm + in.core_mm);
}

}  // namespace

ThreadHold find_wall(const ImplantBody& body, const DrillPose& pose, const DrillFrame& frame,
                     double grip, const StepModel& model, const volume::Volume& volume,
                     std::vector<Contact>& contacts) {
  ThreadHold hold;
  for (const ThreadElement& element : body.thread) {
    const math::Vec3 normal = to_world(frame, element.normal);
    const math::Vec3 lever = to_world(frame, element.position_mm);
    const math::Vec3 at = pose.tip_mm + lever;
    if (volume::coverage_at(volume, at) <= 0.0) {
      continue;  // the crest is in the open, and so is all that lies inside it
    }
    const Embedded in = embedded(volume, at - element.radius_mm * normal, normal, element);
    const double depth_mm = element.radius_mm - element.core_mm;
    const double sigma = model.strength.at(volume::density_at(volume, at));
    const double displaced_mm = kThreadShare * grip * in.thread_mm + in.core_mm;
    const double pressure_mpa = sigma * std::min(kLargestPressure, displaced_mm / kSpring_mm);
    const double push_n = pressure_mpa * element.area_mm2;  // (20)
    const double engaged_mm2 = std::min(1.0, in.thread_mm / depth_mm) * element.area_mm2;
    const bool is_end = &element - body.thread.data() < body.ring_elements;
    const double formed = formed_mm2(volume, at, normal, element, in, is_end);
    hold.engaged_mm2 += engaged_mm2;
    hold.strength_area_n += sigma * engaged_mm2;
    hold.shear_n += kShear_frac * sigma * engaged_mm2 *
                    (0.5 + kPullOut * in.thread_mm / body.pitch_mm);  // (21)
    hold.plough_n += sigma * formed / kThreadShare;                   // (22)
    hold.wall_n += push_n;
    hold.friction_nmm += kThreadFriction * push_n * element.radius_mm;  // (24)
    hold.forming_nmm_per_mm += kFormingEnergy_frac * sigma * formed;    // (25)
    hold.force_n -= push_n * normal;
    hold.moment_nmm -= push_n * math::cross(lever, normal);

    Contact contact = contact_along(normal, lever, frame);
    contact.engaged_mm2 = engaged_mm2;
    contact.strength_mpa = sigma;
    contact.yield_n = kSideYield * sigma * engaged_mm2;
    contact.slope_ns_per_mm = model.step_s * sigma * element.area_mm2 / kSpring_mm;
    contacts.push_back(contact);
  }
  return hold;
}

void add_floor(const ImplantBody& body, const DrillPose& pose, const DrillFrame& frame,
               double rev_per_s, const StepModel& model, const volume::Volume& volume,
               std::vector<Contact>& contacts) {
  const ZoneLaw& law = model.cutting.chisel;
  const double turns_per_s = std::max(std::fabs(rev_per_s), model.cutting.idle_rev_per_s);
  for (const ApexElement& element : body.apex) {
    const math::Vec3 lever = to_world(frame, element.position_mm);
    const math::Vec3 at = pose.tip_mm + lever;
    const double gap_mm = volume::surface_gap_mm(volume, at);
    if (gap_mm >= kApproach_mm) {
      continue;
    }
    Contact contact = contact_along(-frame.axis, lever, frame);
    contact.engaged_mm2 = std::min(1.0 - gap_mm / kApproach_mm, 1.0) * element.area_mm2;
    contact.strength_mpa = model.strength.at(volume::density_at(volume, at));
    const double strength_n = contact.engaged_mm2 * contact.strength_mpa;
    contact.yield_n = strength_n * law.yield_frac;
    contact.slope_ns_per_mm = strength_n / (turns_per_s * law.chip_scale_mm);
    contacts.push_back(contact);
  }
}

}  // namespace driftbench::drilling
