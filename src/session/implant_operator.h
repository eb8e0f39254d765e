// The virtual operator's hands while it places the implant.
#pragma once

#include "session/session.h"

#include <cstdint>

namespace driftbench::session {

/// How an operator holds the implant, drawn beforehand.
struct ImplantHold {
  math::Vec2 tip_mm{0.0};    ///< where the hole's mouth seems to be
  math::Vec2 lean_rad{0.0};  ///< as the hole seems to lean
  double press_n = 5.0;
  double misread_mm = 0.0;  ///< of the level of the platform, + deeper
  double reaction_s = 0.2;
};

/// Takes the planned implant, lowers it, turns it in until its platform looks level, and takes the
/// driver off. A motor that stops at 35 N cm is set to 50 once; then the implant stays too high.
class ImplantPlacing {
 public:
  /// `session` must outlive this object.
  ImplantPlacing(Session& session, const ImplantHold& hold);

  /// Does one action or one look's worth of it; false once the driver is off. Whether the attempt
  /// ended on the way stands in the session's phase.
  bool turn();

 private:
  enum class Stage { kTake, kLower, kTurnIn, kLetGo, kDone };

  void press(double press_n);
  void take();
  void start_motor();
  void look_at_lowering();
  void look_at_turning();
  void let_go();

  Session* session_;
  ImplantHold hold_;
  Stage stage_ = Stage::kTake;
  std::int64_t steps_left_ = 0;  ///< of the stage, before the hand gives up waiting
};

}  // namespace driftbench::session
