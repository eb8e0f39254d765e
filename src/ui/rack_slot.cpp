#include "ui/rack_slot.h"

namespace driftbench::ui {

SlotParts slot_parts(const Frame& frame, const Rect& slot, bool chosen, const Touch& touch) {
  const Palette& c = frame.colors;
  if (chosen || touch.hovered) {
    fill(frame, slot, c.raised, kRadiusSmall_px);
  }
  if (chosen) {
    ImGui::GetWindowDrawList()->AddRect(
        {slot.x, slot.y}, {slot.x + slot.width, slot.y + slot.height}, color_of(c.accent),
        frame.px(kRadiusSmall_px), 0, frame.px(2.0F));
  }
  SlotParts parts;
  Rect inner = inset(slot, frame.px(2.0F), frame.px(4.0F));
  cut_top(inner, frame.px(kSlotKeyRow_px));
  parts.lower = cut_bottom(inner, frame.px(kSlotLowerRow_px));
  parts.diameter = cut_bottom(inner, frame.px(kSlotDiameterRow_px));
  parts.picture = inner;
  parts.axis_x = slot.x + 0.5F * slot.width;
  return parts;
}

void slot_figures(const Frame& frame, const SlotParts& parts, std::string_view diameter,
                  std::string_view lower) {
  const auto centred = [&](const Rect& row, const Face& face, Rgb ink, std::string_view content) {
    const ImVec2 size = text_size(face, content);
    draw_text(face, ink, {parts.axis_x - 0.5F * size.x, row.y + 0.5F * (row.height - size.y)},
              content);
  };
  centred(parts.diameter, frame.fonts.strong, frame.colors.text, diameter);
  centred(parts.lower, frame.fonts.caption, frame.colors.muted, lower);
}

void slot_key(const Frame& frame, const Rect& slot, std::string_view key) {
  key_cap(frame, {slot.x + frame.px(4.0F), slot.y + frame.px(4.0F)}, frame.px(20.0F), key,
          frame.colors.muted);
}

}  // namespace driftbench::ui
