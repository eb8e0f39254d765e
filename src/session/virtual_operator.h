// An invented operator who works through an attempt: aims with an error, tilts, presses, follows.
#pragma once

#include "record/attempt.h"
#include "session/operator_profile.h"
#include "session/session.h"

#include <cstdint>
#include <memory>

namespace driftbench::session {

/// An operator at work, in portions, so that a page can show progress and stay live. The portions
/// change nothing: the same set-up, profile and seed give the same attempt, bit for bit.
class Practice {
 public:
  /// Errors: as Session::create()
  [[nodiscard]] static base::Result<Practice> start(const lesson::AttemptSetup& setup,
                                                    const OperatorProfile& profile,
                                                    std::uint64_t seed, const Turn& turn = {});

  Practice(Practice&&) noexcept;
  Practice& operator=(Practice&&) noexcept;
  ~Practice();

  /// Works for about `step_count` steps; true while there is more to do.
  bool advance(std::int64_t step_count);

  [[nodiscard]] double progress() const;  ///< 0..1, by drills and depth

  [[nodiscard]] const Session& session() const;

  /// The record of the attempt, once advance() returned false.
  ///
  /// Errors: kUnsupported when the attempt did not end within 10 minutes of simulated time
  [[nodiscard]] base::Result<record::Attempt> record() const;

  /// The session; this object is of no use afterwards.
  [[nodiscard]] Session take_session();

 private:
  struct Impl;
  explicit Practice(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

/// Works through one attempt and returns its record: estimate absent, the operator's name, an id
/// from seed, approach and length; who keeps several gives them names and ids of their own.
///
/// `seed` draws what is new in this attempt; what belongs to the person is drawn from the lesson's
/// seed and `turn.learner`, the same in every approach.
/// Errors: as Session::create(); kUnsupported when the attempt does not end within 10 minutes of
///         simulated time
[[nodiscard]] base::Result<record::Attempt> practise_attempt(const lesson::AttemptSetup& setup,
                                                             const OperatorProfile& profile,
                                                             std::uint64_t seed,
                                                             const Turn& turn = {});

}  // namespace driftbench::session
