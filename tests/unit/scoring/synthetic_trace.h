// Test traces: a drill that advances and feels what the test says.
#pragma once

#include "drilling/pose.h"
#include "math/vec.h"
#include "specimen/kit.h"

#include <cstdint>
#include <vector>

namespace driftbench::scoring {

/// Two twist drills as the kit has them.
inline std::vector<specimen::Drill> two_drills() {
  specimen::Drill pilot;
  pilot.id = "twist-2.0";
  pilot.diameter_mm = 2.0;
  specimen::Drill wide = pilot;
  wide.id = "twist-2.7";
  wide.diameter_mm = 2.7;
  return {pilot, wide};
}

/// Builds samples every 10 steps.
class TraceBuilder {
 public:
  drilling::LoadSample next;  ///< copied into every sample; change it between calls

  TraceBuilder() {
    next.drill_index = 0;
    next.in_contact = true;
    next.pose.tip_mm = {0.0, 0.0, 0.0};
    next.press_n = 16.0;
    next.thrust_n = 15.0;
    next.strength_mpa = 8.4;
  }

  /// Runs for a time at a feed; the tip also moves sideways at a speed.
  TraceBuilder& run(double seconds, double feed_mm_per_s,
                    const math::Vec3& sideways_mm_per_s = {}) {
    const int count = static_cast<int>(seconds * 100.0 + 0.5);
    for (int i = 0; i < count; ++i) {
      next.feed_mm_per_s = feed_mm_per_s;
      next.pose.tip_mm += 0.01 * (sideways_mm_per_s - feed_mm_per_s * next.pose.axis_out_unit);
      next.step = step_;
      samples_.push_back(next);
      step_ += drilling::kStepsPerSample;
    }
    return *this;
  }

  [[nodiscard]] const std::vector<drilling::LoadSample>& samples() const { return samples_; }

 private:
  std::vector<drilling::LoadSample> samples_;
  std::int64_t step_ = 0;
};

/// The trace seen in a mirror at x = 0.
inline std::vector<drilling::LoadSample> mirrored(std::vector<drilling::LoadSample> samples) {
  for (drilling::LoadSample& sample : samples) {
    for (math::Vec3* v : {&sample.pose.tip_mm, &sample.pose.axis_out_unit, &sample.side_force_n,
                          &sample.guide_force_n}) {
      v->x = -v->x;
    }
  }
  return samples;
}

}  // namespace driftbench::scoring
