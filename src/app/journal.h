// Keeps the input of the running attempt while it runs, so that it can be resumed after a break.
#pragma once

#include "record/attempt.h"
#include "session/session.h"

#include <cstdint>
#include <string>
#include <vector>

namespace driftbench::app {

/// Longest time between two pieces, in seconds.
inline constexpr double kJournalPeriod_s = 0.9;

/// Commands as rows of integers, as they are stored (step, op, arguments).
[[nodiscard]] std::vector<std::int32_t> journal_rows(const record::Trace& trace,
                                                     std::size_t first_entry);

/// The commands of stored rows; a row that is not whole is left out.
[[nodiscard]] record::Trace trace_of_rows(const std::vector<std::int32_t>& rows);

class Journal {
 public:
  /// Starts a new journal for `head` (trace still empty). Nothing is stored before the first
  /// command.
  void begin(const record::Attempt& head, std::string title);

  /// Goes on with a stored one of which `entry_count` commands are kept.
  void resume(const std::string& attempt_id, std::size_t entry_count, std::int64_t step);

  /// Stores what is new, when it is time or `now` asks for it.
  void keep(const session::Session& session, double time_s, bool now);

  /// The attempt ended or was given up.
  void end();
  void discard();

 private:
  std::string id_;
  std::string title_;
  std::string head_;
  bool is_stored_ = false;
  std::size_t kept_entries_ = 0;
  std::int64_t kept_step_ = 0;
  double kept_at_s_ = 0.0;
};

}  // namespace driftbench::app
