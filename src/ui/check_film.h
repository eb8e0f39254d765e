// The check film: what rays from the cheek show of the direction pin in a jaw.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Whether one can be taken now: the pin stands, in a jaw.
[[nodiscard]] bool can_take_film(const Frame& frame);

/// The switch in the bench's bottom line.
void film_button(Frame& frame, Rect& bar);

/// The film over the side look, while it is looked at and can be taken.
void check_film(Frame& frame, const Rect& side);

}  // namespace driftbench::ui
