// The panel beside the linked sections: the case and how it is shown, or its plan.
#pragma once

#include "ui/frame.h"

namespace driftbench::ui {

/// Gives true when the views are to look along the planned implant.
[[nodiscard]] bool study_panel(Frame& frame, const Rect& box);

}  // namespace driftbench::ui
