// The core's only face: commands in, whole steps, a read-only view out, measures, hash.
#pragma once

#include "base/result.h"
#include "lesson/attempt_setup.h"
#include "record/attempt.h"
#include "record/trace.h"
#include "scoring/explain.h"
#include "scoring/results.h"
#include "session/view.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace driftbench::session {

/// Raised whenever a golden hash changes.
inline constexpr int kEngine = 4;

/// One attempt from a fresh specimen to its measures. Deterministic: same set-up and trace, same
/// bits.
class Session {
 public:
  /// Builds the specimen and stands ready at step 0.
  ///
  /// Errors: those of build_specimen(); kMismatch when the plan names instruments that the kit
  /// lacks
  [[nodiscard]] static base::Result<Session> create(const lesson::AttemptSetup& setup);

  Session(Session&&) noexcept;
  Session& operator=(Session&&) noexcept;
  ~Session();

  /// Takes a command; it is recorded with the current step and acts from the next step on. A
  /// command with an unknown op, an index out of range or a value out of range is refused.
  ///
  /// Errors: kOutOfRange with what was found and expected; kUnsupported after the end
  base::Result<void> submit(const record::Command& command);

  /// Runs up to `step_count` steps of 1 ms; stops early when the phase is no longer kDrilling.
  /// Returns how many were run; view().status says why it stopped.
  std::int64_t advance(std::int64_t step_count);

  /// Back to step 0 with a fresh specimen and an empty trace; equal to a new session, hash
  /// included.
  void reset();

  [[nodiscard]] const SessionView& view() const;
  [[nodiscard]] const lesson::AttemptSetup& setup() const;
  [[nodiscard]] const record::Trace& trace() const;

  /// 64-bit hash of the whole state (pose, hand, motor, guide, coverage).
  [[nodiscard]] std::uint64_t state_hash() const;

  /// Hashes at every 1,000th step passed and, once finished, at the end.
  [[nodiscard]] const std::vector<record::StateHash>& state_hashes() const;

  /// Measures the hole and the process. The measuring code is not told the approach.
  [[nodiscard]] scoring::Results measure() const;

  /// What moved the drill, and when, found in the load trace.
  [[nodiscard]] std::vector<scoring::Moment> explain() const;

  /// Forgets the changed box of the volume (for incremental upload).
  [[nodiscard]] volume::VoxelBox take_dirty();

  /// The record of this attempt so far; the caller adds id, names, device and estimate.
  [[nodiscard]] record::Attempt record() const;

 private:
  struct Impl;
  explicit Session(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace driftbench::session
