// The hand between the device and the drill: smoothing, slow wander, springs.
#pragma once

#include "base/hash64.h"
#include "base/random.h"
#include "drilling/params.h"
#include "drilling/pose.h"
#include "math/filter.h"

#include <cstdint>

namespace driftbench::drilling {

/// What the device asks for.
struct HandCommand {
  math::Vec2 tip_mm{0.0, 0.0};    ///< where the tip should be, across the site
  math::Vec2 lean_rad{0.0, 0.0};  ///< tilt of the drill's axis toward +x and +y
  double press_n = 0.0;           ///< feed force, >= 0
};

/// What the hand is doing now: the command, low-passed, plus its wander.
struct HandTarget {
  math::Vec3 grip_mm{};  ///< where the grip is drawn to (across the site; z unused)
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
  double press_n = 0.0;
};

/// Hand state. Seeded: the same seed wanders the same way.
class Hand {
 public:
  explicit Hand(const HandParams& params, std::uint64_t seed, double step_s = kStep_s);

  /// Jumps to a command without smoothing (a new drill is taken up).
  void settle(const HandCommand& command);

  /// One step of 1 ms. `grip_height_mm` is measured from the tip.
  HandTarget advance(const HandCommand& command, double grip_height_mm);

  /// Adds the state to a hash in a fixed order.
  void add_to(base::Hash64& hash) const;

 private:
  void renew_wander();

  HandParams params_;
  math::LowPass motion_filter_;
  math::LowPass press_filter_;
  math::LowPassState<math::Vec2> tip_{};
  math::LowPassState<math::Vec2> lean_{};
  math::LowPassState<double> press_{};
  math::Vec2 tip_wander_mm_{0.0};
  math::Vec2 lean_wander_rad_{0.0};
  base::Rng rng_;
  std::int64_t step_ = 0;
  std::int64_t wander_steps_ = 0;  ///< between two renewals
  double wander_keep_ = 0.0;       ///< share of the wander goal kept at each renewal
  double wander_fresh_ = 0.0;      ///< SD of what is added, as a share of the wander's SD
};

}  // namespace driftbench::drilling
