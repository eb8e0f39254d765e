// One millisecond of drilling: what the hand wants, what material and guide allow, what is removed.
#pragma once

#include "drilling/contact.h"
#include "drilling/hand.h"
#include "drilling/params.h"
#include "drilling/pose.h"
#include "drilling/sleeve_fit.h"
#include "drilling/tool.h"
#include "math/solve.h"
#include "volume/volume.h"

#include <cstdint>
#include <vector>

namespace driftbench::drilling {

/// What changes from step to step. Everything that decides the next step is in here or in the
/// volume.
struct DrillState {
  DrillPose pose;
  math::Vector<kDof> velocity{};  ///< of the last step; start of the next solve
  DrillPose body_stamped;  ///< pose at which the whole drill was last removed from the material
  math::Vec3 tip_stamped_mm{};  ///< tip when its point last was
  bool has_stamped = false;
  math::Vec3 cut_force_n{};     ///< sideways cutting force, lagging by half a revolution
  math::Vec3 cut_moment_nmm{};  ///< about the tip
  double rub_ns_per_mm = 0.0;   ///< sideways friction of the turning point per sideways speed
  double swept_mean_mm3 = 0.0;  ///< running means over kBalanceTime_s, of what the elements swept
  double lost_mean_mm3 = 0.0;   ///< and of what the material really lost
  double area_factor = 1.0;  ///< their ratio: makes swept and lost volume agree (MODEL section 7)
  double heat_degc = 0.0;    ///< illustrative, see MODEL.md
};

/// Constants and helpers of an attempt; const during a step.
struct StepModel {
  double step_s = kStep_s;  ///< another one only to study how results depend on it
  HandParams hand;
  CuttingParams cutting;
  StrengthTable strength;
};

/// What acts in this step.
struct StepInput {
  const Tool* tool = nullptr;
  HandTarget hand;
  double feed_n = 0.0;  ///< along the drill into the material; negative lifts
  double grip_height_mm = 25.0;
  Spin spin;
  const SleeveFit* guide = nullptr;  ///< null: nothing guides
  double ambient_degc = 22.0;
  bool irrigation = false;
  std::uint16_t removal_tick = 0;
};

/// What the step felt and did.
struct StepOutput {
  double thrust_n = 0.0;          ///< material on drill, along its axis
  math::Vec3 side_force_n{};      ///< material on drill, across
  math::Vec3 guide_force_n{};     ///< guide on drill, whole vector
  math::Vec3 guide_moment_nmm{};  ///< of it about the platform centre
  double torque_nmm = 0.0;
  double strength_mpa = 0.0;  ///< area mean under the point
  double feed_mm_per_s = 0.0;
  double swept_mm3 = 0.0;           ///< volume that the contacts advanced into
  double work_mj = 0.0;             ///< done by the contacts' resistance in this step, >= 0
  std::uint64_t lost_coverage = 0;  ///< coverage units removed
  bool in_contact = false;
  bool at_stop = false;
  bool is_finite = true;
};

/// Buffers kept between steps so that nothing is allocated at 1 kHz.
struct StepScratch {
  std::vector<Contact> contacts;
};

/// Advances the drill by one step, model.step_s.
///
/// Frame:  site frame. Equations: MODEL.md 2 to 9
/// Errors: is_finite = false when a result is not finite; state and volume are then left unchanged
/// Cost:   O(elements + voxels near the moved surface), no allocation after the first steps
[[nodiscard]] StepOutput advance(const StepModel& model, const StepInput& input, DrillState& state,
                                 volume::Volume& volume, StepScratch& scratch);

}  // namespace driftbench::drilling
