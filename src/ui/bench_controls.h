// Turns pointer and key input into hand commands. Pure logic: no ImGui, no clock.
#pragma once

#include "record/trace.h"
#include "session/view.h"

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
  bool lean_button = false;  ///< right button or Shift
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
inline constexpr double kHandReach_mm = 15.0;                     ///< farthest target from the site
inline constexpr double kLeanReach_rad = 0.6;

/// Where the hand wants the drill, from relative motion.
///
/// Unit:  mm, rad, N; commands in um, urad, mN
/// Frame: site frame. Front look: right -> +x, up -> +y. Side look: right -> +y, up -> -x.
class BenchControls {
 public:
  /// A new or resumed attempt: the hand stands where the session has it, nothing is pressed.
  void start(const session::SessionView& view);

  /// Factor on the gains, 0.5..2.
  void set_gain(double factor);

  /// Before contact the motion places the tip, or leans with the lean button; in contact the same
  /// motion goes on moving the hand and the material turns it into lean. A press must begin in a
  /// picture and ends at once when the button is let go or the pointer leaves.
  void pointer(const PointerSample& sample, bool in_contact);

  void keys(const KeyInput& input);

  /// Press held on the gauge; 0: let go.
  void gauge(double press_n) { gauge_n_ = press_n; }

  /// Lets go of everything (Escape, blur).
  void release();

  [[nodiscard]] bool is_pressing() const {
    return pointer_pressing_ || key_pressing_ || gauge_n_ > 0.0;
  }

  /// The command to send this frame, when a quantised value changed.
  [[nodiscard]] std::optional<record::Command> command(double press_level_n);

 private:
  void move(double right, double away, Look look, double step);
  void lean(double right, double away, Look look, double step);

  double x_mm_ = 0.0;
  double y_mm_ = 0.0;
  double lean_x_rad_ = 0.0;
  double lean_y_rad_ = 0.0;
  double gain_ = 1.0;
  double gauge_n_ = 0.0;
  bool pointer_pressing_ = false;
  bool key_pressing_ = false;
  bool armed_ = false;  // the button was seen up inside a picture
  std::optional<PointerSample> last_;
  std::optional<record::Command> sent_;
};

}  // namespace driftbench::ui
