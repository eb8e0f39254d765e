#include "drilling/step.h"

#include "drilling/balance.h"
#include "drilling/heat.h"
#include "drilling/removal.h"
#include "drilling/system.h"
#include "math/angle.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

constexpr double kLips = 2.0;

/// Time over which swept and lost volume are balanced: many coverage units, a short way. Numerical.
constexpr double kBalanceTime_s = 0.1;
constexpr double kLeastSwept_mm3 = 1e-5;  // below this the means say nothing
constexpr double kLeastAreaFactor = 0.7;
constexpr double kLargestAreaFactor = 1.5;

/// What one half of the drill did in a step. Halves are summed apart and added at the end, so that
/// the mirror image of a step has mirrored bits.
struct ContactSums {
  math::Vec3 force_n{};
  math::Vec3 cut_force_n{};     ///< sideways cutting force of the feed
  math::Vec3 cut_moment_nmm{};  ///< of it about the tip
  double point_mm2 = 0.0;
  double point_strength_n = 0.0;
  double cutting_power_mw = 0.0;
  double swept_mm3_per_s = 0.0;
  double power_mw = 0.0;  ///< of the resistance
  double rub_ns_per_mm = 0.0;

  void add(const ContactSums& other) {
    force_n += other.force_n;
    cut_force_n += other.cut_force_n;
    cut_moment_nmm += other.cut_moment_nmm;
    point_mm2 += other.point_mm2;
    point_strength_n += other.point_strength_n;
    cutting_power_mw += other.cutting_power_mw;
    swept_mm3_per_s += other.swept_mm3_per_s;
    power_mw += other.power_mw;
    rub_ns_per_mm += other.rub_ns_per_mm;
  }
};

/// Adds one contact at its speed into the material.
void add_contact(const Contact& contact, double speed, double feed, const CuttingParams& cutting,
                 ContactSums& sums) {
  if (contact.is_point) {
    sums.point_mm2 += contact.engaged_mm2;
    sums.point_strength_n += contact.engaged_mm2 * contact.strength_mpa;
  }
  if (speed <= 0.0) {
    return;
  }
  const double normal_n = normal_force_n(contact, speed, cutting.creep_speed_mm_per_s);
  const double swept_mm3_per_s = speed * contact.engaged_mm2;
  sums.force_n -= normal_n * contact.normal;
  sums.cutting_power_mw += cutting.specific_energy_frac * contact.strength_mpa * swept_mm3_per_s;
  sums.swept_mm3_per_s += swept_mm3_per_s;
  sums.power_mw += speed * normal_n;
  if (contact.is_point) {
    sums.rub_ns_per_mm += contact.rub_s_per_mm * normal_n;
  }
  // MODEL eq. 5: across each lip, from the chip that the feed gives.
  sums.cut_force_n += (feed * contact.cut_ns_per_mm) * contact.tangent;
  sums.cut_moment_nmm +=
      (feed * contact.cut_ns_per_mm) * math::cross(contact.lever_mm, contact.tangent);
}

/// Sums up what the contacts did at the velocity that was found.
ContactSums summed(const std::vector<Contact>& contacts, const DrillFrame& frame,
                   const CuttingParams& cutting, const math::Vector<kDof>& u) {
  const double feed = std::max(0.0, feed_of(frame, u));
  ContactSums halves[2];
  for (const Contact& contact : contacts) {
    add_contact(contact, along(contact.row, u), feed, cutting, halves[contact.is_left ? 1 : 0]);
  }
  halves[0].add(halves[1]);
  return halves[0];
}

