#include "ui/press_gauge.h"

#include "ui/strings.h"

#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr double kFull_n = 30.0;
constexpr float kWords_px = 76.0F;

Rect press_area(const Frame& frame, const Rect& box) {
  Rect inner = inset(box, frame.px(14.0F), frame.px(8.0F));
  cut_left(inner, frame.px(kWords_px));
  return inset(inner, frame.px(6.0F), frame.px(4.0F));
}

void wedge(const Rect& area, float from, float to, ImU32 color) {
  // Height grows from a tenth to the whole.
  const auto half = [&area](float share) { return 0.5F * area.height * (0.10F + 0.90F * share); };
  const float middle = area.y + 0.5F * area.height;
  const std::array points{ImVec2{area.x + from * area.width, middle - half(from)},
                          ImVec2{area.x + to * area.width, middle - half(to)},
                          ImVec2{area.x + to * area.width, middle + half(to)},
                          ImVec2{area.x + from * area.width, middle + half(from)}};
  ImGui::GetWindowDrawList()->AddConvexPolyFilled(points.data(), static_cast<int>(points.size()),
                                                  color);
}

std::string_view level_words(int level) {
  if (level <= 1) {
    return tr(Str::kPressLight);
  }
  return level <= 4 ? tr(Str::kPressMiddle) : tr(Str::kPressHard);
}

}  // namespace

void press_gauge(Frame& frame, const Rect& box) {
  card(frame, box);
  Rect inner = inset(box, frame.px(14.0F), frame.px(8.0F));
  Rect words = cut_left(inner, frame.px(kWords_px));
  const Rect name = cut_top(words, 0.5F * words.height);
  text_middle(frame, name, strong(frame), tr(Str::kPress));
  if (frame.model.touch) {
    text_middle(frame, words, caption(frame), tr(Str::kPressHere));
  } else {
    const float cap = frame.px(20.0F);
    const float cap_y = words.y + 0.5F * (words.height - cap);
    const float used = key_cap(frame, {words.x, cap_y}, cap, "[", frame.colors.muted);
    key_cap(frame, {words.x + used + frame.px(4.0F), cap_y}, cap, "]", frame.colors.muted);
  }

  const int level = level_of_press(frame.model.press_level_n);
  ScreenItem about;
  about.role = Role::kSlider;
  about.value = std::string(level_words(level));
  about.description = std::string(tr(Str::kPressHelp)) + " ([ ])";
  const Rect area = press_area(frame, box);
  const Touch touch = item(frame, area, tr(Str::kPressLevel), about);

  // Eight steps; the filled part is what the hand really presses now.
  const Palette& c = frame.colors;
  const float share_now =
      static_cast<float>(std::clamp(frame.model.view->load.press_n / kFull_n, 0.0, 1.0));
  for (int step = 0; step < kPressLevels; ++step) {
    const float from = static_cast<float>(step) / kPressLevels;
    const float to = (static_cast<float>(step) + 0.88F) / kPressLevels;
    wedge(area, from, to, color_of(step <= level ? c.raised_hover : c.raised));
    if (share_now > from) {
      wedge(area, from, std::min(to, share_now), color_of(c.press));
    }
  }
  const float mark = area.x + area.width * (static_cast<float>(level) + 0.88F) / kPressLevels;
  ImGui::GetWindowDrawList()->AddLine({mark, area.y - frame.px(2.0F)},
                                      {mark, area.y + area.height + frame.px(2.0F)},
                                      color_of(c.text), frame.px(3.0F));

  int wanted = level;
  const auto level_at = [&area](float x) {
    return static_cast<int>((x - area.x) / area.width * kPressLevels);
  };
  const std::optional<double> finger_x = frame.state.bench.fingers.press_x_px();
  if (finger_x.has_value()) {
    wanted = level_at(static_cast<float>(*finger_x));
  } else if (!frame.model.touch && touch.held && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
    wanted = level_at(ImGui::GetIO().MousePos.x);
  }
  const ArrowKeys keys = arrow_keys(touch);
  wanted += keys.right + keys.up;
  if (frame.state.adjust.has_value() && frame.state.adjust->id == touch.id) {
    wanted += frame.state.adjust->steps;
    frame.state.adjust.reset();
  }
  wanted = std::clamp(wanted, 0, kPressLevels - 1);
  if (wanted != level) {
    frame.emit(SetPressLevel{press_of_level_n(wanted)});
  }
  // A finger has no second button: holding the wedge presses, letting go ends it at once.
  frame.state.bench.controls.gauge(finger_x.has_value() ? press_of_level_n(wanted) : 0.0);

  if (touch.focused) {
    focus_ring(frame, area, 4.0F);
  }
  tooltip(frame, touch, tr(Str::kPressHelp));
}

}  // namespace driftbench::ui
