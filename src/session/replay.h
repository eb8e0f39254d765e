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
  bool is_comparable = true;  ///< false: another engine recorded it, so nothing was repeated
  int engine = 0;             ///< of the record
  /// First step at which record and replay are known to differ; -1: none found. State hashes stand
  /// 1,000 steps apart, so the true first one lies after last_equal_step and not after this one.
  std::int64_t first_difference_step = -1;
  std::int64_t last_equal_step = 0;  ///< last step before it whose state hash agrees; 0: the start
  std::vector<std::string> reasons;  ///< each one sentence
};

/// "recorded by engine 1; this is engine 2".
[[nodiscard]] std::string other_engine_words(int engine);

/// Replays in portions so that a page can show progress and stay live.
class Replay {
 public:
  /// A record of another engine is taken but not repeated: its session stays fresh, and the report
  /// says so.
  ///
  /// Errors: as Session::create()
  [[nodiscard]] static base::Result<Replay> start(const record::AttemptFile& file);

  /// False for a record of another engine.
  [[nodiscard]] bool is_comparable() const { return file_.attempt.engine == kEngine; }

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
  [[nodiscard]] std::int64_t last_equal_step() const;
  void add_course_reasons(std::vector<std::string>& reasons) const;
  void add_hash_reason(std::vector<std::string>& reasons) const;

  record::AttemptFile file_;
  Session session_;
  std::size_t next_entry_ = 0;
  std::size_t next_hash_ = 0;
  std::int64_t first_difference_step_ = -1;
  std::vector<std::string> refused_;
  bool is_complete_ = false;
};

}  // namespace driftbench::session
