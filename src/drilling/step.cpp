#include "drilling/step.h"

#include "drilling/heat.h"
#include "drilling/removal.h"
#include "drilling/system.h"
#include "math/angle.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

/// Rounds of the solve. Fixed, so that every build does the same; residual: see tests and MODEL.md.
constexpr int kRounds = 6;

constexpr double kStopStiffness_n_per_mm = 800.0;  // steel on resin; own assumption
constexpr double kLips = 2.0;
constexpr double kMmPerM = 1000.0;
constexpr double kFastest_mm_per_s = 80.0;
constexpr double kFastestTurn_rad_per_s = 4.0;

/// Time over which swept and lost volume are balanced: many coverage units, a short way. Numerical.
constexpr double kBalanceTime_s = 0.1;
constexpr double kLeastSwept_mm3 = 1e-5;  // below this the means say nothing
constexpr double kLeastAreaFactor = 0.7;
constexpr double kLargestAreaFactor = 1.5;

/// The limits that the guide sets in this step.
struct GuideLimits {
  SideLimit sides[2];
  int side_count = 0;
  SideLimit stop;
  bool has_stop = false;
};

GuideLimits guide_limits(const StepInput& input, const DrillPose& pose, const DrillFrame& frame) {
  GuideLimits limits;
  if (input.guide == nullptr) {
    return limits;
  }
  const SleeveFit& fit = *input.guide;
  for (const Ring& ring : fit.rings) {
    if (const auto limit = ring_limit(fit, ring, *input.tool, pose, frame.cross_1, frame.cross_2)) {
      limits.sides[limits.side_count++] = *limit;
    }
  }
  if (fit.stop_from_tip_mm > 0.0 || !fit.passes) {
    limits.has_stop = true;
    limits.stop.direction = -1.0 * fit.sleeve.axis_out_unit;
    limits.stop.room_mm = stop_room_mm(fit, pose);
    limits.stop.row[0] = limits.stop.direction.x;
    limits.stop.row[1] = limits.stop.direction.y;
    limits.stop.row[2] = limits.stop.direction.z;
    limits.stop.height_mm = fit.sleeve.tip_mm.z + fit.end_face_mm;
  }
  return limits;
}

/// Force with which a limit pushes back (>= 0) at the end of a step with velocity u.
double limit_force_n(const SideLimit& limit, double stiffness, const math::Vector<kDof>& u) {
  const double past_mm = kStep_s * along(limit.row, u) - limit.room_mm;
  return past_mm > 0.0 ? stiffness * past_mm : 0.0;
}

/// Adds a one-sided spring where it would be pressed at the end of this step.
void add_limit(System& system, const SideLimit& limit, double stiffness,
               const math::Vector<kDof>& u) {
  if (kStep_s * along(limit.row, u) > limit.room_mm) {
    system.add_stiff(limit.row, kStep_s * stiffness);
    system.add_force(limit.row, stiffness * limit.room_mm);
  }
}

/// Springs and dampers of the hand, implicit over the step (MODEL eq. 1, 2).
void add_hand(System& system, const HandParams& hand, const StepInput& input,
              const DrillState& state, const DrillFrame& frame) {
  const DrillPose& pose = state.pose;
  const double reach = input.grip_height_mm;
  const math::Vec3 grip = pose.tip_mm + reach * frame.axis;
  const math::Vec3 pull(input.hand.grip_mm.x - grip.x, input.hand.grip_mm.y - grip.y, 0.0);
  const double inertia = hand.mass_kg / (kStep_s * kMmPerM);  // implicit Euler, N per mm/s
  const double stiff =
      kStep_s * hand.lateral_stiffness_n_per_mm + hand.lateral_damping_ns_per_mm + inertia;
  const double row_1[kDof] = {frame.cross_1.x, frame.cross_1.y, frame.cross_1.z, 0.0, reach};
  const double row_2[kDof] = {frame.cross_2.x, frame.cross_2.y, frame.cross_2.z, -reach, 0.0};
  system.add_stiff(row_1, stiff);
  system.add_stiff(row_2, stiff);
  system.add_force(row_1, hand.lateral_stiffness_n_per_mm * math::dot(pull, frame.cross_1) +
                              inertia * along(row_1, state.velocity));
  system.add_force(row_2, hand.lateral_stiffness_n_per_mm * math::dot(pull, frame.cross_2) +
                              inertia * along(row_2, state.velocity));

  const math::Vec3 turn = math::cross(frame.axis, input.hand.axis_out_unit);
  const double wrist = hand.wrist_stiffness_nmm_per_rad;
  const double wrist_damping =
      wrist * hand.lateral_damping_ns_per_mm / hand.lateral_stiffness_n_per_mm;
  const double turn_1[kDof] = {0.0, 0.0, 0.0, 1.0, 0.0};
  const double turn_2[kDof] = {0.0, 0.0, 0.0, 0.0, 1.0};
  system.add_stiff(turn_1, kStep_s * wrist + wrist_damping);
  system.add_stiff(turn_2, kStep_s * wrist + wrist_damping);
  system.add_force(turn_1, wrist * math::dot(turn, frame.cross_1));
  system.add_force(turn_2, wrist * math::dot(turn, frame.cross_2));

  const double feed[kDof] = {-frame.axis.x, -frame.axis.y, -frame.axis.z, 0.0, 0.0};
  system.add_stiff(feed, hand.feed_damping_ns_per_mm + inertia);
  system.add_force(feed, input.feed_n + inertia * along(feed, state.velocity));
}

