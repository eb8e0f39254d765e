// A sentence the program has to say, and the progress of a long task.
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"

namespace driftbench::ui {

namespace {

void notice_card(Frame& frame, const Rect& page) {
  const Model& model = frame.model;
  const Rect column = centred_column(page, frame.px(680.0F));
  Button close{std::string(tr(Str::kDismiss))};
  close.kind = ButtonKind::kQuiet;
  const float close_width = button_width(frame, close);
  const float pad = frame.px(kGap_px);
  const float wrap = column.width - close_width - 3.0F * pad;
  const float height = std::max(text_size(frame.fonts.body, model.notice, wrap).y + frame.px(24.0F),
                                frame.px(kButton_px + 8.0F));
  const Rect box{column.x, page.y + frame.px(kTopBar_px + 10.0F), column.width, height};
  // A child of its own lies over the page's items and takes the pointer.
  ImGui::SetCursorScreenPos({box.x, box.y});
  begin_scroll("notice", {box.width, box.height});
  card(frame, box);
  const Rgb ink = model.notice_is_error ? frame.colors.danger : frame.colors.accent;
  ImGui::GetWindowDrawList()->AddRectFilled(
      {box.x, box.y}, {box.x + frame.px(6.0F), box.y + box.height}, color_of(ink), frame.px(3.0F));
  TextStyle style = body(frame);
  style.role = Role::kStatus;
  text_middle(frame, {box.x + pad, box.y, wrap, box.height}, style, model.notice);
  const float button_height = frame.px(kButtonSmall_px);
  if (button(frame,
             {box.x + box.width - close_width - pad, box.y + 0.5F * (box.height - button_height),
              close_width, button_height},
             close)) {
    frame.emit(DismissNotice{});
  }
  ImGui::EndChild();
}

void busy_card(Frame& frame, const Rect& page) {
  const Busy& busy = frame.model.busy;
  const Rect column = centred_column(page, frame.px(420.0F));
  const Rect box{column.x, page.y + 0.5F * page.height - frame.px(50.0F), column.width,
                 frame.px(100.0F)};
  ImGui::SetCursorScreenPos({box.x, box.y});
  begin_scroll("busy", {box.width, box.height});
  card(frame, box);
  Rect inner = inset(box, frame.px(kGapLarge_px), frame.px(kGap_px));
  TextStyle style = body(frame);
  style.role = Role::kStatus;
  text(frame, cut_top(inner, frame.px(36.0F)), style, busy.label);
  const Rect track = cut_top(inner, frame.px(10.0F));
  fill(frame, track, frame.colors.raised, 5.0F);
  const float share = static_cast<float>(std::clamp(busy.fraction, 0.0, 1.0));
  fill(frame, {track.x, track.y, std::max(track.height, share * track.width), track.height},
       frame.colors.accent, 5.0F);
  ImGui::EndChild();
}

}  // namespace

void notice(Frame& frame, const Rect& page) {
  if (!frame.model.notice.empty()) {
    notice_card(frame, page);
  }
  if (!frame.model.busy.label.empty()) {
    busy_card(frame, page);
  }
}

}  // namespace driftbench::ui
