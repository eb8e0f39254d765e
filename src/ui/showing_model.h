// What virtual operators show: a worked example, and holes to judge before the first own attempt.
#pragma once

#include "lesson/demonstration.h"
#include "session/commentary.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::ui {

/// A worked example: simulated first, then replayed with remarks.
struct ExampleView {
  std::string operator_name;
  double progress = 0.0;  ///< of the simulation
  bool is_ready = false;  ///< it is replayed
  std::vector<session::Remark> remarks;
  std::int64_t reached_step = 0;  ///< the farthest that the replay has come
};

/// The holes of one group, as far as they are made.
struct PredictionGroupView {
  std::vector<lesson::ShownHole> holes;
  std::optional<bool> said_bias;   ///< own judgement, where each group is judged
  lesson::GroupFindings findings;  ///< once all are made
};

struct PredictionView {
  lesson::AttemptSetup site;  ///< gives the words for directions
  double progress = 0.0;
  bool is_ready = false;  ///< all holes are made
  std::vector<PredictionGroupView> groups;
  std::optional<std::size_t> said_widest;  ///< own judgement, where one group is named
  std::size_t widest = 0;
  bool is_revealed = false;
};

}  // namespace driftbench::ui
