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

Button sound_button(Frame& frame) {
  Button sound{std::string(tr(Str::kSound)), "M"};
  sound.is_switch = true;
  sound.on = !frame.model.muted;
  sound.kind = ButtonKind::kQuiet;
  const ImGuiIO& io = ImGui::GetIO();
  if (!io.KeyCtrl && !io.KeyAlt && !io.KeySuper && ImGui::IsKeyPressed(ImGuiKey_M, false)) {
    frame.emit(ToggleMute{});
  }
  return sound;
}

void sound_switch(Frame& frame, Rect& bar, bool names_key) {
  Button sound = sound_button(frame);
  if (!names_key) {
    sound.key.clear();
  }
  if (bar_button(frame, bar, sound)) {
    frame.emit(ToggleMute{});
  }
}

void theme_switch(Frame& frame, Rect& bar) {
  if (bar_button(frame, bar, theme_choice(frame.model.theme))) {
    frame.emit(NextTheme{});
  }
}

PageBar page_bar(Frame& frame, Rect& page, std::string_view title, std::span<const Button> ways) {
  constexpr float kRow_px = kButton_px + 4.0F;
  constexpr float kTitleMost_px = 330.0F;
  const float gap = frame.px(kGapSmall_px);
  const float room = page.width - 2.0F * frame.px(kGap_px);
  // Which row each stands in; the theme's switch is the first.
  float used = std::min(text_size(frame.fonts.strong, title).x + gap,
                        std::max(0.4F * room, frame.px(kTitleMost_px)));
  std::vector<int> rows;
  int row = 0;
  const auto place = [&](float width) {
    if (used + width > room) {
      ++row;
      used = 0.0F;
    }
    used += width + gap;
    rows.push_back(row);
  };
  place(button_width(frame, theme_choice(frame.model.theme)));
  for (const Button& way : ways) {
    place(button_width(frame, way));
  }
  const float height =
      row == 0 ? frame.px(kTopBar_px) : static_cast<float>(row + 1) * frame.px(kRow_px) + gap;
  Rect bar = top_bar(frame, cut_top(page, height));
  bar = inset(bar, 0.0F, row == 0 ? 0.0F : 0.5F * gap);
  const float line_height = bar.height / static_cast<float>(row + 1);
  Rect line = cut_top(bar, line_height);
  PageBar result{line, -1};
  int at = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i] > at) {
      line = cut_top(bar, line_height);
      at = rows[i];
    }
    if (i == 0) {
      theme_switch(frame, line);
    } else if (bar_button(frame, line, ways[i - 1])) {
      result.pressed = static_cast<int>(i) - 1;
    }
    if (at == 0) {
      result.title = line;
    }
  }
  return result;
}

Button quiet_button(Str label) {
  return {std::string(tr(label)), {}, ButtonKind::kQuiet};
}

void leave_bar(Frame& frame, Rect& page, std::string_view where) {
  const std::array ways{quiet_button(Str::kLeave)};
  const PageBar bar = page_bar(frame, page, where, ways);
  if (bar.pressed == 0) {
    frame.emit(OpenLesson{frame.model.place});
  }
  text_middle(frame, bar.title, strong(frame), where);
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
