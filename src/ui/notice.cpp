// A sentence the program has to say, and the progress of a long task.
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"

namespace driftbench::ui {

namespace {

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
  progress_track(frame, track, busy.fraction);
  ImGui::EndChild();
}

}  // namespace

void notice(Frame& frame, const Rect& page) {
  const Model& model = frame.model;
  if (!model.notice.empty() &&
      notice_card(frame, page, model.notice, model.notice_is_error, tr(Str::kDismiss))) {
    frame.emit(DismissNotice{});
  }
  if (!model.busy.label.empty()) {
    busy_card(frame, page);
  }
}

}  // namespace driftbench::ui
