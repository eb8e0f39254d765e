// Everything that changes while an attempt runs, and the constants it runs on.
#pragma once

#include "drilling/guide_body.h"
#include "drilling/hand.h"
#include "drilling/implant_step.h"
#include "drilling/step.h"
#include "drilling/tool.h"
#include "lesson/attempt_setup.h"
#include "record/attempt.h"
#include "session/view.h"
#include "volume/volume.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace driftbench::session {

/// Derived from the set-up once; const while the attempt runs.
struct AttemptModel {
  lesson::AttemptSetup setup;
  drilling::StepModel step;
  std::vector<drilling::Tool> tools;            ///< one per drill of the kit
  std::vector<drilling::ImplantBody> implants;  ///< one per implant of the kit
  const specimen::Sleeve* sleeve = nullptr;     ///< null: the approach has no guide
  double surface_top_mm = 0.0;                  ///< highest point of the specimen
};

/// The implant: on the driver, or where it sits.
struct ImplantState {
  bool was_asked = false;   ///< a command of the implant was ever taken
  std::int32_t index = -1;  ///< in the kit, on the driver; -1 none
  bool is_seated = false;   ///< left in the block
  drilling::DrillPose seat;
  std::int32_t seat_index = -1;
  drilling::ThreadState thread;
  double engaged_mm2 = 0.0;                         ///< thread in the wall
  double torque_limit_nmm = kUsualTorqueLimit_nmm;  ///< of the motor
  bool has_stalled = false;  ///< the motor stopped at its limit and was not started since
  double peak_torque_nmm = 0.0;
  double final_torque_nmm = 0.0;  ///< when it last turned inward
  std::vector<drilling::LoadSample> samples;
};

/// State of one attempt. The state hash covers all of it that decides what happens next.
struct AttemptState {
  volume::Volume volume;
  volume::VoxelBox touched;  ///< every voxel that was ever changed
  drilling::Hand hand;
  std::optional<drilling::GuideBody> guide;
  drilling::DrillState drill;  ///< or the implant on the driver
  ImplantState implant;
  drilling::StepScratch scratch;
  drilling::StepOutput output;  ///< of the last step

  drilling::HandCommand command;
  double motor_target_rpm = 0.0;
  double motor_rpm = 0.0;
  double spin_rad = 0.0;
  bool irrigation = false;
  bool lifting = false;
  std::int32_t drill_index = -1;
  double stop_length_mm = 0.0;
  std::int32_t key_index = -1;
  math::Vec2 finger_mm{0.0};
  double finger_n = 0.0;
  bool guide_held = false;

  std::vector<std::int32_t> used_drills;
  drilling::DrillPose deepest;  ///< pose of the deepest tip so far, for the probe
  std::optional<ProbeReading> probe;
  std::optional<PinView> pin;  ///< while it stands
  std::int64_t step = 0;
  Phase phase = Phase::kDrilling;
  std::uint32_t status = kStepOk;

  std::vector<drilling::LoadSample> samples;
  record::Trace trace;
  std::vector<record::StateHash> hashes;
};

/// Height above which the tip of a drill is clear of specimen and guide.
[[nodiscard]] double clearance_mm(const AttemptModel& model, const AttemptState& state);

/// Whether a drill or an implant is in hand.
[[nodiscard]] bool has_tool(const AttemptState& state);

/// Lets the settled hand hold what was just taken above the site: still, fresh but for its heat.
void hold_above_site(const AttemptModel& model, double heat_degc, AttemptState& state);

/// True while nothing is in hand, or what is in hand is clear.
[[nodiscard]] bool is_out(const AttemptModel& model, const AttemptState& state);

/// Depth of the full diameter below the planned platform.
[[nodiscard]] double shoulder_depth_mm(const AttemptModel& model, const AttemptState& state);

/// The kit's drill in hand; null when there is none.
[[nodiscard]] const specimen::Drill* drill_in_hand(const AttemptModel& model,
                                                   const AttemptState& state);

/// The key in the sleeve; null when there is none.
[[nodiscard]] const specimen::Key* key_in_sleeve(const AttemptModel& model,
                                                 const AttemptState& state);

/// 64-bit hash of the state.
[[nodiscard]] std::uint64_t hash_of(const AttemptState& state);

}  // namespace driftbench::session
