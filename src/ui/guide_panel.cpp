#include "ui/guide_panel.h"

#include "ui/guide_words.h"
#include "ui/widgets.h"

#include <algorithm>

namespace driftbench::ui {
namespace {

constexpr float kNameShare = 0.24F;

float finding(Frame& frame, const Rect& column, const GuideLine& line) {
  const float indent = kNameShare * column.width;
  const Rect words{column.x + indent, column.y, column.width - indent, column.height};
  text(frame, {column.x, column.y + frame.px(2.0F), indent - frame.px(8.0F), column.height},
       caption(frame), tr(line.name));
  const float used =
      std::max(text(frame, words, line.is_trouble ? strong(frame) : body(frame), line.words),
               frame.px(22.0F)) +
      frame.px(8.0F);
  const float y = column.y + used - frame.px(4.0F);
  ImGui::GetWindowDrawList()->AddLine({column.x, y}, {column.x + column.width, y},
                                      color_of(frame.colors.line));
  return used;
}

}  // namespace

float guide_panel(Frame& frame, Rect column) {
  if (!frame.model.room.has_value() || frame.model.setup == nullptr) {
    return 0.0F;
  }
  const float start = column.y;
  text(frame, cut_top(column, frame.px(34.0F)), lead(frame), tr(Str::kRoomTitle));
  for (const GuideLine& line : guide_lines(*frame.model.setup, *frame.model.room)) {
    cut_top(column, finding(frame, column, line));
  }
  if (frame.model.room->mouth.has_value()) {
    cut_top(column,
            text(frame, column, caption(frame), tr(Str::kRoomNote)) + frame.px(kGapSmall_px));
  }
  cut_top(column, frame.px(4.0F));
  Button save{std::string(tr(Str::kSaveSheet))};
  Rect row = cut_top(column, frame.px(kButton_px));
  if (button(frame, cut_left(row, button_width(frame, save)), save)) {
    frame.emit(SaveSiteSheet{});
  }
  return column.y - start + frame.px(kGapLarge_px);
}

}  // namespace driftbench::ui
