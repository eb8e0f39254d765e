#include "ui/bars.h"

#include "ui/strings.h"

namespace driftbench::ui {

bool bar_button(Canvas& canvas, Rect& bar, const Button& spec) {
  const Rect slot = cut_right(bar, button_width(canvas, spec));
  cut_right(bar, canvas.px(kGapSmall_px));
  const float height = canvas.px(canvas.is_touch ? kButton_px : kButtonSmall_px);
  return button(canvas, {slot.x, slot.y + 0.5F * (slot.height - height), slot.width, height}, spec);
}

Button language_choice() {
  Button change{std::string(next_language().name)};
  change.kind = ButtonKind::kQuiet;
  change.description = tr(Str::kLanguageHelp);
  change.id = "language";
  return change;
}

Button theme_choice(Theme theme) {
  Button change{std::string(tr(theme == Theme::kDark    ? Str::kThemeDark
                               : theme == Theme::kLight ? Str::kThemeLight
                                                        : Str::kThemeProjector))};
  change.kind = ButtonKind::kQuiet;
  change.description = tr(Str::kThemeHelp);
  change.id = "theme";
  return change;
}

bool language_button(Canvas& canvas, Rect& bar) {
  return bar_button(canvas, bar, language_choice());
}

std::vector<Rect> page_foot(const Canvas& canvas, Rect& page, const std::vector<float>& widths) {
  const float gap = canvas.px(12.0F);
  const float height = canvas.px(kButton_px);
  const Rect room = inset(centred_column(page, canvas.px(1240.0F)), canvas.px(kGapLarge_px), 0.0F);
  std::vector<Rect> slots;
  Rect row{room.x, 0.0F, room.width, height};
  for (const float width : widths) {
    if (!slots.empty() && width > row.width) {
      slots.back().width = room.x + room.width - slots.back().x;
      row = {room.x, row.y + height + canvas.px(kGapSmall_px), room.width, height};
    }
    slots.push_back(cut_left(row, width));
    cut_left(row, gap);
  }
  slots.back().width = room.x + room.width - slots.back().x;
  const float pad = canvas.px(14.0F);
  const Rect foot = cut_bottom(page, row.y + height + 2.0F * pad);
  fill(canvas, foot, canvas.colors.surface, 0.0F);
  for (Rect& slot : slots) {
    slot.y += foot.y + pad;
  }
  return slots;
}

Rect top_bar(const Canvas& canvas, const Rect& bar) {
  fill(canvas, bar, canvas.colors.surface, 0.0F);
  ImGui::GetWindowDrawList()->AddLine({bar.x, bar.y + bar.height},
                                      {bar.x + bar.width, bar.y + bar.height},
                                      color_of(canvas.colors.line));
  return inset(bar, canvas.px(kGap_px), 0.0F);
}

bool notice_card(Canvas& canvas, const Rect& page, std::string_view sentence, bool is_error,
                 std::string_view close_label) {
  const Rect column = centred_column(page, canvas.px(680.0F));
  Button close{std::string(close_label)};
  close.kind = ButtonKind::kQuiet;
  const float close_width = button_width(canvas, close);
  const float pad = canvas.px(kGap_px);
  const float wrap = column.width - close_width - 3.0F * pad;
  const float height = std::max(text_size(canvas.fonts.body, sentence, wrap).y + canvas.px(24.0F),
                                canvas.px(kButton_px + 8.0F));
  const Rect box{column.x, page.y + canvas.px(kTopBar_px + 10.0F), column.width, height};
  // A child of its own lies over the page's items and takes the pointer.
  ImGui::SetCursorScreenPos({box.x, box.y});
  begin_scroll("notice", {box.width, box.height});
  card(canvas, box);
  const Rgb ink = is_error ? canvas.colors.danger : canvas.colors.accent;
  ImGui::GetWindowDrawList()->AddRectFilled({box.x, box.y},
                                            {box.x + canvas.px(6.0F), box.y + box.height},
                                            color_of(ink), canvas.px(3.0F));
  TextStyle style = body(canvas);
  style.role = Role::kStatus;
  text_middle(canvas, {box.x + pad, box.y, wrap, box.height}, style, sentence);
  const float button_height = canvas.px(kButtonSmall_px);
  const bool is_closed =
      button(canvas,
             {box.x + box.width - close_width - pad, box.y + 0.5F * (box.height - button_height),
              close_width, button_height},
             close);
  ImGui::EndChild();
  return is_closed;
}

void progress_track(const Canvas& canvas, const Rect& track, double fraction) {
  fill(canvas, track, canvas.colors.raised, 5.0F);
  const float share = static_cast<float>(std::clamp(fraction, 0.0, 1.0));
  fill(canvas, {track.x, track.y, std::max(track.height, share * track.width), track.height},
       canvas.colors.accent, 5.0F);
}

}  // namespace driftbench::ui
