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

class Bench {
 public:
  explicit Bench(session::Session& session) : session_(&session) {}

  /// Errors: as Session::submit()
  base::Result<void> submit(const record::Command& command);

  /// Runs the steps that `elapsed_s` of wall time ask for; none at rest.
  /// Returns the number of steps run.
  std::int64_t advance(double elapsed_s);

  /// Whether steps are to be run: the motor turns, something presses, or the last command is
  /// recent.
  [[nodiscard]] bool is_moving() const;

  /// What is still to be done before the attempt is whole, as a question; empty when nothing is.
  [[nodiscard]] std::string open_question() const;

  /// Forgets wall time that passed without a frame.
  void rebase() { pacing_.rebase(); }

  [[nodiscard]] double real_time_share() const { return pacing_.speed(); }

 private:
  session::Session* session_;
  session::Pacing pacing_;
  std::int64_t last_command_step_ = 0;
  std::int32_t press_mn_ = 0;
  std::int32_t guide_press_mn_ = 0;
  bool was_moving_ = false;
};

}  // namespace driftbench::app