/// Resistance of the contacts, linearised at velocity u: secant stiffness along each normal.
void add_contacts(System& system, const std::vector<Contact>& contacts, double creep,
                  const math::Vector<kDof>& u) {
  for (const Contact& contact : contacts) {
    const double speed = along(contact.row, u);
    if (speed > 0.0) {
      system.add_stiff(contact.row, contact.yield_n / (speed + creep) + contact.slope_ns_per_mm);
    }
  }
}

math::Vector<kDof> clamped(math::Vector<kDof> u) {
  for (int i = 0; i < 3; ++i) {
    u[static_cast<std::size_t>(i)] =
        std::clamp(u[static_cast<std::size_t>(i)], -kFastest_mm_per_s, kFastest_mm_per_s);
  }
  u[3] = std::clamp(u[3], -kFastestTurn_rad_per_s, kFastestTurn_rad_per_s);
  u[4] = std::clamp(u[4], -kFastestTurn_rad_per_s, kFastestTurn_rad_per_s);
  return u;
}

/// Friction of the turning point against sideways motion (MODEL eq. 6): most of it is spent on the
/// turning, so what is left grows with the sideways speed.
void add_rubbing(System& system, const DrillState& state, const DrillFrame& frame) {
  const double row_1[kDof] = {frame.cross_1.x, frame.cross_1.y, frame.cross_1.z, 0.0, 0.0};
  const double row_2[kDof] = {frame.cross_2.x, frame.cross_2.y, frame.cross_2.z, 0.0, 0.0};
  system.add_stiff(row_1, state.rub_ns_per_mm);
  system.add_stiff(row_2, state.rub_ns_per_mm);
}

/// Fixed-point rounds: linearise at the last velocity, solve, repeat (MODEL section 7).
math::Vector<kDof> solve(const StepModel& model, const StepInput& input, const DrillState& state,
                         const DrillFrame& frame, const GuideLimits& limits,
                         const std::vector<Contact>& contacts) {
  System base;
  add_hand(base, model.hand, input, state, frame);
  add_rubbing(base, state, frame);
  base.add_wrench(state.cut_force_n, math::dot(state.cut_moment_nmm, frame.cross_1),
                  math::dot(state.cut_moment_nmm, frame.cross_2));
  math::Vector<kDof> u = state.velocity;
  for (int round = 0; round < kRounds; ++round) {
    System system = base;
    add_contacts(system, contacts, model.cutting.creep_speed_mm_per_s, u);
    for (int i = 0; i < limits.side_count; ++i) {
      add_limit(system, limits.sides[i], input.guide->stiffness_n_per_mm, u);
    }
    if (limits.has_stop) {
      add_limit(system, limits.stop, kStopStiffness_n_per_mm, u);
    }
    u = clamped(system.solved(u));
  }
  return u;
}

