#include "ui/guide_panel.h"

#include "ui/guide_words.h"
#include "ui/widgets.h"

namespace driftbench::ui {
float guide_panel(Frame& frame, Rect column) {
  if (!frame.model.room.has_value() || frame.model.setup == nullptr) {
    return 0.0F;
  }
  const float start = column.y;
  text(frame, cut_top(column, frame.px(34.0F)), lead(frame), tr(Str::kRoomTitle));
  for (const GuideLine& line : guide_lines(*frame.model.setup, *frame.model.room)) {
    cut_top(column, named_row(frame, column, tr(line.name),
                              line.is_trouble ? strong(frame) : body(frame), line.words));
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
