// Repeats a recorded attempt, step by step, and says whether it is the same.
#pragma once

#include "record/attempt.h"
#include "session/session.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::session {

struct ReplayReport {
  bool equal = false;
  int engine = 0;                           ///< of the record
  std::int64_t first_difference_step = -1;  ///< -1: none found
  std::vector<std::string> reasons;         ///< each one sentence
};

/// Replays in portions so that a page can show progress and stay live.
class Replay {
 public:
  /// Errors: as Session::create(); kUnsupported for a record of another engine ('recorded by engine
  /// X')
  [[nodiscard]] static base::Result<Replay> start(const record::AttemptFile& file);

  /// Runs at most `step_count` steps. Returns true while there is more to do.
  bool advance(std::int64_t step_count);

  [[nodiscard]] double progress() const;  ///< 0..1

  [[nodiscard]] const Session& session() const { return session_; }

  [[nodiscard]] Session& session() { return session_; }

  /// Compares digests, state hashes and every result; complete once advance() returned false.
  [[nodiscard]] ReplayReport report() const;

 private:
  Replay(record::AttemptFile file, Session session);
  void submit_due_commands();
  void compare_new_hashes();
  void note_difference(std::int64_t step);
  void add_course_reasons(std::vector<std::string>& reasons) const;

  record::AttemptFile file_;
  Session session_;
  std::size_t next_entry_ = 0;
  std::size_t next_hash_ = 0;
  std::int64_t first_difference_step_ = -1;
  std::vector<std::string> refused_;
  bool is_complete_ = false;
};

}  // namespace driftbench::session
