// One millisecond of placing an implant: its thread bites, pulls it in, and the walls hold it.
#pragma once

#include "drilling/implant.h"
#include "drilling/step.h"

namespace driftbench::drilling {

/// What the thread has done to the wall. Decides, beside the DrillState, what happens next.
struct ThreadState {
  double damaged_mm2 = 0.0;  ///< engaged wall whose thread was sheared off
  double grip = 1.0;         ///< share of the engaged thread that holds, as of the last step
};

/// What acts in this step.
struct ImplantInput {
  const ImplantBody* body = nullptr;
  HandTarget hand;
  double feed_n = 0.0;  ///< along the implant into the material; negative lifts
  double grip_height_mm = 25.0;
  double rev_per_s = 0.0;  ///< + screws in
  const SleeveFit* guide = nullptr;
};

/// What the step felt and did.
struct ImplantOutput {
  double torque_nmm = 0.0;        ///< against the motor, >= 0; 0 while it does not turn
  double thrust_n = 0.0;          ///< of the floor on the flat end
  math::Vec3 side_force_n{};      ///< walls on implant, across
  math::Vec3 guide_force_n{};     ///< guide on the implant's carrier, whole vector
  math::Vec3 guide_moment_nmm{};  ///< of it about the platform centre
  double feed_mm_per_s = 0.0;
  double strength_mpa = 0.0;  ///< area mean over the engaged thread
  double engaged_mm2 = 0.0;   ///< envelope whose thread is in the wall
  double grip = 1.0;          ///< share of it that still holds; 0: stripped
  bool in_contact = false;
  bool at_stop = false;
  bool is_finite = true;
};

/// Advances the implant by model.step_s. The material is compacted, not removed: the hole stays as
/// it was drilled.
///
/// Frame:  site frame; state.pose.tip_mm is the centre of the implant's end. Equations: MODEL 11
/// Errors: is_finite = false when a result is not finite; the states are then left unchanged
/// Cost:   O(elements), no allocation after the first steps
[[nodiscard]] ImplantOutput advance_implant(const StepModel& model, const ImplantInput& input,
                                            DrillState& state, ThreadState& thread,
                                            const volume::Volume& volume, StepScratch& scratch);

}  // namespace driftbench::drilling
