// The parts of the debrief.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// The bar over a debrief, cut off `rest`; gives the room for its title.
Rect debrief_bar(Frame& frame, Rect& rest, bool with_export);

/// Both sections with the plan; the measured axis where there are results.
void debrief_sections(Frame& frame, Rect column, const scoring::Results* results);
void debrief_targets(Frame& frame, Rect column);
void debrief_findings(Frame& frame, Rect column);

/// Its words alone: the numbers, the verdict, what moved the drill, the loads. Gives the height
/// used.
float findings_column(Frame& frame, Rect column);

/// Ways on after an attempt: again, what the lesson asks for next, and comparing; the likeliest is
/// the strongest.
void debrief_ways(Frame& frame, Rect row, bool with_compare);

/// List of stored attempts to lay over the targets; open while state.debrief.compare_open. Its box
/// leaves the targets free, so that marks can be seen to come and go.
void compare_list(Frame& frame, const Rect& box);

}  // namespace driftbench::ui
