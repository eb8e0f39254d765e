// What was opened and is kept in this browser, each with a button that deletes it.
#include "ui/ask_twice.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"

namespace driftbench::ui {

float opened_card(Frame& frame, const Rect& at) {
  const std::vector<OpenedFile>& files = frame.model.opened;
  if (files.empty()) {
    return 0.0F;
  }
  const float wrap = at.width - 2.0F * frame.px(kGapLarge_px);
  const float about = text_size(frame.fonts.body, tr(Str::kOpenedAbout), wrap).y;
  const float row = frame.px(kButtonSmall_px + 8.0F);
  const Rect box{at.x, at.y, at.width,
                 frame.px(2.0F * kGapLarge_px + kHeading_px + 6.0F + kGap_px) + about +
                     static_cast<float>(files.size()) * row};
  card(frame, box);
  Rect inner = inset(box, frame.px(kGapLarge_px));
  text(frame, cut_top(inner, frame.px(kHeading_px + 6.0F)), heading(frame), tr(Str::kOpenedTitle));
  cut_top(inner, text(frame, inner, body(frame), tr(Str::kOpenedAbout)) + frame.px(kGap_px));
  for (const OpenedFile& file : files) {
    Rect line = cut_top(inner, row);
    Button spec = twice_button(frame, Str::kDelete, Str::kDeleteReally, file.name);
    spec.name = spec.label + ": " + file.title;
    spec.id = "forget " + file.name;
    if (pressed_twice(frame, bar_button(frame, line, spec), file.name)) {
      frame.emit(ForgetOpened{file.name});
    }
    text_middle(frame, line, body(frame), file.title);
  }
  return box.height + frame.px(kGapLarge_px);
}

}  // namespace driftbench::ui
