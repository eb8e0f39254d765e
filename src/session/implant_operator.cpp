#include "session/implant_operator.h"

#include <cmath>

namespace driftbench::session {
namespace {

constexpr std::int64_t kLook_steps = 20;     // as in virtual_operator.cpp
constexpr std::int64_t kLonger_steps = 400;  // between two actions
constexpr std::int64_t kLowering_steps = 5'000;
constexpr std::int64_t kTurning_steps = 120'000;
constexpr std::int32_t kLastLimit_nmm = 500;
constexpr double kUnitsPerSmall = 1e6;  // um per m, urad per rad
constexpr double kMilli = 1e3;

std::int32_t rounded(double value) {
  return static_cast<std::int32_t>(std::floor(value + 0.5));
}

void give(Session& session, record::Op op,
          std::array<std::int32_t, record::kMaxArguments> arguments = {}) {
  // A refused command changes nothing; the operator goes on with what is there.
  static_cast<void>(session.submit({op, arguments}));
}

void move_hand(Session& session, const ImplantHold& hold, double press_n) {
  give(session, record::Op::kHand,
       {rounded(hold.tip_mm.x * kMilli), rounded(hold.tip_mm.y * kMilli),
        rounded(hold.lean_rad.x * kUnitsPerSmall), rounded(hold.lean_rad.y * kUnitsPerSmall),
        rounded(press_n * kMilli)});
}

std::int32_t planned_implant(const lesson::AttemptSetup& setup) {
  const auto& implants = setup.kit.implants;
  for (std::size_t i = 0; i < implants.size(); ++i) {
    if (implants[i].id == setup.plan.implant_id) {
      return static_cast<std::int32_t>(i);
    }
  }
  return -1;
}

bool goes_on(const Session& session) {
  return session.view().phase == Phase::kDrilling;
}

/// Turns it in; stops where the platform looks level or the flange rests on the sleeve.
void turn_in(Session& session, const ImplantHold& hold, std::int32_t speed_rpm) {
  give(session, record::Op::kMotor, {speed_rpm});
  for (std::int64_t i = 0; i < kTurning_steps && goes_on(session); i += kLook_steps) {
    move_hand(session, hold, hold.press_n);
    session.advance(kLook_steps);
    const ImplantView& implant = session.view().implant;
    if (implant.has_stalled) {
      if (implant.torque_limit_nmm >= kLastLimit_nmm) {
        return;
      }
      give(session, record::Op::kTorqueLimit, {kLastLimit_nmm});
      give(session, record::Op::kMotor, {speed_rpm});
    } else if (session.view().at_stop || implant.platform_depth_mm >= hold.misread_mm) {
      return;
    }
  }
}

}  // namespace

bool place_implant(Session& session, const ImplantHold& hold) {
  const lesson::AttemptSetup& setup = session.setup();
  const std::int32_t index = planned_implant(setup);
  if (index < 0) {
    return goes_on(session);
  }
  if (session.view().guide.placed) {
    if (setup.implant_through_guide) {
      give(session, record::Op::kKey, {-1});
    } else {
      give(session, record::Op::kPlaceGuide, {0});
    }
  }
  move_hand(session, hold, 0.0);
  give(session, record::Op::kTakeImplant, {index});
  session.advance(kLonger_steps);
  move_hand(session, hold, hold.press_n);
  for (std::int64_t i = 0;
       i < kLowering_steps && !session.view().load.in_contact && goes_on(session);
       i += kLook_steps) {
    session.advance(kLook_steps);
  }
  const specimen::ImplantThread thread =
      specimen::thread_of(setup.kit.implants[static_cast<std::size_t>(index)]);
  turn_in(session, hold, rounded(thread.speed_rpm));
  session.advance(rounded(hold.reaction_s * kMilli));
  give(session, record::Op::kMotor, {0});
  move_hand(session, hold, 0.0);
  session.advance(kLonger_steps);
  give(session, record::Op::kReleaseImplant);
  return goes_on(session);
}

}  // namespace driftbench::session