/// Sums up what the contacts did at the velocity that was found.
void sum_contacts(const std::vector<Contact>& contacts, const DrillFrame& frame,
                  const CuttingParams& cutting, const Spin& spin, const math::Vector<kDof>& u,
                  StepOutput& output) {
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
    output.swept_mm3 += kStep_s * swept_mm3_per_s;
    output.work_mj += kStep_s * speed * normal_n;
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
                      const CuttingParams& cutting, const Spin& spin, const math::Vector<kDof>& u,
                      DrillState& state) {
  const double feed = std::max(0.0, -math::dot(math::Vec3(u[0], u[1], u[2]), frame.axis));
  math::Vec3 force(0.0);
  math::Vec3 moment(0.0);
  double rub = 0.0;
  for (const Contact& contact : contacts) {
    const double speed = along(contact.row, u);
    if (speed > 0.0) {
      if (contact.is_point) {
        rub += contact.rub_s_per_mm * normal_force_n(contact, speed, cutting.creep_speed_mm_per_s);
      }
      force += (feed * contact.cut_ns_per_mm) * contact.tangent;
      moment += (feed * contact.cut_ns_per_mm) * math::cross(contact.lever_mm, contact.tangent);
    }
  }
  const double share = std::min(1.0, kStep_s * kLips * spin.rev_per_s);
  state.cut_force_n += share * (force - state.cut_force_n);
  state.cut_moment_nmm += share * (moment - state.cut_moment_nmm);
  state.rub_ns_per_mm = rub;
}

void sum_guide(const GuideLimits& limits, const StepInput& input, const math::Vector<kDof>& u,
               StepOutput& output) {
  double weight = 0.0;
  for (int i = 0; i < limits.side_count; ++i) {
    const SideLimit& limit = limits.sides[i];
    const double held_n = limit_force_n(limit, input.guide->stiffness_n_per_mm, u);
    output.guide_force_n -= held_n * limit.direction;
    output.guide_height_mm += held_n * limit.height_mm;
    weight += held_n;
  }
  if (weight > 0.0) {
    output.guide_height_mm /= weight;
  }
  if (limits.has_stop) {
    const double held_n = limit_force_n(limits.stop, kStopStiffness_n_per_mm, u);
    output.guide_force_n -= held_n * limits.stop.direction;
    output.at_stop = held_n > 0.0;
  }
}

/// Renews the factor that makes the elements' swept volume equal to the lost coverage.
///
/// Near the rim of an older, narrower hole a lattice cannot resolve the sharp edge, and the
/// elements there feel too little. What the material really lost says by how much (MODEL section
/// 7).
void renew_area_factor(const StepOutput& output, double voxel_mm3, DrillState& state) {
  const double lost_mm3 =
      static_cast<double>(output.lost_coverage) / volume::kFullCoverage * voxel_mm3;
  const double share = kStep_s / kBalanceTime_s;
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
  const math::Vector<kDof> u = solve(model, input, state, frame, limits, scratch.contacts);

  StepOutput output;
  const math::Vec3 velocity(u[0], u[1], u[2]);
  const math::Vec3 turning = u[3] * frame.cross_1 + u[4] * frame.cross_2;
  if (!math::is_finite(velocity) || !math::is_finite(turning)) {
    output.is_finite = false;
    return output;
  }
  sum_contacts(scratch.contacts, frame, model.cutting, input.spin, u, output);
  output.side_force_n += state.cut_force_n - math::dot(state.cut_force_n, frame.axis) * frame.axis;
  sum_guide(limits, input, u, output);
  renew_tangential(scratch.contacts, frame, model.cutting, input.spin, u, state);
  output.feed_mm_per_s = -math::dot(velocity, frame.axis);

  state.velocity = u;
  state.pose.tip_mm += kStep_s * velocity;
  state.pose.axis_out_unit = math::unit(frame.axis + kStep_s * math::cross(turning, frame.axis));
  const bool cuts = output.swept_mm3 > 0.0;
  if (cuts) {
    output.lost_coverage = remove_material(*input.tool, state, volume, input.removal_tick);
    renew_area_factor(output, volume.grid.voxel_volume_mm3(), state);
  }
  const double power_w = output.torque_nmm * 2.0 * math::kPi * input.spin.rev_per_s * 1e-3;
  state.heat_degc = heated_degc(state.heat_degc, power_w, input.ambient_degc, input.irrigation);
  return output;
}

}  // namespace driftbench::drilling
