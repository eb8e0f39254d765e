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

/// Sums up what the contacts did at the velocity that was found.
void sum_contacts(const std::vector<Contact>& contacts, const DrillFrame& frame,
                  const StepModel& model, const Spin& spin, const math::Vector<kDof>& u,
                  StepOutput& output) {
  const CuttingParams& cutting = model.cutting;
  math::Vec3 force(0.0);
  double point_area = 0.0;
  double point_strength = 0.0;
  double cutting_power_mw = 0.0;
  for (const Contact& contact : contacts) {
    if (contact.is_point) {
      point_area += contact.engaged_mm2;
      point_strength += contact.engaged_mm2 * contact.strength_mpa;
    }
    const double speed = along(contact.row, u);
    if (speed <= 0.0) {
      continue;
    }
    const double normal_n = normal_force_n(contact, speed, cutting.creep_speed_mm_per_s);
    const double swept_mm3_per_s = speed * contact.engaged_mm2;
    force -= normal_n * contact.normal;
    cutting_power_mw += cutting.specific_energy_frac * contact.strength_mpa * swept_mm3_per_s;
    output.swept_mm3 += model.step_s * swept_mm3_per_s;
    output.work_mj += model.step_s * speed * normal_n;
  }
  if (spin.rev_per_s > cutting.idle_rev_per_s) {
    output.torque_nmm = cutting_power_mw / (2.0 * math::kPi * spin.rev_per_s);
  }
  output.thrust_n = math::dot(force, frame.axis);
  output.side_force_n = force - output.thrust_n * frame.axis;
  output.strength_mpa = point_area > 0.0 ? point_strength / point_area : 0.0;
  output.in_contact = !contacts.empty();
}

/// Cutting force for the next step (MODEL eq. 5): across each lip, from the chip that the feed
/// gives.
///
/// A lip meets the surface that the other one left half a revolution ago, so the force follows the
/// feed with that delay, written as a first-order lag.
void renew_tangential(const std::vector<Contact>& contacts, const DrillFrame& frame,
                      const StepModel& model, const Spin& spin, const math::Vector<kDof>& u,
                      DrillState& state) {
  const double feed = std::max(0.0, -math::dot(math::Vec3(u[0], u[1], u[2]), frame.axis));
  math::Vec3 force(0.0);
  math::Vec3 moment(0.0);
  double rub = 0.0;
  for (const Contact& contact : contacts) {
    const double speed = along(contact.row, u);
    if (speed > 0.0) {
      if (contact.is_point) {
        rub += contact.rub_s_per_mm *
               normal_force_n(contact, speed, model.cutting.creep_speed_mm_per_s);
      }
      force += (feed * contact.cut_ns_per_mm) * contact.tangent;
      moment += (feed * contact.cut_ns_per_mm) * math::cross(contact.lever_mm, contact.tangent);
    }
  }
  const double share = std::min(1.0, model.step_s * kLips * spin.rev_per_s);
  state.cut_force_n += share * (force - state.cut_force_n);
  state.cut_moment_nmm += share * (moment - state.cut_moment_nmm);
  state.rub_ns_per_mm = rub;
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
  const math::Vec3 velocity(u[0], u[1], u[2]);
  const math::Vec3 turning = u[3] * frame.cross_1 + u[4] * frame.cross_2;
  if (!math::is_finite(velocity) || !math::is_finite(turning)) {
    output.is_finite = false;
    return output;
  }
  sum_contacts(scratch.contacts, frame, model, input.spin, u, output);
  output.side_force_n += state.cut_force_n - math::dot(state.cut_force_n, frame.axis) * frame.axis;
  const GuideReaction reaction = guide_reaction(limits, model.step_s, u);
  output.guide_force_n = reaction.force_n;
  output.guide_moment_nmm = reaction.moment_nmm;
  output.at_stop = reaction.at_stop;
  renew_tangential(scratch.contacts, frame, model, input.spin, u, state);
  output.feed_mm_per_s = -math::dot(velocity, frame.axis);

  state.velocity = u;
  state.pose.tip_mm += model.step_s * velocity;
  state.pose.axis_out_unit =
      math::unit(frame.axis + model.step_s * math::cross(turning, frame.axis));
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
