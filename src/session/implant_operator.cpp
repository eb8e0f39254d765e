#include "session/implant_operator.h"

#include "lesson/instruments.h"
#include "session/operator_hands.h"

namespace driftbench::session {
namespace {

constexpr std::int64_t kLonger_steps = 400;  // between two actions
constexpr std::int64_t kLowering_steps = 5'000;
constexpr std::int64_t kTurning_steps = 120'000;
constexpr double kStepsPerSecond = 1e3;

void press(Session& session, const ImplantHold& hold, double press_n) {
  move_hand(session, hold.tip_mm, hold.lean_rad, press_n);
}

bool goes_on(const Session& session) {
  return session.view().phase == Phase::kDrilling;
}

/// Turns it in; stops where the platform looks level or the flange rests on the sleeve.
void turn_in(Session& session, const ImplantHold& hold, std::int32_t speed_rpm) {
  give(session, record::Op::kMotor, {speed_rpm});
  for (std::int64_t i = 0; i < kTurning_steps && goes_on(session); i += kLook_steps) {
    press(session, hold, hold.press_n);
    session.advance(kLook_steps);
    const ImplantView& implant = session.view().implant;
    if (implant.has_stalled) {
      if (implant.torque_limit_nmm >= kLargestTorqueLimit_nmm) {
        return;
      }
      give(session, record::Op::kTorqueLimit, {kLargestTorqueLimit_nmm});
      give(session, record::Op::kMotor, {speed_rpm});
    } else if (session.view().at_stop || implant.platform_depth_mm >= hold.misread_mm) {
      return;
    }
  }
}

}  // namespace

bool place_implant(Session& session, const ImplantHold& hold) {
  const lesson::AttemptSetup& setup = session.setup();
  const specimen::Implant* implant = lesson::implant_of(setup);
  if (implant == nullptr) {
    return goes_on(session);
  }
  if (session.view().guide.placed) {
    if (setup.implant_through_guide) {
      give(session, record::Op::kKey, {-1});
    } else {
      give(session, record::Op::kPlaceGuide, {0});
    }
  }
  press(session, hold, 0.0);
  give(session, record::Op::kTakeImplant, {lesson::implant_index_of(setup)});
  session.advance(kLonger_steps);
  press(session, hold, hold.press_n);
  for (std::int64_t i = 0;
       i < kLowering_steps && !session.view().load.in_contact && goes_on(session);
       i += kLook_steps) {
    session.advance(kLook_steps);
  }
  turn_in(session, hold, rounded(specimen::thread_of(*implant).speed_rpm));
  session.advance(rounded(hold.reaction_s * kStepsPerSecond));
  give(session, record::Op::kMotor, {0});
  press(session, hold, 0.0);
  session.advance(kLonger_steps);
  give(session, record::Op::kReleaseImplant);
  return goes_on(session);
}

}  // namespace driftbench::session
