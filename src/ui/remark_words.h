// Remarks on a watched attempt as sentences.
#pragma once

#include "lesson/attempt_setup.h"
#include "scoring/results.h"
#include "session/commentary.h"

#include <string>

namespace driftbench::ui {

/// One or two short sentences. Every number in them comes from the remark, the plan or the results.
[[nodiscard]] std::string remark_words(const session::Remark& remark,
                                       const lesson::AttemptSetup& setup,
                                       const scoring::Results& results);

}  // namespace driftbench::ui
