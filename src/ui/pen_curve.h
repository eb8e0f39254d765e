// What a pen's pressure and tilt mean to the hand: a calibration-free curve and a soft lean.
#pragma once

namespace driftbench::ui {

/// A pen's own numbers at one moment.
struct PenReading {
  double pressure = 0.5;    ///< 0..1; exactly 0.5 while down where there is no sensor
  double tilt_x_deg = 0.0;  ///< its upper end to the right; 0 where there is no sensor
  double tilt_y_deg = 0.0;  ///< its upper end toward the person
};

// Own assumptions: people rest a pen at a few per cent and dislike more than about 85 %.
inline constexpr double kPenRest = 0.06;     ///< pressure up to which the pen only rests
inline constexpr double kPenFull = 0.85;     ///< pressure of the hardest press
inline constexpr double kPenHardest_n = 30;  ///< as the hardest level of the other devices
inline constexpr double kPenStep_n = 0.25;   ///< finer steps are noise of the sensor
// Own assumptions: half of the tilt, softly bounded, so that a relaxed grip cannot lean by
// accident.
inline constexpr double kPenLeanGain = 0.5;
inline constexpr double kPenLeanMost_deg = 25.0;

/// Press for a pen's pressure: nothing while it rests, gently rising, bounded; in steps of
/// kPenStep_n.
///
/// Unit: N
[[nodiscard]] double pen_press_n(double pressure);

/// Lean of the hand for a tilt from the pen's neutral; odd, rising, within kPenLeanMost_deg.
///
/// Unit: deg in, rad out
[[nodiscard]] double pen_lean_rad(double tilt_from_neutral_deg);

/// Finds out whether a pen has a pressure sensor: without one its pressure is 0.5 for ever.
class PenSensor {
 public:
  /// Contract: the pen is down.
  void see(double pressure) { has_pressure_ = has_pressure_ || pressure != 0.5; }

  [[nodiscard]] bool has_pressure() const { return has_pressure_; }

 private:
  bool has_pressure_ = false;
};

}  // namespace driftbench::ui
