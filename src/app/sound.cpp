#include "app/sound.h"

#include "specimen/material.h"

#include <algorithm>
#include <cmath>

namespace driftbench::app {
namespace {

// Power at which the pitch has fallen all the way; own assumption (a small motor of some tens of
// watts).
constexpr double kFullLoad_w = 20.0;

}  // namespace

platform::Sound sound_of(const session::SessionView& view, const lesson::AttemptSetup& setup,
                         bool muted) {
  platform::Sound sound;
  sound.muted = muted;
  if (!setup.show.sound || view.phase != session::Phase::kDrilling || view.drill_index < 0) {
    return sound;
  }
  const specimen::Drill& drill = setup.kit.drills[static_cast<std::size_t>(view.drill_index)];
  const double usual_rpm = std::max(drill.speed_rpm, 1.0);
  sound.motor_share = std::clamp(std::abs(view.motor_rpm) / usual_rpm, 0.0, 2.0);
  sound.irrigation = view.irrigation && view.motor_rpm != 0.0;
  if (view.load.in_contact) {
    const double densest_g_per_cm3 =
        specimen::foam_grade(specimen::DensityClass::kD1).density_mg_per_cm3 / 1000.0;
    sound.load_share = std::clamp(view.load.power_w / kFullLoad_w, 0.0, 1.0);
    sound.roughness_share = std::clamp(
        view.load.strength_mpa / specimen::foam_strength_mpa(densest_g_per_cm3), 0.0, 1.0);
  }
  return sound;
}

}  // namespace driftbench::app
