#include "app/sound.h"

#include "ui/motor_sound.h"

namespace driftbench::app {

platform::Sound sound_of(const session::SessionView& view, const lesson::AttemptSetup& setup,
                         bool muted) {
  const ui::MotorSound heard = ui::motor_sound(view, setup);
  platform::Sound sound;
  sound.muted = muted;
  sound.motor_share = heard.motor_share;
  sound.load_share = heard.load_share;
  sound.roughness_share = heard.roughness_share;
  sound.irrigation = view.irrigation && heard.motor_share > 0.0;
  return sound;
}

}  // namespace driftbench::app
