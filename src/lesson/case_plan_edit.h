// Changes to the plan of a piece of jaw and its guide: limits, moves by hand, undo and redo.
#pragma once

#include "lesson/guide_plan.h"
#include "lesson/specimen_case.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace driftbench::lesson {

/// What a person may set; a file may hold a little more.
///
/// Source: usual sizes of implants; own assumption
inline constexpr double kPlanDiameterLow_mm = 3.0;
inline constexpr double kPlanDiameterHigh_mm = 6.0;
inline constexpr double kPlanLengthLow_mm = 6.0;
inline constexpr double kPlanLengthHigh_mm = 16.0;
inline constexpr double kPlanReach_mm = 12.0;  ///< of the platform from the site, each direction
inline constexpr double kPlanMostLean_deg = 30.0;

/// The plan inside those limits, in steps that people can read: 0.05 mm, 0.1 degree, diameter 0.1,
/// length 0.5 mm.
[[nodiscard]] CasePlan clamped(const CasePlan& plan);

/// Out of the bone along the planned axis. Frame: jaw frame.
[[nodiscard]] math::Vec3 axis_out_of(const CasePlan& plan);

/// Middle of the implant's end. Frame: jaw frame.
[[nodiscard]] math::Vec3 apex_of(const CasePlan& plan);

/// The implant moved as a whole.
[[nodiscard]] CasePlan moved(const CasePlan& plan, const math::Vec3& by_mm);

/// The implant turned about its platform so that its end points to `toward_mm`; the same length.
/// The same plan when the point is not below the platform.
[[nodiscard]] CasePlan aimed_at(const CasePlan& plan, const math::Vec3& toward_mm);

/// Every state of a plan and its guide in order, with a place in it.
///
/// Law: undo after a change gives the plan before it, redo gives the changed plan again; a change
///      after undo forgets what was undone
class PlanHistory {
 public:
  explicit PlanHistory(const CasePlan& start) : states_{{start, {}}} {}

  [[nodiscard]] const CasePlan& now() const { return states_[at_].plan; }

  [[nodiscard]] const GuidePlan& guide() const { return states_[at_].guide; }

  [[nodiscard]] bool can_undo() const { return at_ > 0; }

  [[nodiscard]] bool can_redo() const { return at_ + 1 < states_.size(); }

  /// Takes `next` inside the limits; no change, no state. Changes of one drag carry the same
  /// `gesture` and are undone together; 0 stands alone.
  void change(const CasePlan& next, std::uint32_t gesture = 0);
  void change(const GuidePlan& next);

  void undo();
  void redo();

 private:
  static constexpr std::size_t kMost = 200;  // the oldest states are forgotten

  struct State {
    CasePlan plan;
    GuidePlan guide;

    friend bool operator==(const State&, const State&) = default;
  };

  void take(const State& next, std::uint32_t gesture);

  std::vector<State> states_;
  std::size_t at_ = 0;
  std::uint32_t gesture_ = 0;
};

}  // namespace driftbench::lesson
