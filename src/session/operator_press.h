// How the virtual operator presses the drill in hand, judged from one look to the next.
#pragma once

#include "session/operator_profile.h"
#include "session/view.h"

#include <cstdint>
#include <optional>

namespace driftbench::session {

inline constexpr double kLeastPress_n = 4.0;  ///< lightest press of an operator; own assumption

/// What the operator sees at one look.
enum class Seen {
  kGoingOn,
  kArrived,  ///< at the wanted depth, or standing at the stop
  kSlid,     ///< ran sideways over the surface without biting
  kCaught,   ///< pressed long without touching anything: caught in the key's mouth
};

/// One drill to press.
struct PressTask {
  bool is_guided = false;
  bool is_start = false;  ///< free-hand on a surface without a hole: it may slide off
  bool is_light = false;  ///< a new start after a slide: lightly until it bites
  double diameter_mm = 2.0;
  double wanted_mm = 0.0;  ///< depth at which the hand stops
  double usual_n = 16.0;   ///< feed force
};

/// The press on one drill: eased when the drill goes in faster than is comfortable, harder when it
/// long makes no way.
class OperatorPress {
 public:
  /// `depth_mm` is the depth at the start.
  void begin(const OperatorProfile& profile, const PressTask& task, double depth_mm);

  /// Press for the next look's time, N.
  [[nodiscard]] double now_n() const { return now_n_; }

  [[nodiscard]] bool is_guided() const { return task_.is_guided; }

  /// Takes in what is to be seen after a look's time of pressing.
  [[nodiscard]] Seen look(const SessionView& view);

 private:
  struct SetDown {
    math::Vec2 tip_mm{0.0};
    double depth_mm = 0.0;
  };

  [[nodiscard]] bool has_slid(const SessionView& view) const;
  [[nodiscard]] double most_n(double depth_mm) const;
  [[nodiscard]] double eased_n(double depth_mm, double feed_mm_per_s) const;

  PressTask task_;
  double easy_feed_mm_per_s_ = 0.0;
  double reaction_s_ = 0.0;
  double now_n_ = 0.0;
  double seen_depth_mm_ = 0.0;         ///< at the last look
  std::int64_t without_progress_ = 0;  ///< steps
  std::optional<SetDown> set_down_;    ///< where it first touched
};

}  // namespace driftbench::session
