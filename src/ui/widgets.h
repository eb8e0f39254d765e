// Text, buttons and the other parts that every panel is made of.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

#include <string>
#include <string_view>

namespace driftbench::ui {

[[nodiscard]] ImU32 color_of(Rgb color, float alpha = 1.0F);

enum class Align { kLeft, kCentre, kRight };

/// How a text looks and what it is.
struct TextStyle {
  Face face;
  Rgb color;
  Align align = Align::kLeft;
  Role role = Role::kText;
};

[[nodiscard]] ImVec2 text_size(const Face& face, std::string_view text, float wrap_px = 0.0F);

/// Draws wrapped text at the top of the box; gives its height. Never cut: the caller leaves room.
float text(Canvas& canvas, const Rect& box, const TextStyle& style, std::string_view content);

/// A row of a table: a name in small type, its words beside it, a line below. Gives its height.
float named_row(Canvas& canvas, const Rect& column, std::string_view name, const TextStyle& style,
                std::string_view words);

/// Wrapped text in the vertical middle of the box.
void text_middle(Canvas& canvas, const Rect& box, const TextStyle& style, std::string_view content);

/// The same into another list, left-aligned (tooltips).
void draw_wrapped(ImDrawList& list, const Face& face, Rgb color, ImVec2 position, float wrap_px,
                  std::string_view content);

/// Draws without telling the item tree (axis numbers, glyphs in buttons).
void draw_text(const Face& face, Rgb color, ImVec2 position, std::string_view content);

/// Common styles.
[[nodiscard]] TextStyle body(const Canvas& canvas);
[[nodiscard]] TextStyle strong(const Canvas& canvas);
[[nodiscard]] TextStyle caption(const Canvas& canvas);
[[nodiscard]] TextStyle heading(const Canvas& canvas);
[[nodiscard]] TextStyle lead(const Canvas& canvas);

/// What happened to an item.
struct Touch {
  std::uint32_t id = 0;
  bool pressed = false;  ///< clicked, tapped, or activated by key
  bool held = false;
  bool hovered = false;
  bool focused = false;  ///< has the visible keyboard focus
};

/// An invisible item with a role and a name; the caller draws it.
Touch item(Canvas& canvas, const Rect& box, std::string_view name, const ScreenItem& about);

/// Ring around what has the keyboard focus.
void focus_ring(const Canvas& canvas, const Rect& box, float radius_px);

/// Card and well backgrounds.
void fill(const Canvas& canvas, const Rect& box, Rgb color, float radius_px);
void card(const Canvas& canvas, const Rect& box);

enum class ButtonKind { kPrimary, kNormal, kQuiet, kDanger };

struct Button {
  std::string label;
  std::string key = {};  ///< shown on the button as a key cap
  ButtonKind kind = ButtonKind::kNormal;
  bool enabled = true;
  bool is_switch = false;
  bool on = false;
  std::string name = {};         ///< for assistive tools, when the label alone is not clear
  std::string description = {};  ///< also the tooltip
  std::string id = {};           ///< unique on the screen; keeps the focus when the label changes
};

/// Gives true when it was pressed.
bool button(Canvas& canvas, const Rect& box, const Button& spec);

/// Width that a button needs.
[[nodiscard]] float button_width(const Canvas& canvas, const Button& spec);

/// One of several; filled when chosen. `name` is for assistive tools where the label alone says
/// too little.
bool choice(Canvas& canvas, const Rect& box, std::string_view label, bool chosen,
            std::string_view id = {}, std::string_view name = {});

[[nodiscard]] float key_cap_width(const Canvas& canvas, std::string_view key, float height);

/// A key cap with its letter; gives the width used.
float key_cap(const Canvas& canvas, ImVec2 position, float height, std::string_view key, Rgb ink);

/// Shows a tooltip for the last item when it is hovered or has the keyboard focus.
void tooltip(Canvas& canvas, const Touch& touch, std::string_view content);

/// Takes arrow, Home and End keys from navigation while `touch` has the focus. Gives the steps:
/// right and up +1, with Shift `fine` is set.
struct ArrowKeys {
  int right = 0;
  int up = 0;
  bool fine = false;
  bool home = false;
  bool end = false;
};

[[nodiscard]] ArrowKeys arrow_keys(const Touch& touch);

/// True in the frame in which a key goes down, whatever has the focus.
[[nodiscard]] bool key_hit(ImGuiKey key);

/// Child window that scrolls; Tab walks through it like through the page.
void begin_scroll(const char* id, ImVec2 size);

/// Ends it. Content that goes on below fades into `back`, the colour behind the child.
void end_scroll(const Canvas& canvas, Rgb back);

/// A screen's page that scrolls: its text column in the middle, as tall as it needs to be.
struct ScrolledPage {
  ImVec2 origin;
  Rect column;
};

/// Shown anew it begins at its top, unless it `keeps_place`.
[[nodiscard]] ScrolledPage begin_page(const Canvas& canvas, const char* id, const Rect& room,
                                      bool keeps_place = false);

/// `bottom`: where the page ends, in the coordinates of its column.
void end_page(const Canvas& canvas, const ScrolledPage& page, float bottom);

/// A picture of the app, flipped upright, with a name; `value` says what it shows now.
Touch picture(Canvas& canvas, const Rect& box, const Image& image, std::string_view name,
              std::string_view description, std::string_view value = {});

}  // namespace driftbench::ui
