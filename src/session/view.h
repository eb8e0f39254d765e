// What the outside may see of a running attempt. Read-only; valid until the next advance or reset.
#pragma once

#include "drilling/pose.h"
#include "specimen/kit.h"
#include "volume/volume.h"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace driftbench::session {

/// Torques at which the motor with an implant stops: as it comes, and the most it can be set to
/// (50 N cm: beyond it, never force). Teaching values.
inline constexpr std::int32_t kUsualTorqueLimit_nmm = 350;
inline constexpr std::int32_t kLargestTorqueLimit_nmm = 500;

enum class Phase {
  kDrilling,  ///< commands are taken and steps run
  kFinished,  ///< the learner said done; nothing moves any more
  kStopped    ///< the step refused to go on (see StepStatus); the trace is kept
};

/// Why a step may refuse. Bits.
enum StepStatus : std::uint32_t {
  kStepOk = 0,
  kStepNotFinite = 1,  ///< a force or position was not finite
  kStepRunaway = 2     ///< the drill left the region that the simulation covers
};

/// The one thing the learner should do next. The interface turns it into a sentence.
enum class Hint {
  kTakeDrill,
  kPlaceGuide,
  kSeatGuide,  ///< a window shows a gap
  kHoldGuide,
  kKeyIn,
  kChangeKey,    ///< the key in the sleeve is another drill's: it comes out first
  kEngageDrill,  ///< guided: bring the drill into the key, motor still off
  kStopMotor,    ///< guided: it turns outside the key
  kStartMotor,
  kPressGuided,  ///< it turns in the key: press
  kPlaceTip,     ///< move over the site, then press
  kPressing,     ///< drilling goes on
  kNearDepth,    ///< numbers are shown: the planned depth is close
  kEaseOff,      ///< planned depth is reached, and told: numbers are shown, or the stop rests
  kTooDeep,      ///< numbers are shown: the planned depth is passed by more than the tolerance
  kThrough,      ///< out of the specimen's far side
  kJudgeDepth,   ///< nothing tells the depth: lift when it is judged deep enough
  kLift,
  kLifting,  ///< on its way out
  kNextDrill,
  kFinish,
  kRemoveGuide,  ///< the implant goes in by hand
  kRemoveKey,    ///< the implant's carrier needs the whole bore
  kTakeImplant,
  kLowerImplant,    ///< bring it into the hole
  kStartImplant,    ///< turn slowly
  kTurningImplant,  ///< the thread pulls it in
  kImplantTight,    ///< the motor stopped at its limit: back out, widen
  kStopImplant,     ///< the platform is level
  kReleaseImplant
};

/// State of the guide on the block.
struct GuideView {
  bool placed = false;
  bool held = false;
  std::array<double, 4> gap_mm{};  ///< under the feet at (+x+y, -x+y, -x-y, +x-y)
  std::int32_t key_index = -1;
  drilling::DrillPose sleeve;  ///< tip_mm: centre of the sleeve's lower edge, as it sits now
};

/// What the probe found.
struct ProbeReading {
  double floor_mm = 0.0;               ///< below the planned platform
  std::array<bool, 4> wall_present{};  ///< toward +x, +y, -x, -y
};

/// The direction pin in the hole.
struct PinView {
  drilling::DrillPose pose;  ///< tip_mm: its end on the floor
  double diameter_mm = 0.0;  ///< of the last drill
  double depth_mm = 0.0;     ///< of the floor below the planned platform
};

/// The implant on the driver or in the block.
struct ImplantView {
  std::int32_t index = -1;   ///< on the driver, in the kit; -1 none. Its pose is the view's pose
  bool is_seated = false;    ///< in the block, driver off
  drilling::DrillPose seat;  ///< where it sits then; tip_mm is the centre of its end
  std::int32_t seat_index = -1;    ///< in the kit
  double platform_depth_mm = 0.0;  ///< below the planned platform; negative above
  bool has_bitten = false;         ///< its thread is in the wall
  double torque_limit_nmm = 0.0;   ///< of the motor
  bool has_stalled = false;        ///< the motor stopped there and was not started since
  double peak_torque_nmm = 0.0;
  double final_torque_nmm = 0.0;                  ///< when it last turned inward
  double grip_frac = 1.0;                         ///< share of the thread that holds; 0: stripped
  std::span<const drilling::LoadSample> samples;  ///< while in hand, every kStepsPerSample steps
};

struct SessionView {
  Phase phase = Phase::kDrilling;
  std::uint32_t status = kStepOk;
  std::int64_t step = 0;
  double time_s = 0.0;
  const volume::Volume* volume = nullptr;  ///< never null in a view handed out
  drilling::DrillPose pose;
  math::Vec3 hand_tip_mm{};               ///< where the hand wants the tip (before drift)
  std::int32_t drill_index = -1;          ///< in the kit; -1 none in hand
  double stop_length_mm = 0.0;            ///< 0: no stop
  std::vector<std::int32_t> used_drills;  ///< that have cut, in order of first use
  double motor_rpm = 0.0;                 ///< signed, as it turns now
  double spin_rad = 0.0;                  ///< for drawing only
  bool irrigation = false;
  bool lifting = false;
  bool is_out = true;  ///< whole drill above the specimen (and guide)
  double shoulder_depth_mm =
      0.0;                    ///< of the full diameter below the planned platform; negative above
  bool at_stop = false;       ///< the stop rests on the key or sleeve
  drilling::LoadSample load;  ///< now
  GuideView guide;
  ImplantView implant;
  std::optional<ProbeReading> probe;
  std::optional<PinView> pin;  ///< while it stands
  Hint hint = Hint::kTakeDrill;
  std::span<const drilling::LoadSample> samples;  ///< every kStepsPerSample steps
};

}  // namespace driftbench::session
