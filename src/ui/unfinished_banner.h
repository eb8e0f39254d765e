// The offer to go on with an attempt that broke off.
#pragma once

#include "ui/frame.h"

namespace driftbench::ui {

/// Draws the offer at the top of `at`, where there is one; gives the height used.
float unfinished_banner(Frame& frame, const Rect& at);

}  // namespace driftbench::ui
