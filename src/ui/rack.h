// The rack: every drill of the kit upright and to scale, with what is printed on it.
#pragma once

#include "specimen/kit.h"
#include "ui/widgets.h"

#include <string>

namespace driftbench::ui {

/// Draws the rack; choosing a drill (and, guided, its length) sends kTakeDrill.
void rack(Frame& frame, const Rect& box);

/// "Twist drill 2.0 mm".
[[nodiscard]] std::string drill_name(const specimen::Drill& drill);

/// Takes a drill by its place in the rack; guided drills ask for their length first.
void choose_drill(Frame& frame, std::int32_t drill_index);

}  // namespace driftbench::ui
