// The thin bar at the top: where am I, and the switches that every screen has.
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

namespace driftbench::ui {

std::string place_words(const Frame& frame) {
  const Model& model = frame.model;
  if (model.lesson == nullptr || model.block_index >= model.lesson->blocks.size()) {
    return std::string(tr(Str::kOpenedFile));
  }
  const lesson::LessonBlock& block = model.lesson->blocks[model.block_index];
  return say(Str::kPlace, in_language(model.lesson->title), in_language(block.title),
             model.attempt_number,
             model.planned_attempts > 0 ? model.planned_attempts : block.attempts);
}

void sound_switch(Frame& frame, Rect& bar) {
  Button sound{std::string(tr(Str::kSound)), "M"};
  sound.is_switch = true;
  sound.on = !frame.model.muted;
  sound.kind = ButtonKind::kQuiet;
  const ImGuiIO& io = ImGui::GetIO();
  const bool by_key =
      !io.KeyCtrl && !io.KeyAlt && !io.KeySuper && ImGui::IsKeyPressed(ImGuiKey_M, false);
  if (bar_button(frame, bar, sound) || by_key) {
    frame.emit(ToggleMute{});
  }
}

void theme_switch(Frame& frame, Rect& bar) {
  Button theme{std::string(tr(Str::kProjectorTheme))};
  theme.is_switch = true;
  theme.on = frame.model.theme == Theme::kLight;
  theme.kind = ButtonKind::kQuiet;
  theme.description = tr(Str::kProjectorThemeHelp);
  if (bar_button(frame, bar, theme)) {
    frame.emit(ToggleTheme{});
  }
}

void leave_bar(Frame& frame, Rect& page, std::string_view where) {
  Rect bar = top_bar(frame, cut_top(page, frame.px(kTopBar_px)));
  theme_switch(frame, bar);
  if (bar_button(frame, bar, {std::string(tr(Str::kLeave)), {}, ButtonKind::kQuiet})) {
    frame.emit(OpenLesson{frame.model.place});
  }
  text_middle(frame, bar, strong(frame), where);
}

void nothing_to_show(Frame& frame, const Rect& page) {
  Rect rest = page;
  Rect bar = top_bar(frame, cut_top(rest, frame.px(kTopBar_px)));
  Button to_shelf{std::string(tr(Str::kToShelf))};
  if (bar_button(frame, bar, to_shelf)) {
    frame.emit(GoToShelf{});
  }
  text_middle(frame, bar, strong(frame), tr(Str::kAppName));
  TextStyle style = body(frame);
  style.align = Align::kCentre;
  text_middle(frame, inset(rest, frame.px(kGapPage_px)), style, tr(Str::kNothingToShow));
}

}  // namespace driftbench::ui
