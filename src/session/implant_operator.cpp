#include "session/implant_operator.h"

#include "lesson/instruments.h"
#include "session/operator_hands.h"

namespace driftbench::session {
namespace {

constexpr std::int64_t kLonger_steps = 400;  // between two actions
constexpr std::int64_t kLowering_steps = 5'000;
constexpr std::int64_t kTurning_steps = 120'000;
constexpr double kStepsPerSecond = 1e3;

}  // namespace

ImplantPlacing::ImplantPlacing(Session& session, const ImplantHold& hold)
    : session_(&session), hold_(hold) {}

void ImplantPlacing::press(double press_n) {
  move_hand(*session_, hold_.tip_mm, hold_.lean_rad, press_n);
}

bool ImplantPlacing::turn() {
  switch (stage_) {
    case Stage::kTake:
      take();
      break;
    case Stage::kLower:
      look_at_lowering();
      break;
    case Stage::kTurnIn:
      look_at_turning();
      break;
    case Stage::kLetGo:
      let_go();
      break;
    case Stage::kDone:
      break;
  }
  return stage_ != Stage::kDone;
}

void ImplantPlacing::take() {
  const lesson::AttemptSetup& setup = session_->setup();
  if (lesson::implant_of(setup) == nullptr) {
    stage_ = Stage::kDone;
    return;
  }
  if (session_->view().guide.placed) {
    if (setup.implant_through_guide) {
      give(*session_, record::Op::kKey, {-1});
    } else {
      give(*session_, record::Op::kPlaceGuide, {0});
    }
  }
  press(0.0);
  give(*session_, record::Op::kTakeImplant, {lesson::implant_index_of(setup)});
  session_->advance(kLonger_steps);
  press(hold_.press_n);
  steps_left_ = kLowering_steps;
  stage_ = Stage::kLower;
}

void ImplantPlacing::look_at_lowering() {
  const bool goes_on = session_->view().phase == Phase::kDrilling;
  if (steps_left_ > 0 && !session_->view().load.in_contact && goes_on) {
    session_->advance(kLook_steps);
    steps_left_ -= kLook_steps;
    return;
  }
  start_motor();
  steps_left_ = kTurning_steps;
  stage_ = Stage::kTurnIn;
}

void ImplantPlacing::start_motor() {
  const specimen::Implant* implant = lesson::implant_of(session_->setup());
  give(*session_, record::Op::kMotor, {rounded(specimen::thread_of(*implant).speed_rpm)});
}

/// Stops where the platform looks level or the flange rests on the sleeve.
void ImplantPlacing::look_at_turning() {
  if (steps_left_ <= 0 || session_->view().phase != Phase::kDrilling) {
    stage_ = Stage::kLetGo;
    return;
  }
  press(hold_.press_n);
  session_->advance(kLook_steps);
  steps_left_ -= kLook_steps;
  const ImplantView& implant = session_->view().implant;
  if (implant.has_stalled) {
    if (implant.torque_limit_nmm >= kLargestTorqueLimit_nmm) {
      stage_ = Stage::kLetGo;
      return;
    }
    give(*session_, record::Op::kTorqueLimit, {kLargestTorqueLimit_nmm});
    start_motor();
  } else if (session_->view().at_stop || implant.platform_depth_mm >= hold_.misread_mm) {
    stage_ = Stage::kLetGo;
  }
}

void ImplantPlacing::let_go() {
  session_->advance(rounded(hold_.reaction_s * kStepsPerSecond));
  give(*session_, record::Op::kMotor, {0});
  press(0.0);
  session_->advance(kLonger_steps);
  give(*session_, record::Op::kReleaseImplant);
  stage_ = Stage::kDone;
}

}  // namespace driftbench::session
