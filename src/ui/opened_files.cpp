// What was opened and is kept in this browser, each with a button that deletes it.
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
    const bool armed = frame.state.delete_armed == file.name;
    Button spec{std::string(tr(armed ? Str::kDeleteReally : Str::kDelete))};
    spec.kind = armed ? ButtonKind::kDanger : ButtonKind::kQuiet;
    spec.name = spec.label + ": " + file.title;
    spec.id = "forget " + file.name;
    // Deleting takes a second press on the same button.
    if (bar_button(frame, line, spec)) {
      if (armed) {
        frame.emit(ForgetOpened{file.name});
        frame.state.delete_armed.clear();
      } else {
        frame.state.delete_armed = file.name;
      }
    } else if (armed && !ImGui::IsItemHovered() && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
      frame.state.delete_armed.clear();
    }
    text_middle(frame, line, body(frame), file.title);
  }
  return box.height + frame.px(kGapLarge_px);
}

}  // namespace driftbench::ui
