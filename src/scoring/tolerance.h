// The tolerances a lesson sets. Teaching values, not clinical limits.
#pragma once

namespace driftbench::scoring {

struct Tolerance {
  double entry_mm = 1.0;  ///< perpendicular lateral distance at the platform
  double apex_mm = 1.5;   ///< perpendicular lateral distance at the apex
  double angle_deg = 5.0;
  double depth_low_mm = -1.0;  ///< depth error, + deeper
  double depth_high_mm = 0.5;

  friend bool operator==(const Tolerance&, const Tolerance&) = default;
};

}  // namespace driftbench::scoring
