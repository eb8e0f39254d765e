// Putting the guide on, seating it under the finger, looking into its windows, key in and out.
#pragma once

#include "ui/widgets.h"

namespace driftbench::ui {

void seating_panel(Frame& frame, const Rect& box);

/// Where the panel is not shown no finger presses the guide.
void take_finger_off(Frame& frame);

/// The same steps by key.
void place_guide(Frame& frame);
void hold_guide(Frame& frame);
void toggle_key(Frame& frame);

}  // namespace driftbench::ui
