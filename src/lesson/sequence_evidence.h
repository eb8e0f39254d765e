// Is an attempt good, and do the attempts so far add up to a pass?
#pragma once

#include "lesson/past_attempt.h"
#include "scoring/tolerance.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace driftbench::lesson {

/// The largest of the named errors as a part of its tolerance: 1 lies on the limit, which is
/// inside. An error on a side that has no tolerance at all gives infinity.
[[nodiscard]] double largest_share(const AttemptErrors& errors, const scoring::Tolerance& tolerance,
                                   std::span<const Measure> measures);

/// What one attempt says to the criterion.
struct Mark {
  bool is_good = false;  ///< complete, measured, within all tolerances, nothing critical happened
  bool wipes = false;    ///< something critical happened: what was shown before does not count

  friend bool operator==(const Mark&, const Mark&) = default;
};

[[nodiscard]] Mark mark_of(const PastAttempt& attempt, const scoring::Tolerance& tolerance,
                           const Criterion& criterion);

/// How the attempts that count add up.
struct Evidence {
  std::vector<double> level;             ///< after each one, 0 to 1; 1: passed at this place
  std::optional<std::size_t> passed_at;  ///< first place with a pass, from 0; it stays passed
};

/// Evidence of the attempts that count, oldest first; `planned`: how many of them are planned
/// (kAllOf needs them all). Attempts beyond the cap do not count. kNone never passes.
///
/// Source: k of the last n: own rule; learning evidence: stats::learning_scores
[[nodiscard]] Evidence evidence_of(std::span<const Mark> marks, const Criterion& criterion,
                                   std::size_t planned);

}  // namespace driftbench::lesson
