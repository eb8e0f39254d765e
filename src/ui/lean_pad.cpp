#include "ui/lean_pad.h"

#include "ui/hand_words.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <algorithm>

namespace driftbench::ui {

void lean_pad(Frame& frame, const Rect& box) {
  const BenchControls& controls = frame.state.bench.controls;
  ScreenItem about;
  about.role = Role::kImage;
  about.value = lean_words(controls.lean_x_rad(), controls.lean_y_rad());
  about.description = tr(Str::kLeanPadHelp);
  const Touch touch = item(frame, box, tr(Str::kLeanPad), about);
  const Palette& c = frame.colors;
  card(frame, box);
  const float words = frame.px(24.0F);
  const ImVec2 centre{box.x + 0.5F * box.width, box.y + 0.5F * (box.height + words)};
  const float radius = 0.5F * std::min(box.width, box.height - words) - frame.px(5.0F);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddCircleFilled(centre, radius, color_of(touch.held ? c.raised_hover : c.raised));
  list->AddCircle(centre, radius, color_of(c.outline), 0, frame.px(1.5F));
  text_middle(frame,
              {box.x + frame.px(8.0F), box.y, box.width - frame.px(16.0F), words + frame.px(2.0F)},
              {frame.fonts.caption, c.text, Align::kLeft}, tr(Str::kLeanPad));
  // The drill from above: from its point in the middle to where its upper end leans.
  const float per_rad = radius / static_cast<float>(kLeanReach_rad);
  const ImVec2 end{centre.x + per_rad * static_cast<float>(controls.lean_x_rad()),
                   centre.y - per_rad * static_cast<float>(controls.lean_y_rad())};
  list->AddLine(centre, end, color_of(c.text), frame.px(4.0F));
  list->AddCircleFilled(end, frame.px(9.0F), color_of(c.accent));
  list->AddCircle(end, frame.px(9.0F), color_of(c.text), 0, frame.px(2.0F));
  if (touch.focused) {
    focus_ring(frame, box, kRadius_px);
  }
}

}  // namespace driftbench::ui
