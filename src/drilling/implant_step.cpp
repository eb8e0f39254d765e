#include "drilling/implant_step.h"

#include "drilling/balance.h"
#include "drilling/implant_contact.h"
#include "drilling/system.h"
#include "math/angle.h"

#include <algorithm>
#include <cmath>

namespace driftbench::drilling {
namespace {

/// Slip up to here is the give of a sound thread; beyond it the wall shears. Numerical.
constexpr double kSoundSlip_mm_per_s = 5.0 * kThreadCreep_mm_per_s;

/// Resistance against speed along the axis, whichever way.
void add_axial(const DrillFrame& frame, double resistance_ns_per_mm,
               std::vector<Contact>& contacts) {
  for (const double sign : {-1.0, 1.0}) {
    Contact contact = contact_along(sign * frame.axis, math::Vec3(0.0), frame);
    contact.slope_ns_per_mm = resistance_ns_per_mm;
    contacts.push_back(contact);
  }
}

/// Wall that the slipping thread shears in this step (eq. 26).
void damage(double slip_mm_per_s, double pitch_mm, double step_s, double engaged_mm2,
            ThreadState& thread) {
  const double sheared_mm = step_s * std::max(0.0, slip_mm_per_s - kSoundSlip_mm_per_s);
  if (thread.damaged_mm2 < engaged_mm2) {
    thread.damaged_mm2 =
        std::min(engaged_mm2, thread.damaged_mm2 + engaged_mm2 * sheared_mm / pitch_mm);
  }
}

double grip_of(const ThreadState& thread, double engaged_mm2) {
  return engaged_mm2 > 0.0 ? std::max(0.0, 1.0 - thread.damaged_mm2 / engaged_mm2) : 1.0;
}

}  // namespace

ImplantOutput advance_implant(const StepModel& model, const ImplantInput& input, DrillState& state,
                              ThreadState& thread, const volume::Volume& volume,
                              StepScratch& scratch) {
  const ImplantBody& body = *input.body;
  const DrillFrame frame = frame_of(state.pose);
  const bool turns = std::fabs(input.rev_per_s) > kStill_rev_per_s;
  const double grip = thread.grip;  // of the last step: it follows from what is engaged
  std::vector<Contact>& contacts = scratch.contacts;
  contacts.clear();
  const ThreadHold hold = find_wall(body, state.pose, frame, grip, model, volume, contacts);
  const std::size_t floor_begin = contacts.size();
  add_floor(body, state.pose, frame, input.rev_per_s, model, volume, contacts);
  const std::size_t floor_end = contacts.size();

  const double feed_before = feed_of(frame, state.velocity);
  const double wanted_mm_per_s = turns ? body.lead_mm_per_rev * input.rev_per_s : 0.0;
  const double slip_before = wanted_mm_per_s - feed_before;
  const double hold_n = grip * hold.shear_n + (slip_before < 0.0 ? hold.plough_n : 0.0);
  const double pull_ns_per_mm = hold_n / (std::fabs(slip_before) + kThreadCreep_mm_per_s);  // (23)
  const double edge_mm_per_s =
      2.0 * math::kPi * body.outline.radius_mm * std::fabs(input.rev_per_s);
  const double drag_ns_per_mm = kThreadFriction * hold.wall_n /
                                (std::fabs(feed_before) + edge_mm_per_s + kThreadCreep_mm_per_s);
  add_axial(frame, pull_ns_per_mm + drag_ns_per_mm, contacts);

  StepInput step;
  step.tool = &body.outline;
  step.hand = input.hand;
  step.feed_n = input.feed_n;
  step.grip_height_mm = input.grip_height_mm;
  step.guide = input.guide;
  DrillState balanced = state;
  balanced.cut_force_n = hold.force_n - pull_ns_per_mm * wanted_mm_per_s * frame.axis;
  balanced.cut_moment_nmm = hold.moment_nmm;
  balanced.rub_ns_per_mm = 0.0;
  const GuideLimits limits = guide_limits(step, state.pose, frame);
  const math::Vector<kDof> u = balanced_velocity(model, step, balanced, frame, limits, contacts);

  ImplantOutput output;
  output.is_finite = move(frame, u, model.step_s, state);
  if (!output.is_finite) {
    return output;
  }
  math::Vec3 wall = hold.force_n;
  double floor_nmm = 0.0;
  for (std::size_t i = 0; i < floor_end; ++i) {
    const Contact& contact = contacts[i];
    const double force_n =
        normal_force_n(contact, along(contact.row, u), model.cutting.creep_speed_mm_per_s);
    if (i < floor_begin) {
      wall -= force_n * contact.normal;
    } else {
      output.thrust_n += force_n;
      floor_nmm += kThreadFriction * force_n * math::length(contact.lever_mm);
    }
  }
  output.feed_mm_per_s = feed_of(frame, u);
  output.side_force_n = wall - math::dot(wall, frame.axis) * frame.axis;
  output.engaged_mm2 = hold.engaged_mm2;
  output.in_contact = floor_end > 0;
  output.strength_mpa = hold.engaged_mm2 > 0.0 ? hold.strength_area_n / hold.engaged_mm2 : 0.0;
  const GuideReaction reaction = guide_reaction(limits, model.step_s, u);
  output.guide_force_n = reaction.force_n;
  output.guide_moment_nmm = reaction.moment_nmm;
  output.at_stop = reaction.at_stop;
  const double slip = wanted_mm_per_s - output.feed_mm_per_s;
  if (turns) {
    const double advance_mm =
        std::clamp(output.feed_mm_per_s / input.rev_per_s, 0.0, body.lead_mm_per_rev);
    const double forming_nmm =
        input.rev_per_s > 0.0 ? hold.forming_nmm_per_mm * advance_mm / (2.0 * math::kPi) : 0.0;
    const double sense = input.rev_per_s > 0.0 ? 1.0 : -1.0;
    const double pulling_nmm =
        std::max(0.0, sense * pull_ns_per_mm * slip) * body.lead_mm_per_rev / (2.0 * math::kPi);
    output.torque_nmm = hold.friction_nmm + forming_nmm + pulling_nmm + floor_nmm;
  }
  damage(std::fabs(slip), body.pitch_mm, model.step_s, hold.engaged_mm2, thread);
  thread.grip = grip_of(thread, hold.engaged_mm2);
  output.grip = thread.grip;
  return output;
}

}  // namespace driftbench::drilling
