#include "drilling/balance.h"

#include "drilling/system.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

/// Rounds of the solve. Fixed, so that every build does the same; residual: see MODEL.md section 7.
constexpr int kRounds = 6;

constexpr double kMmPerM = 1000.0;
constexpr double kFastest_mm_per_s = 80.0;
constexpr double kFastestTurn_rad_per_s = 4.0;
constexpr double kPast_mm = 0.15;  // farther past a ring than any hand presses it: 120 N

/// Adds a one-sided spring where it would be pressed at the end of this step.
void add_limit(System& system, const SideLimit& limit, double stiffness, double step_s,
               const math::Vector<kDof>& u) {
  if (step_s * along(limit.row, u) > limit.room_mm) {
    system.add_stiff(limit.row, step_s * stiffness);
    system.add_force(limit.row, stiffness * limit.room_mm);
  }
}

/// Springs and dampers of the hand, implicit over the step (MODEL eq. 1, 2).
void add_hand(System& system, const HandParams& hand, const StepInput& input,
              const DrillState& state, const DrillFrame& frame, double step_s) {
  const DrillPose& pose = state.pose;
  const double reach = input.grip_height_mm;
  const math::Vec3 grip = pose.tip_mm + reach * frame.axis;
  const math::Vec3 pull(input.hand.grip_mm.x - grip.x, input.hand.grip_mm.y - grip.y, 0.0);
  const double inertia = hand.mass_kg / (step_s * kMmPerM);  // implicit Euler, N per mm/s
  const double stiff =
      step_s * hand.lateral_stiffness_n_per_mm + hand.lateral_damping_ns_per_mm + inertia;
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
  system.add_stiff(turn_1, step_s * wrist + wrist_damping);
  system.add_stiff(turn_2, step_s * wrist + wrist_damping);
  system.add_force(turn_1, wrist * math::dot(turn, frame.cross_1));
  system.add_force(turn_2, wrist * math::dot(turn, frame.cross_2));

  const double feed[kDof] = {-frame.axis.x, -frame.axis.y, -frame.axis.z, 0.0, 0.0};
  system.add_stiff(feed, hand.feed_damping_ns_per_mm + inertia);
  system.add_force(feed, input.feed_n + inertia * along(feed, state.velocity));
}

/// Resistance of the contacts, linearised at velocity u: secant stiffness along each normal. The
/// halves of the drill are summed apart and added at the end: then the mirror image has mirrored
/// bits.
void add_contacts(System& system, const std::vector<Contact>& contacts, double creep,
                  const math::Vector<kDof>& u) {
  System halves[2];
  for (const Contact& contact : contacts) {
    const double speed = along(contact.row, u);
    if (speed > 0.0) {
      halves[contact.is_left ? 1 : 0].add_stiff(
          contact.row, contact.yield_n / (speed + creep) + contact.slope_ns_per_mm);
    }
  }
  halves[0].add(halves[1]);
  system.add(halves[0]);
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

/// The same with the direction kept. A drill that is past its sleeve comes back along the way that
/// was solved for; with each component clamped by itself it moved to and fro for ever.
math::Vector<kDof> slowed(math::Vector<kDof> u) {
  double share = 1.0;
  for (std::size_t i = 0; i < kDof; ++i) {
    const double fastest = i < 3 ? kFastest_mm_per_s : kFastestTurn_rad_per_s;
    share = std::max(share, std::fabs(u[i]) / fastest);
  }
  for (double& component : u) {
    component /= share;
  }
  return u;
}

bool is_past(const GuideLimits& limits) {
  return std::any_of(limits.sides, limits.sides + limits.side_count,
                     [](const SideLimit& limit) { return limit.room_mm < -kPast_mm; });
}

/// Friction of the turning point against sideways motion (MODEL eq. 6): most of it is spent on the
/// turning, so what is left grows with the sideways speed.
void add_rubbing(System& system, const DrillState& state, const DrillFrame& frame) {
  const double row_1[kDof] = {frame.cross_1.x, frame.cross_1.y, frame.cross_1.z, 0.0, 0.0};
  const double row_2[kDof] = {frame.cross_2.x, frame.cross_2.y, frame.cross_2.z, 0.0, 0.0};
  system.add_stiff(row_1, state.rub_ns_per_mm);
  system.add_stiff(row_2, state.rub_ns_per_mm);
}

}  // namespace

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
    limits.stop.at_mm = fit.sleeve.tip_mm + fit.end_face_mm * fit.sleeve.axis_out_unit;
  }
  return limits;
}

GuideReaction guide_reaction(const GuideLimits& limits, double step_s,
                             const math::Vector<kDof>& u) {
  GuideReaction reaction;
  const auto add = [&](const SideLimit& limit, double stiffness_n_per_mm) {
    const double past_mm = step_s * along(limit.row, u) - limit.room_mm;
    if (past_mm <= 0.0) {
      return false;
    }
    const math::Vec3 force_n = -stiffness_n_per_mm * past_mm * limit.direction;
    reaction.force_n += force_n;
    reaction.moment_nmm += math::cross(limit.at_mm, force_n);
    return true;
  };
  for (int i = 0; i < limits.side_count; ++i) {
    add(limits.sides[i], kSleeveStiffness_n_per_mm);
  }
  reaction.at_stop = limits.has_stop && add(limits.stop, kStopStiffness_n_per_mm);
  return reaction;
}

bool move(const DrillFrame& frame, const math::Vector<kDof>& u, double step_s, DrillState& state) {
  const math::Vec3 velocity(u[0], u[1], u[2]);
  const math::Vec3 turning = u[3] * frame.cross_1 + u[4] * frame.cross_2;
  if (!math::is_finite(velocity) || !math::is_finite(turning)) {
    return false;
  }
  state.velocity = u;
  state.pose.tip_mm += step_s * velocity;
  state.pose.axis_out_unit = math::unit(frame.axis + step_s * math::cross(turning, frame.axis));
  return true;
}

math::Vector<kDof> balanced_velocity(const StepModel& model, const StepInput& input,
                                     const DrillState& state, const DrillFrame& frame,
                                     const GuideLimits& limits,
                                     const std::vector<Contact>& contacts) {
  System base;
  add_hand(base, model.hand, input, state, frame, model.step_s);
  add_rubbing(base, state, frame);
  base.add_wrench(state.cut_force_n, math::dot(state.cut_moment_nmm, frame.cross_1),
                  math::dot(state.cut_moment_nmm, frame.cross_2));
  const bool past = is_past(limits);
  math::Vector<kDof> u = state.velocity;
  for (int round = 0; round < kRounds; ++round) {
    System system = base;
    add_contacts(system, contacts, model.cutting.creep_speed_mm_per_s, u);
    for (int i = 0; i < limits.side_count; ++i) {
      add_limit(system, limits.sides[i], kSleeveStiffness_n_per_mm, model.step_s, u);
    }
    if (limits.has_stop) {
      add_limit(system, limits.stop, kStopStiffness_n_per_mm, model.step_s, u);
    }
    u = past ? slowed(system.solved(u)) : clamped(system.solved(u));
  }
  return u;
}

}  // namespace driftbench::drilling
