// What the motor's sound tells of the material: as numbers, as a drawing, as words.
#pragma once

#include "lesson/attempt_setup.h"
#include "session/view.h"
#include "ui/layout.h"
#include "ui/strings.h"

#include <optional>

namespace driftbench::ui {

struct Frame;

/// What is heard of the motor; all 0 where nothing is.
struct MotorSound {
  double motor_share = 0.0;      ///< speed over the usual one
  double load_share = 0.0;       ///< how much the motor is held back, 0..1: the pitch falls
  double roughness_share = 0.0;  ///< how hard the touched material is, 0..1
};

/// The sound of this moment; silent where the lesson gives none.
///
/// Contract: view of a session with this set-up.
[[nodiscard]] MotorSound motor_sound(const session::SessionView& view,
                                     const lesson::AttemptSetup& setup);

/// Draws the sound into a corner of a look, for who cannot hear it: closer waves are a higher
/// pitch, torn ones a rougher tone.
void sound_trace(const Frame& frame, const Rect& look);

/// Notices when the material under the point became denser or softer, as an ear does.
class Listener {
 public:
  /// Takes in one frame's sound; a sentence when it changed clearly, else nothing.
  [[nodiscard]] std::optional<Str> hear(const MotorSound& sound);

 private:
  double told_ = 0.0;  ///< roughness that was last told; 0: not in contact
  double now_ = 0.0;   ///< smoothed
};

}  // namespace driftbench::ui
