// Finds the velocity at which hand, material and guide are in balance.
#pragma once

#include "drilling/contact.h"
#include "drilling/step.h"

#include <vector>

namespace driftbench::drilling {

/// Stiffness of the stop on the sleeve or key: steel on resin. Own assumption.
inline constexpr double kStopStiffness_n_per_mm = 800.0;

/// Stiffness of drill, key and sleeve where they touch sideways: steel on steel in resin. Own
/// assumption; the guide gives way on its support besides (guide_body.h).
inline constexpr double kSleeveStiffness_n_per_mm = 800.0;

/// The limits that the guide sets in this step.
struct GuideLimits {
  SideLimit sides[2];
  int side_count = 0;
  SideLimit stop;
  bool has_stop = false;
};

/// Limits of the guide on a pose; none without a guide.
[[nodiscard]] GuideLimits guide_limits(const StepInput& input, const DrillPose& pose,
                                       const DrillFrame& frame);

/// What the guide does to the tool in it.
struct GuideReaction {
  math::Vec3 force_n{};
  math::Vec3 moment_nmm{};  ///< of it about the platform centre
  bool at_stop = false;
};

/// Reaction of all limits at the end of a step with velocity u.
[[nodiscard]] GuideReaction guide_reaction(const GuideLimits& limits, double step_s,
                                           const math::Vector<kDof>& u);

/// Lets a drill or implant move with velocity u for one step.
///
/// Errors: false when the velocity is not finite; the state is then left unchanged
[[nodiscard]] bool move(const DrillFrame& frame, const math::Vector<kDof>& u, double step_s,
                        DrillState& state);

/// Velocity in balance (MODEL section 7): every law is linearised at the last velocity and the 5 x
/// 5 system solved, a fixed number of times.
///
/// Unit:   mm/s and rad/s, see kDof. Cost: O(contacts), no allocation
[[nodiscard]] math::Vector<kDof> balanced_velocity(const StepModel& model, const StepInput& input,
                                                   const DrillState& state, const DrillFrame& frame,
                                                   const GuideLimits& limits,
                                                   const std::vector<Contact>& contacts);

}  // namespace driftbench::drilling
