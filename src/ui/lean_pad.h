// A pad on which a finger leans the drill; shown where a finger is at work.
#pragma once

#include "ui/frame.h"

namespace driftbench::ui {

void lean_pad(Frame& frame, const Rect& box);

}  // namespace driftbench::ui
