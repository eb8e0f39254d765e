// The panel beside the linked sections: the case and how it is shown, or its plan.
#pragma once

#include "ui/frame.h"

namespace driftbench::ui {

/// Gives true when the views are to look along the planned implant. `has_windows`: the choice of
/// densities is here, not over the sections.
[[nodiscard]] bool study_panel(Frame& frame, const Rect& box, bool has_windows);

}  // namespace driftbench::ui
