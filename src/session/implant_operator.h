// The virtual operator's hands while it places the implant.
#pragma once

#include "session/session.h"

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
///
/// Result: false when the attempt ended on the way
bool place_implant(Session& session, const ImplantHold& hold);

}  // namespace driftbench::session
