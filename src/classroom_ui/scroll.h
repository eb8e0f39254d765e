// A column of text that scrolls: draws downward and tells Dear ImGui how long it became.
#pragma once

#include "ui/language.h"
#include "ui/layout.h"
#include "ui/widgets.h"

namespace driftbench::classroom_ui {

class Column {
 public:
  /// Begins a scrolling child over `room`.
  Column(ui::Canvas& canvas, const char* id, const ui::Rect& room) : canvas_(canvas) {
    ImGui::SetCursorScreenPos({room.x, room.y});
    ui::begin_scroll(id, {room.width, room.height});
    const ImVec2 at = ImGui::GetCursorScreenPos();
    constexpr float kBar_px = 18.0F;
    rest_ = {at.x, at.y, room.width - canvas.px(kBar_px), 1e6F};
    top_ = at;
  }

  ~Column() {
    ImGui::SetCursorScreenPos(top_);
    ImGui::Dummy({1.0F, rest_.y - top_.y});
    ui::end_scroll(canvas_, canvas_.colors.page);
  }

  Column(const Column&) = delete;
  Column& operator=(const Column&) = delete;

  /// Sentences of the core are said in the language in use.
  void words(const ui::TextStyle& style, std::string_view content, float below_px = 8.0F) {
    ui::cut_top(rest_, ui::text(canvas_, rest_, style, ui::in_language(content)));
    gap(below_px);
  }

  void gap(float size_px) { ui::cut_top(rest_, canvas_.px(size_px)); }

  [[nodiscard]] ui::Rect cut(float height) { return ui::cut_top(rest_, height); }

  [[nodiscard]] float width() const { return rest_.width; }

 private:
  ui::Canvas& canvas_;
  ui::Rect rest_;
  ImVec2 top_;
};

}  // namespace driftbench::classroom_ui
