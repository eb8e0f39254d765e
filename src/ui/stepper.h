// A number with a minus and a plus button; arrows and the page's mirror move it too.
#pragma once

#include "ui/widgets.h"

#include <string>

namespace driftbench::ui {

struct Stepper {
  std::string name;
  std::string value;        ///< in words, with its unit
  std::string description;  ///< also the tooltip
  double step = 0.5;
  double fine = 0.1;  ///< with Shift
};

/// Gives by how much the person changed it, 0 for no change. A drag sideways changes it step by
/// step.
[[nodiscard]] double stepper(Frame& frame, const Rect& box, const Stepper& spec);

}  // namespace driftbench::ui
