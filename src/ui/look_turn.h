// How far a look is turned from where the operator stands, and how near it is taken.
#pragma once

namespace driftbench::ui {

struct LookTurn {
  double heading_deg = 0.0;    ///< + toward the operator's right
  double elevation_deg = 0.0;  ///< + from higher up
  double zoom = 1.0;           ///< 2: twice as near

  friend bool operator==(const LookTurn&, const LookTurn&) = default;
};

}  // namespace driftbench::ui