void report(const ContactSums& sums, const DrillFrame& frame, const StepModel& model,
            const Spin& spin, StepOutput& output) {
  if (spin.rev_per_s > model.cutting.idle_rev_per_s) {
    output.torque_nmm = sums.cutting_power_mw / (2.0 * math::kPi * spin.rev_per_s);
  }
  output.swept_mm3 = model.step_s * sums.swept_mm3_per_s;
  output.work_mj = model.step_s * sums.power_mw;
  output.thrust_n = math::dot(sums.force_n, frame.axis);
  output.side_force_n = sums.force_n - output.thrust_n * frame.axis;
  output.strength_mpa = sums.point_mm2 > 0.0 ? sums.point_strength_n / sums.point_mm2 : 0.0;
}

/// Cutting force for the next step. A lip meets the surface that the other one left half a
/// revolution ago, so the force follows the feed with that delay, written as a first-order lag.
void renew_tangential(const ContactSums& sums, double step_s, const Spin& spin, DrillState& state) {
  const double share = std::min(1.0, step_s * kLips * spin.rev_per_s);
  state.cut_force_n += share * (sums.cut_force_n - state.cut_force_n);
  state.cut_moment_nmm += share * (sums.cut_moment_nmm - state.cut_moment_nmm);
  state.rub_ns_per_mm = sums.rub_ns_per_mm;
}

/// Renews the factor that makes the elements' swept volume equal to the lost coverage.
///
/// Near the rim of an older, narrower hole a lattice cannot resolve the sharp edge, and the
/// elements there feel too little. What the material really lost says by how much (MODEL section
/// 7).
void renew_area_factor(const StepOutput& output, double voxel_mm3, double step_s,
                       DrillState& state) {
  const double lost_mm3 =
      static_cast<double>(output.lost_coverage) / volume::kFullCoverage * voxel_mm3;
  const double share = step_s / kBalanceTime_s;
  state.swept_mean_mm3 += share * (output.swept_mm3 / state.area_factor - state.swept_mean_mm3);
  state.lost_mean_mm3 += share * (lost_mm3 - state.lost_mean_mm3);
  if (state.swept_mean_mm3 > kLeastSwept_mm3) {
    state.area_factor = std::clamp(state.lost_mean_mm3 / state.swept_mean_mm3, kLeastAreaFactor,
                                   kLargestAreaFactor);
  }
}

}  // namespace

StepOutput advance(const StepModel& model, const StepInput& input, DrillState& state,
                   volume::Volume& volume, StepScratch& scratch) {
  const DrillFrame frame = frame_of(state.pose);
  find_contacts(*input.tool, state.pose, frame, input.spin, volume, model.cutting, model.strength,
                state.area_factor, scratch.contacts);
  const GuideLimits limits = guide_limits(input, state.pose, frame);
  const math::Vector<kDof> u =
      balanced_velocity(model, input, state, frame, limits, scratch.contacts);

  StepOutput output;
  output.is_finite = move(frame, u, model.step_s, state);
  if (!output.is_finite) {
    return output;
  }
  const ContactSums sums = summed(scratch.contacts, frame, model.cutting, u);
  report(sums, frame, model, input.spin, output);
  output.in_contact = !scratch.contacts.empty();
  output.side_force_n += state.cut_force_n - math::dot(state.cut_force_n, frame.axis) * frame.axis;
  const GuideReaction reaction = guide_reaction(limits, model.step_s, u);
  output.guide_force_n = reaction.force_n;
  output.guide_moment_nmm = reaction.moment_nmm;
  output.at_stop = reaction.at_stop;
  renew_tangential(sums, model.step_s, input.spin, state);
  output.feed_mm_per_s = feed_of(frame, u);
  const bool cuts = output.swept_mm3 > 0.0;
  if (cuts) {
    output.lost_coverage = remove_material(*input.tool, state, volume, input.removal_tick);
    renew_area_factor(output, volume.grid.voxel_volume_mm3(), model.step_s, state);
  }
  const double power_w = output.torque_nmm * 2.0 * math::kPi * input.spin.rev_per_s * 1e-3;
  state.heat_degc =
      heated_degc(state.heat_degc, power_w, input.ambient_degc, input.irrigation, model.step_s);
  return output;
}

}  // namespace driftbench::drilling
