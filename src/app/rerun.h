// A long task done in portions between frames: an attempt is repeated from its record, to verify a
// file, to look at a stored attempt again, or to resume one that broke off.
#pragma once

#include "base/result.h"
#include "record/attempt.h"
#include "session/replay.h"

#include <memory>
#include <string>

namespace driftbench::app {

class Rerun {
 public:
  enum class Purpose {
    kOpenedFile,  ///< verify, then debrief
    kStored,      ///< the same for an attempt of this browser
    kResume       ///< go on drilling where it broke off
  };

  /// Errors: as Replay::start()
  [[nodiscard]] static base::Result<std::unique_ptr<Rerun>> start(record::AttemptFile file,
                                                                  Purpose purpose);

  /// Works for about `budget_s`. Returns true while there is more to do.
  bool work(double budget_s);

  [[nodiscard]] double progress() const { return replay_.progress(); }

  [[nodiscard]] Purpose purpose() const { return purpose_; }

  [[nodiscard]] const record::AttemptFile& file() const { return file_; }

  /// False for a record of another engine: it is shown as it was recorded, not repeated.
  [[nodiscard]] bool is_comparable() const { return replay_.is_comparable(); }

  /// "Replays to the same result." or why not; complete once work() returned false.
  [[nodiscard]] std::string verdict() const;

  /// The repeated session; this object is of no use afterwards.
  [[nodiscard]] session::Session take_session();

 private:
  Rerun(record::AttemptFile file, session::Replay replay, Purpose purpose);

  record::AttemptFile file_;
  session::Replay replay_;
  Purpose purpose_;
};

}  // namespace driftbench::app
