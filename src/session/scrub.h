// Looks back into a finished attempt: pose and remaining material at any earlier step.
#pragma once

#include "drilling/pose.h"
#include "session/session.h"

#include <cstdint>
#include <span>

namespace driftbench::session {

/// The sample at or before a step; null before the first.
[[nodiscard]] const drilling::LoadSample* sample_at(std::span<const drilling::LoadSample> samples,
                                                    std::int64_t step);

/// A copy of the specimen that can be wound to any step of the attempt.
class Scrub {
 public:
  explicit Scrub(const Session& session);

  /// Winds to `step` (clamped to the attempt). Material is exact to one removal tick (50 ms).
  void wind_to(std::int64_t step);

  [[nodiscard]] std::int64_t step() const { return step_; }

  [[nodiscard]] const volume::Volume& volume() const { return volume_; }

  [[nodiscard]] volume::VoxelBox take_dirty();

  /// The sample at or before the current step; null before the first.
  [[nodiscard]] const drilling::LoadSample* sample() const;

 private:
  const Session* session_;
  volume::Volume volume_;
  volume::VoxelBox touched_;
  std::int64_t step_ = 0;
};

}  // namespace driftbench::session
