// Turns what mouse, pen, finger, gamepad and keys do into hand commands. Pure logic: no ImGui, no
// clock.
#pragma once

#include "record/trace.h"
#include "session/view.h"
#include "ui/pen_curve.h"

#include <cstdint>
#include <optional>

namespace driftbench::ui {

/// Which picture the pointer is over.
enum class Look {
  kNone,
  kFront,  ///< operator at -y looks toward +y
  kSide    ///< from +x, looks toward -x
};

/// One reading of the pointer.
struct PointerSample {
  double x_px = 0.0;        ///< in the page, logical px, fractions kept
  double y_px = 0.0;        ///< downward
  Look look = Look::kNone;  ///< kNone: outside, cancelled, or the page lost the focus
  bool press_button = false;
  bool lean_button = false;       ///< right button or Shift
  bool began = false;             ///< the press begins with this reading
  bool at_drill = true;           ///< near enough to the drill in the picture to take hold of it
  std::optional<PenReading> pen;  ///< of a pen
};

/// A motion in a picture, as it is seen.
struct Motion {
  double right = 0.0;
  double away = 0.0;  ///< from the person, up in the picture
};

/// Where the two looks are taken from: 0 is the operator's place, 90 their right side.
struct Headings {
  double front_deg = 0.0;
  double side_deg = 90.0;
};

/// What a gamepad did since the last frame.
struct PadInput {
  Motion move_s;         ///< how far and how long a stick was out: 1 for a second is 1
  Motion lean_s;         ///< the same of the other stick
  double trigger = 0.0;  ///< now, 0..1
};

/// Keys of one frame.
struct KeyInput {
  int right = 0;       ///< arrow presses, + right
  int away = 0;        ///< + away from the operator (up)
  bool fine = false;   ///< Shift
  bool lean = false;   ///< T held: arrows lean instead of moving
  bool press = false;  ///< X held
};

inline constexpr int kPressLevels = 8;

/// Press that a level gives: 4 N to 30 N in equal steps. Contract: 0 <= level < kPressLevels.
[[nodiscard]] double press_of_level_n(int level);

/// Level whose press is nearest.
[[nodiscard]] int level_of_press(double press_n);

inline constexpr double kHandGain_mm_per_px = 0.05;     ///< about the scale of the front look
inline constexpr double kLeanGain_rad_per_px = 0.0025;  ///< 100 px lean by 14 degrees
inline constexpr double kKeyStep_mm = 0.25;
inline constexpr double kKeyStepFine_mm = 0.05;
inline constexpr double kKeyLean_rad = 0.017453292519943295;      ///< 1 degree
inline constexpr double kKeyLeanFine_rad = 0.004363323129985824;  ///< 0.25 degree
inline constexpr double kPadMove_mm_per_s = 6.0;   ///< stick all the way out; own assumption
inline constexpr double kPadLean_rad_per_s = 0.3;  ///< own assumption
inline constexpr double kPadHardest_n = 30.0;      ///< trigger all the way in
inline constexpr double kHandReach_mm = 15.0;      ///< farthest target from the site
inline constexpr double kLeanReach_rad = 0.6;

/// Where the hand wants the drill, from relative motion.
///
/// Unit:  mm, rad, N; commands in um, urad, mN
/// Frame: site frame. Front look: right -> +x, up -> +y. Side look: right -> +y, up -> -x. Looks
/// that
///        are turned turn the motion with them.
class BenchControls {
 public:
  /// A new or resumed attempt: the hand stands where the session has it, nothing is pressed.
  void start(const session::SessionView& view);

  /// Factor on the gains, 0.5..2.
  void set_gain(double factor);

  void look_from(const Headings& headings) { headings_ = headings; }

  /// The hand takes hold where the pointer meets the drill, or presses; from there to the look's
  /// edge it follows. Before contact the motion places the tip, or leans with the lean button; in
  /// contact the same motion goes on moving the hand and the material turns it into lean. A press
  /// must begin in a picture and ends at once when the button is let go or the pointer leaves. A
  /// pen that has sensors presses by its pressure, and its tilt from where it came down leans.
  void pointer(const PointerSample& sample, bool in_contact);

  /// A finger's drag, in logical px. As pointer(), but it cannot press.
  void drag(const Motion& px, Look look, bool leans, bool in_contact);

  void keys(const KeyInput& input);

  void pad(const PadInput& input);

  /// Press held on the gauge; 0: let go.
  void gauge(double press_n) { gauge_n_ = press_n; }

  /// Lets go of everything (Escape, blur).
  void release();

  /// Whether the drill follows the pointer.
  [[nodiscard]] bool has_hold() const { return has_hold_; }

  [[nodiscard]] bool is_pressing() const {
    constexpr double kAnyLevel_n = 1.0;
    return press_of(kAnyLevel_n) > 0.0;
  }

  /// Lean that is asked for, toward +x and +y.
  [[nodiscard]] double lean_x_rad() const { return lean_x_rad_; }

  [[nodiscard]] double lean_y_rad() const { return lean_y_rad_; }

  /// The command to send this frame, when a quantised value changed.
  [[nodiscard]] std::optional<record::Command> command(double press_level_n);

 private:
  [[nodiscard]] Motion in_site(const Motion& seen, Look look) const;
  [[nodiscard]] double press_of(double press_level_n) const;
  void move(const Motion& seen, Look look, double step);
  void lean(const Motion& seen, Look look, double step);
  void pen(const PenReading& now, Look look);
  void let_go_of_pointer();

  double x_mm_ = 0.0;
  double y_mm_ = 0.0;
  double lean_x_rad_ = 0.0;
  double lean_y_rad_ = 0.0;
  double gain_ = 1.0;
  Headings headings_;
  double gauge_n_ = 0.0;
  double pad_n_ = 0.0;
  std::optional<double> pen_n_;  // press of a pen that has a sensor
  std::optional<PenReading> pen_neutral_;
  Motion pen_lean_rad_;  // given since it came down
  PenSensor pen_sensor_;
  bool pointer_pressing_ = false;
  bool key_pressing_ = false;
  bool has_hold_ = false;
  bool armed_ = false;  // the button was seen up inside a picture
  std::optional<PointerSample> last_;
  std::optional<record::Command> sent_;
};

}  // namespace driftbench::ui
