// The implant in the debrief: its measures instead of the hole's, its torque, and the loads.
#pragma once

#include "scoring/results.h"
#include "ui/frame.h"
#include "ui/layout.h"

#include <string>
#include <vector>

namespace driftbench::ui {

/// What the attempt is judged by: the implant where one was placed, else the hole; null without
/// either.
[[nodiscard]] const scoring::Deviation* measured_deviation(const scoring::Results& results);

/// Depth error of the same. Contract: measured_deviation() is not null.
[[nodiscard]] double measured_depth_error_mm(const scoring::Results& results);

/// One sentence each: insertion torque with what it stands for, side loads, drilling torque.
/// Temperature has none: in foam it would mislead.
[[nodiscard]] std::vector<std::string> load_sentences(const scoring::Results& results);

/// Loads in words, and the torque over the depth of the implant. Returns the height used.
float loads(Frame& frame, const Rect& at);

}  // namespace driftbench::ui
