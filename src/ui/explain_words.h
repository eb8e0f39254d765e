// Says in two or three sentences what moved the drill, from the moments found in the load trace.
#pragma once

#include "lesson/attempt_setup.h"
#include "scoring/explain.h"
#include "scoring/results.h"

#include <span>
#include <string>
#include <vector>

namespace driftbench::ui {

/// One sentence and the step that it is about (for jumping there); -1 when it has no place.
struct Explanation {
  std::string sentence;
  std::int64_t step = -1;
};

/// The two or three weightiest moments in order of time. When nothing in the trace moved the drill,
/// says so, and what follows from it for the error that was measured.
///
/// Every number in the sentences comes from the moments and the results.
[[nodiscard]] std::vector<Explanation> explain_words(std::span<const scoring::Moment> moments,
                                                     const lesson::AttemptSetup& setup,
                                                     const scoring::Results& results);

/// Short name of a moment for the time line: "first contact", "side force 5.2 N".
[[nodiscard]] std::string moment_label(const scoring::Moment& moment);

}  // namespace driftbench::ui
