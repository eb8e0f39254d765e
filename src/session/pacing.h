// Turns wall-clock time into a number of steps. The clock decides how many steps run, never what
// one does.
#pragma once

#include <cstdint>

namespace driftbench::session {

/// Most steps in one frame; beyond it time slows down visibly instead of jumping.
inline constexpr std::int64_t kMaxStepsPerFrame = 50;

class Pacing {
 public:
  /// Steps that are due after `elapsed_s` more of wall time (negative or huge values are clamped).
  [[nodiscard]] std::int64_t steps_due(double elapsed_s);

  /// Forgets any remainder (after a pause or a hidden tab).
  void rebase() { remainder_s_ = 0.0; }

  /// Share of real time reached in the last frame, 1 = real time.
  [[nodiscard]] double speed() const { return speed_; }

 private:
  double remainder_s_ = 0.0;
  double speed_ = 1.0;
};

}  // namespace driftbench::session
