// The implant on the bench: its slot in the rack, its buttons and its keys.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

namespace driftbench::ui {

/// Whether the attempt ends with the implant in the block.
[[nodiscard]] bool wants_implant(const Frame& frame);

/// Length of the planned implant with its driver as the rack draws it; 0 without one.
[[nodiscard]] double implant_slot_mm(const Frame& frame);

/// The last slot of the rack.
void implant_slot(Frame& frame, const Rect& slot, float px_per_mm);

/// Buttons of the bottom line while the implant is in hand, cut from the right of `rest`.
void implant_buttons(Frame& frame, Rect& rest);

/// 0 takes it or its driver, B backs out, D takes the driver off, L changes the motor's limit.
void implant_keys(Frame& frame);

/// Speed that Space starts with the implant in hand; 0 without one.
[[nodiscard]] std::int32_t implant_speed_rpm(const Frame& frame);

}  // namespace driftbench::ui
