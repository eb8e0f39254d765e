// What every slot of the rack shares: its ground, the places in it and its two rows of figures.
#pragma once

#include "ui/widgets.h"

#include <string_view>

namespace driftbench::ui {

inline constexpr float kSlotKeyRow_px = 24.0F;
inline constexpr float kSlotLowerRow_px = 18.0F;
inline constexpr float kSlotDiameterRow_px = 22.0F;

/// The places in a slot, from the key down.
struct SlotParts {
  Rect picture;  ///< the tool stands on its lower edge
  Rect diameter;
  Rect lower;
  float axis_x = 0.0F;
};

/// Draws the ground, ringed when chosen, and shares out the room.
SlotParts slot_parts(const Frame& frame, const Rect& slot, bool chosen, const Touch& touch);

/// The diameter, and below it what else is printed on the tool.
void slot_figures(const Frame& frame, const SlotParts& parts, std::string_view diameter,
                  std::string_view lower);

/// The key that takes the tool, in the corner.
void slot_key(const Frame& frame, const Rect& slot, std::string_view key);

}  // namespace driftbench::ui
