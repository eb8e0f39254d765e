// The running attempt: commands in, time turned into steps, rest while nothing can move.
#pragma once

#include "base/result.h"
#include "session/pacing.h"
#include "session/session.h"

#include <cstdint>
#include <string>

namespace driftbench::app {

/// Simulated time that a bench with nothing in motion goes on for after the last command. After it
/// the bench rests: no step runs, so no time is counted either, until the next command.
inline constexpr std::int64_t kRestAfter_steps = 3000;

// Step by step: how long time runs on after a command, long enough for hand and motor to follow,
// and how long X presses; own assumptions.
inline constexpr std::int64_t kStepRun_steps = 500;
inline constexpr std::int64_t kPeck_steps = 500;
inline constexpr std::int64_t kPeckShort_steps = 100;

class Bench {
 public:
  explicit Bench(session::Session& session) : session_(&session) {}

  /// Errors: as Session::submit()
  base::Result<void> submit(const record::Command& command);

  /// Runs the steps that `elapsed_s` of wall time ask for; none at rest.
  /// Returns the number of steps run.
  std::int64_t advance(double elapsed_s);

  /// Step by step, time runs for a moment after each command and while something presses or lifts;
  /// a turning motor alone does not make it run.
  void set_step_by_step(bool on);

  /// Step by step: `is_pecking()` until a press of the hand has lasted that long.
  void peck(bool is_short);

  [[nodiscard]] bool is_pecking() const { return peck_steps_ > 0; }

  /// Whether steps are to be run: the motor turns, something presses, or the last command is
  /// recent.
  [[nodiscard]] bool is_moving() const;

  /// What is still to be done before the attempt is whole, as a question; empty when nothing is.
  [[nodiscard]] std::string open_question() const;

  /// Forgets wall time that passed without a frame.
  void rebase() { pacing_.rebase(); }

  [[nodiscard]] double real_time_share() const { return pacing_.speed(); }

 private:
  [[nodiscard]] bool is_stepping() const;

  session::Session* session_;
  session::Pacing pacing_;
  std::int64_t last_command_step_ = 0;
  std::int32_t press_mn_ = 0;
  std::int32_t guide_press_mn_ = 0;
  std::int64_t owed_steps_ = 0;  // step by step: time to run
  std::int64_t peck_steps_ = 0;  // of the press to come or going on
  bool step_by_step_ = false;
  bool was_moving_ = false;
};

}  // namespace driftbench::app
