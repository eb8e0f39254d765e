// One drill pressed into a volume by the bare step, without session or operator.
#pragma once

#include "drilling/hand.h"
#include "drilling/step.h"
#include "volume/volume.h"

#include <cstdint>

namespace driftbench::population {

/// What is done with a drill. The hand's command never changes: nothing answers to what happens.
struct Drilling {
  double diameter_mm = 2.0;
  double rev_per_s = 20.0;
  double press_n = 16.0;
  double depth_mm = 10.0;     ///< of the shoulder below the platform
  math::Vec2 hand_mm{0.0};    ///< where the hand wants the tip
  math::Vec2 lean_rad{0.0};   ///< of the drill's axis
  drilling::DrillPose start;  ///< tip above the material
  const drilling::SleeveFit* guide = nullptr;
  double wander_mm = 0.0;  ///< SD of the hand's slow wander
  double step_s = drilling::kStep_s;
  double fixed_feed_mm_per_s = 0.0;  ///< above 0: the press is regulated to this advance
};

/// What came of it.
struct Drilled {
  math::Vec3 mouth_mm{};  ///< where the axis crosses the platform
  math::Vec3 floor_mm{};  ///< where the axis meets the shoulder's depth
  math::Vec3 axis{};
  double time_s = 0.0;    ///< first contact to depth
  double thrust_n = 0.0;  ///< means over the second half of the depth
  double torque_nmm = 0.0;
  bool is_done = false;
};

/// Drills until the depth is reached or half a minute is over.
[[nodiscard]] Drilled drill(volume::Volume& volume, const Drilling& task);

/// Twist drill of the given diameter, 118 degrees, as the kit has them.
[[nodiscard]] specimen::Drill twist_drill(double diameter_mm);

}  // namespace driftbench::population
