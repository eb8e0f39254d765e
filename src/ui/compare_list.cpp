// Choosing stored attempts to lay over the targets.
#include "base/text.h"
#include "ui/debrief_parts.h"
#include "ui/language.h"
#include "ui/marks.h"
#include "ui/saved_list.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <algorithm>

namespace driftbench::ui {

namespace {

constexpr float kMark_px = 30.0F;
constexpr float kState_px = 60.0F;

/// Null when it is not laid over the targets.
const Compared* shown_as(const Frame& frame, const std::string& id) {
  const auto found = std::find_if(frame.model.compared.begin(), frame.model.compared.end(),
                                  [&id](const Compared& other) { return other.id == id; });
  return found != frame.model.compared.end() ? &*found : nullptr;
}

// Gives the height used.
float row(Frame& frame, const Rect& at, const SavedAttempt& saved) {
  const Compared* compared = shown_as(frame, saved.id);
  const bool shown = compared != nullptr;
  ScreenItem about;
  about.role = Role::kToggle;
  about.checked = shown;
  about.label = say(Str::kSavedName, in_language(saved.block_title), saved.when);
  const std::string figures = saved_figures(saved);
  const float wrap = at.width - frame.px(20.0F + kMark_px + kState_px);
  const float lines = text_size(frame.fonts.body, about.label, wrap).y +
                      text_size(frame.fonts.caption, figures, wrap).y;
  const Rect box{at.x, at.y, at.width, lines + frame.px(13.5F)};
  const Touch touch = item(frame, box, about.label + "##" + saved.id, about);
  if (touch.hovered || shown) {
    fill(frame, box, frame.colors.raised, kRadiusSmall_px);
  }
  Rect inner = inset(box, frame.px(10.0F), frame.px(4.0F));
  const Rect mark = cut_left(inner, frame.px(kMark_px));
  hole_mark(frame, {mark.x + frame.px(10.0F), mark.y + 0.5F * mark.height}, saved.approach, 6.0F,
            true);
  const Rect state = cut_right(inner, frame.px(kState_px));
  TextStyle right{frame.fonts.caption_strong, frame.colors.accent, Align::kRight};
  if (shown) {
    text_middle(frame, state, right, tr(compared->is_current ? Str::kThisOne : Str::kShown));
  }
  cut_top(inner, text(frame, inner, body(frame), about.label) + frame.px(1.5F));
  text(frame, inner, caption(frame), figures);
  if (touch.pressed) {
    frame.emit(SetCompared{saved.id, !shown});
  }
  if (touch.focused) {
    focus_ring(frame, box, kRadiusSmall_px);
  }
  return box.height + frame.px(4.0F);
}

}  // namespace

void compare_list(Frame& frame, const Rect& box) {
  ImGui::SetNextWindowPos({box.x, box.y});
  ImGui::SetNextWindowSize({box.width, box.height});
  ImGui::Begin("compare", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBackground);
  card(frame, box);
  ImGui::GetWindowDrawList()->AddRect({box.x, box.y}, {box.x + box.width, box.y + box.height},
                                      color_of(frame.colors.outline), frame.px(kRadius_px));
  Rect inner = inset(box, frame.px(20.0F), frame.px(16.0F));
  Rect head = cut_top(inner, frame.px(kButtonSmall_px));
  Button done{std::string(tr(Str::kDone))};
  done.kind = ButtonKind::kPrimary;
  if (button(frame, cut_right(head, button_width(frame, done)), done) ||
      ImGui::IsKeyPressed(ImGuiKey_Escape)) {
    frame.state.debrief.compare_open = false;
  }
  text_middle(frame, head, lead(frame), tr(Str::kCompareTitle));
  cut_top(inner, frame.px(8.0F));
  if (frame.model.saved.empty()) {
    text(frame, inner, body(frame), tr(Str::kNothingSaved));
  }
  ImGui::SetCursorScreenPos({inner.x, inner.y});
  begin_scroll("compare rows", {inner.width, inner.height});
  const ImVec2 start = ImGui::GetCursorScreenPos();
  float y = start.y + frame.px(4.0F);
  for (const SavedAttempt& saved : frame.model.saved) {
    if (saved.is_hidden) {
      continue;
    }
    y += row(frame, {start.x + frame.px(4.0F), y, inner.width - frame.px(20.0F), 0.0F}, saved);
  }
  ImGui::SetCursorScreenPos(start);
  ImGui::Dummy({1.0F, y - start.y});
  end_scroll(frame, frame.colors.surface);
  ImGui::End();
}

}  // namespace driftbench::ui
