// The three columns of the debrief.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

void debrief_sections(Frame& frame, Rect column);
void debrief_targets(Frame& frame, Rect column);
void debrief_findings(Frame& frame, Rect column);

/// Ways on after an attempt: again, what the lesson asks for next, and comparing; the likeliest is
/// the strongest.
void debrief_ways(Frame& frame, Rect row, bool with_compare);

/// List of stored attempts to lay over the targets; open while state.debrief.compare_open.
void compare_list(Frame& frame, const Rect& page);

}  // namespace driftbench::ui
