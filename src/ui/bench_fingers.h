// Which control each finger holds, and what its motion does there. Pure logic: no ImGui, no clock.
#pragma once

#include "ui/bench_controls.h"
#include "ui/look_turn.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace driftbench::ui {

/// What a finger came down on; it keeps that until it is lifted.
enum class FingerHold { kNothing, kFront, kSide, kLean, kPress };

/// One reading of one finger.
struct FingerReading {
  std::int32_t id = 0;
  double x_px = 0.0;  ///< in the page, logical px
  double y_px = 0.0;  ///< downward
  bool is_down = false;
  FingerHold under = FingerHold::kNothing;  ///< what lies there
};

// A head turns, it does not walk round the block. Own assumptions.
inline constexpr double kTurnMost_deg = 35.0;
inline constexpr double kTurnUpMost_deg = 35.0;
inline constexpr double kTurnDownMost_deg = 15.0;
inline constexpr double kZoomLeast = 0.7;
inline constexpr double kZoomMost = 3.0;
inline constexpr double kTurn_deg_per_px = 0.2;

/// A look turned further and taken from nearer by a factor, within a head's reach.
[[nodiscard]] LookTurn turned(LookTurn turn, double heading_deg, double elevation_deg, double zoom);

/// One finger on a look steers, two on the same look turn and zoom it; another on the pad leans,
/// and one on the gauge presses while it is there.
class BenchFingers {
 public:
  void feed(const FingerReading& reading, bool in_contact, BenchControls& controls);

  /// All fingers are gone (cancelled, blur).
  void release() { fingers_.clear(); }

  /// Where the finger on the gauge is, in the page; none: nothing presses.
  [[nodiscard]] std::optional<double> press_x_px() const;

  [[nodiscard]] bool any() const { return !fingers_.empty(); }

  [[nodiscard]] const LookTurn& front() const { return front_; }

  [[nodiscard]] const LookTurn& side() const { return side_; }

  void turn(Look look, double heading_deg, double elevation_deg, double zoom);

  void straighten() { front_ = side_ = {}; }

 private:
  struct Finger {
    FingerReading at;
    FingerHold hold = FingerHold::kNothing;
  };

  [[nodiscard]] const Finger* other_on(const Finger& finger) const;
  void pinch(const Finger& before, const FingerReading& now, const Finger& other);

  std::vector<Finger> fingers_;
  LookTurn front_;
  LookTurn side_;
};

}  // namespace driftbench::ui
