// The guide as a body that sits, or does not quite sit, on its four feet.
#pragma once

#include "base/hash64.h"
#include "base/random.h"
#include "drilling/pose.h"
#include "specimen/plan.h"

#include <array>
#include <cstdint>

namespace driftbench::drilling {

inline constexpr std::size_t kFeet = 4;

/// Load on the guide across and along the site axis, all in the site frame.
struct GuideLoad {
  math::Vec2 finger_at_mm{0.0, 0.0};  ///< where a finger presses
  double finger_n = 0.0;
  bool held = false;              ///< the other hand holds it down at its middle
  math::Vec3 drill_force_n{};     ///< drill on guide, through the sleeve
  math::Vec3 drill_moment_nmm{};  ///< of it about the platform centre
};

/// Guide seat. A gap under a foot lets the whole guide tilt; the sleeve goes with it. Besides, the
/// guide was not made exactly as planned, and it gives way on its support under the drill's side
/// load: it shifts, and it rocks the more the higher the load acts (MODEL section 8).
///
/// The feet fit tightly: a foot closes only under more than `seat_force_n` and opens only when
/// lifted with more than kLiftForce_n. Own assumption; it makes 'pressed in the wrong place' rock
/// the guide.
class GuideBody {
 public:
  GuideBody(const specimen::Guide& guide, std::uint64_t seed);

  /// Puts the guide on the block: it comes to rest with a tilt drawn from the seed.
  void place();
  void remove();

  /// A tool change jogs a guide that nobody holds.
  void jog();

  /// One step of 1 ms under load.
  void advance(const GuideLoad& load);

  [[nodiscard]] bool is_placed() const { return is_placed_; }

  [[nodiscard]] const std::array<double, kFeet>& gap_mm() const { return gap_mm_; }

  [[nodiscard]] double largest_gap_mm() const;

  /// Centre of the sleeve's lower edge and the sleeve's axis.
  [[nodiscard]] DrillPose sleeve() const;

  void add_to(base::Hash64& hash) const;

  /// Place of foot k: the corners in the order +x+y, -x+y, -x-y, +x-y.
  [[nodiscard]] math::Vec2 foot_mm(std::size_t k) const;

 private:
  void tilt_by(double gap_mm, double heading_rad);
  void make_rigid();
  void seat(const GuideLoad& load);
  void give_way(const GuideLoad& load);

  specimen::Guide guide_;
  base::Rng rng_;
  bool is_placed_ = false;
  std::array<double, kFeet> gap_mm_{};
  math::Vec3 made_off_mm_{};        ///< error of making and fitting, at the platform
  math::Vec2 made_lean_{0.0};       ///< and of the sleeve's axis toward +x, +y
  math::Vec2 yield_mm_{0.0};        ///< elastic shift under load
  math::Vec2 yield_lean_rad_{0.0};  ///< elastic rocking: the axis leans toward +x, +y
};

/// Force that holds the guide down when the other hand holds it; own assumption.
inline constexpr double kHoldForce_n = 15.0;

}  // namespace driftbench::drilling
