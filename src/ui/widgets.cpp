#include "ui/widgets.h"

#include <imgui_internal.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

ImVec2 low(const Rect& box) {
  return {box.x, box.y};
}

ImVec2 high(const Rect& box) {
  return {box.x + box.width, box.y + box.height};
}

bool has_visible_focus(std::uint32_t id) {
  const ImGuiContext& context = *ImGui::GetCurrentContext();
  return context.NavId == id && !context.NavDisableHighlight;
}

}  // namespace

void fill(const Canvas& canvas, const Rect& box, Rgb color, float radius_px) {
  ImGui::GetWindowDrawList()->AddRectFilled(low(box), high(box), color_of(color),
                                            canvas.px(radius_px));
}

void card(const Canvas& canvas, const Rect& box) {
  fill(canvas, box, canvas.colors.surface, kRadius_px);
  ImGui::GetWindowDrawList()->AddRect(low(box), high(box), color_of(canvas.colors.line),
                                      canvas.px(kRadius_px));
}

float named_row(Canvas& canvas, const Rect& column, std::string_view name, const TextStyle& style,
                std::string_view words) {
  constexpr float kNameShare = 0.24F;
  const float indent = kNameShare * column.width;
  text(canvas, {column.x, column.y + canvas.px(2.0F), indent, column.height}, caption(canvas),
       name);
  const Rect beside{column.x + indent, column.y, column.width - indent, column.height};
  const float used = std::max(canvas.px(24.0F), text(canvas, beside, style, words));
  const float y = column.y + used + canvas.px(4.0F);
  ImGui::GetWindowDrawList()->AddLine({column.x, y}, {column.x + column.width, y},
                                      color_of(canvas.colors.line));
  return used + canvas.px(8.0F);
}

void focus_ring(const Canvas& canvas, const Rect& box, float radius_px) {
  const float away = canvas.px(3.0F);
  ImGui::GetWindowDrawList()->AddRect(
      {box.x - away, box.y - away}, {box.x + box.width + away, box.y + box.height + away},
      color_of(canvas.colors.focus), canvas.px(radius_px) + away, 0, canvas.px(3.0F));
}

Touch item(Canvas& canvas, const Rect& box, std::string_view name, const ScreenItem& about) {
  Touch touch;
  const Rect safe{box.x, box.y, std::max(1.0F, box.width), std::max(1.0F, box.height)};
  const std::string id_text(name);
  ImGui::SetCursorScreenPos(low(safe));
  ImGui::BeginDisabled(!about.enabled);
  // Disabled items would be dimmed by ImGui; the widgets draw that themselves.
  touch.pressed = ImGui::InvisibleButton(id_text.c_str(), {safe.width, safe.height});
  touch.id = ImGui::GetItemID();
  touch.held = ImGui::IsItemActive();
  touch.hovered = ImGui::IsItemHovered();
  touch.focused = has_visible_focus(touch.id);
  ImGui::EndDisabled();
  ScreenItem described = about;
  if (described.label.empty()) {
    described.label = id_text.substr(0, id_text.find("##"));
  }
  described.focused = touch.focused;
  canvas.items.describe(touch.id, described);
  return touch;
}

float key_cap_width(const Canvas& canvas, std::string_view key, float height) {
  return std::max(height, text_size(canvas.fonts.caption, key).x + canvas.px(12.0F));
}

float key_cap(const Canvas& canvas, ImVec2 position, float height, std::string_view key, Rgb ink) {
  const ImVec2 size = text_size(canvas.fonts.caption, key);
  const float width = key_cap_width(canvas, key, height);
  ImGui::GetWindowDrawList()->AddRect(position, {position.x + width, position.y + height},
                                      color_of(ink, 0.55F), canvas.px(4.0F));
  draw_text(canvas.fonts.caption, ink,
            {position.x + 0.5F * (width - size.x), position.y + 0.5F * (height - size.y)}, key);
  return width;
}

namespace {

constexpr float kButtonPad_px = 16.0F;
constexpr float kKeyGap_px = 10.0F;
constexpr float kKeyCap_px = 22.0F;
constexpr float kSwitchWidth_px = 34.0F;

struct ButtonInk {
  Rgb back;
  Rgb ink;
  bool has_back = true;
  bool has_border = false;
};

ButtonInk ink_of(const Canvas& canvas, const Button& spec, const Touch& touch) {
  const Palette& c = canvas.colors;
  const bool lifted = touch.hovered || touch.held;
  if (!spec.enabled) {
    return {c.surface, c.muted, false, true};
  }
  switch (spec.kind) {
    case ButtonKind::kPrimary:
      return {lifted ? c.accent_hover : c.accent, c.on_accent};
    case ButtonKind::kNormal:
      return {lifted ? c.raised_hover : c.raised, c.text, true, true};
    case ButtonKind::kQuiet:
      return {c.raised, c.text, lifted, false};
    case ButtonKind::kDanger:
      return {lifted ? c.raised_hover : c.raised, c.danger, true, true};
  }
  return {c.raised, c.text};
}

// A small sliding switch: its place and a check say on or off, not the colour alone.
void draw_switch(const Canvas& canvas, ImVec2 at, bool on) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float w = canvas.px(kSwitchWidth_px);
  const float h = canvas.px(20.0F);
  const Palette& c = canvas.colors;
  list->AddRectFilled(at, {at.x + w, at.y + h}, color_of(on ? c.accent : c.surface), 0.5F * h);
  list->AddRect(at, {at.x + w, at.y + h}, color_of(on ? c.accent : c.outline), 0.5F * h, 0,
                canvas.px(1.5F));
  const float knob_x = on ? at.x + w - 0.5F * h : at.x + 0.5F * h;
  list->AddCircleFilled({knob_x, at.y + 0.5F * h}, 0.5F * h - canvas.px(3.5F),
                        color_of(on ? c.on_accent : c.outline));
}

// Room for the key on a button, 0 without one.
float key_room(const Canvas& canvas, const Button& spec) {
  return spec.key.empty()
             ? 0.0F
             : key_cap_width(canvas, spec.key, canvas.px(kKeyCap_px)) + canvas.px(kKeyGap_px);
}

}  // namespace

float button_width(const Canvas& canvas, const Button& spec) {
  const Face& face = spec.kind == ButtonKind::kPrimary ? canvas.fonts.strong : canvas.fonts.body;
  float width = text_size(face, spec.label).x + 2.0F * canvas.px(kButtonPad_px);
  width += key_room(canvas, spec);
  if (spec.is_switch) {
    width += canvas.px(kSwitchWidth_px + kKeyGap_px);
  }
  return std::ceil(width);
}

bool button(Canvas& canvas, const Rect& box, const Button& spec) {
  ScreenItem about;
  about.role = spec.is_switch ? Role::kToggle : Role::kButton;
  about.label = spec.name.empty() ? spec.label : spec.name;
  about.description = spec.description;
  if (!spec.key.empty()) {
    about.description += about.description.empty() ? spec.key : " (" + spec.key + ")";
  }
  about.enabled = spec.enabled;
  about.checked = spec.on;
  about.cut = button_width(canvas, spec) - 2.0F * canvas.px(kButtonPad_px) -
                  (canvas.is_touch ? key_room(canvas, spec) : 0.0F) >
              box.width;
  const std::string name =
      (spec.name.empty() ? spec.label : spec.name) + (spec.id.empty() ? "" : "###" + spec.id);
  const Touch touch = item(canvas, box, name, about);

  const ButtonInk ink = ink_of(canvas, spec, touch);
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (ink.has_back) {
    fill(canvas, box, ink.back, kRadiusSmall_px);
  }
  if (ink.has_border) {
    list->AddRect(low(box), high(box), color_of(canvas.colors.outline, spec.enabled ? 0.9F : 0.45F),
                  canvas.px(kRadiusSmall_px));
  }
  const Face& face = spec.kind == ButtonKind::kPrimary ? canvas.fonts.strong : canvas.fonts.body;
  const ImVec2 label_size = text_size(face, spec.label);
  // A finger has no keys. The button stays as wide, so that it does not move under the finger.
  const bool shows_key = !spec.key.empty() && !canvas.is_touch;
  const float content = button_width(canvas, spec) - 2.0F * canvas.px(kButtonPad_px) -
                        (shows_key ? 0.0F : key_room(canvas, spec));
  float x = box.x + 0.5F * (box.width - content);
  const float middle = box.y + 0.5F * box.height;
  if (spec.is_switch) {
    draw_switch(canvas, {x, middle - canvas.px(10.0F)}, spec.on);
    x += canvas.px(kSwitchWidth_px + kKeyGap_px);
  }
  draw_text(face, ink.ink, {x, middle - 0.5F * label_size.y}, spec.label);
  x += label_size.x + canvas.px(kKeyGap_px);
  if (shows_key) {
    key_cap(canvas, {x, middle - 0.5F * canvas.px(kKeyCap_px)}, canvas.px(kKeyCap_px), spec.key,
            ink.ink);
  }
  if (touch.focused) {
    focus_ring(canvas, box, kRadiusSmall_px);
  }
  if (!spec.description.empty()) {
    tooltip(canvas, touch, spec.description);
  }
  return touch.pressed;
}

bool choice(Canvas& canvas, const Rect& box, std::string_view label, bool chosen,
            std::string_view id, std::string_view spoken) {
  ScreenItem about;
  about.role = Role::kRadio;
  about.label = std::string(spoken.empty() ? label : spoken);
  about.checked = chosen;
  about.cut = text_size(canvas.fonts.strong, label).x > box.width;
  const std::string name = std::string(label) + "##" + std::string(id);
  const Touch touch = item(canvas, box, name, about);
  const Palette& c = canvas.colors;
  const Rgb back = chosen ? c.accent : (touch.hovered ? c.raised_hover : c.raised);
  fill(canvas, box, back, kRadiusSmall_px);
  if (!chosen) {
    ImGui::GetWindowDrawList()->AddRect(low(box), high(box), color_of(c.outline, 0.9F),
                                        canvas.px(kRadiusSmall_px));
  }
  const Face& face = chosen ? canvas.fonts.strong : canvas.fonts.body;
  const ImVec2 size = text_size(face, label);
  draw_text(face, chosen ? c.on_accent : c.text,
            {box.x + 0.5F * (box.width - size.x), box.y + 0.5F * (box.height - size.y)}, label);
  if (touch.focused) {
    focus_ring(canvas, box, kRadiusSmall_px);
  }
  return touch.pressed;
}

namespace {

// A finger covers what it presses, and stays on it: only what cannot be pressed explains itself.
bool is_under_finger(const Canvas& canvas, const Touch& touch) {
  const ScreenItem* item = canvas.is_touch ? canvas.items.find(touch.id) : nullptr;
  return item != nullptr && item->role != Role::kText && item->role != Role::kImage;
}

}  // namespace

void tooltip(Canvas& canvas, const Touch& touch, std::string_view content) {
  if (!touch.hovered && !touch.focused) {
    return;
  }
  const bool waits = ImGui::GetCurrentContext()->HoveredIdTimer < ImGui::GetStyle().HoverDelayShort;
  if (!touch.focused && (waits || ImGui::IsAnyMouseDown() || is_under_finger(canvas, touch))) {
    return;
  }
  const float wrap = canvas.px(300.0F);
  const float pad = canvas.px(12.0F);
  const Face& face = canvas.fonts.caption;
  const ImVec2 size = text_size(face, content, wrap);
  const ImRect anchor = ImGui::GetCurrentContext()->LastItemData.Rect;
  const ImVec2 page = ImGui::GetIO().DisplaySize;
  const float width = size.x + 2.0F * pad;
  const float height = size.y + 2.0F * pad;
  float x = std::min(anchor.Min.x, page.x - width - pad);
  float y = anchor.Max.y + canvas.px(8.0F);
  if (y + height > page.y) {
    y = anchor.Min.y - canvas.px(8.0F) - height;
  }
  x = std::max(x, pad);
  ImDrawList* list = ImGui::GetForegroundDrawList();
  list->AddRectFilled({x, y}, {x + width, y + height}, color_of(canvas.colors.text),
                      canvas.px(kRadiusSmall_px));
  draw_wrapped(*list, face, canvas.colors.page, {x + pad, y + pad}, wrap, content);
}

ArrowKeys arrow_keys(const Touch& touch) {
  ArrowKeys keys;
  if (!touch.focused) {
    return keys;
  }
  const ImGuiID owner = touch.id;
  constexpr std::array kTaken{ImGuiKey_LeftArrow, ImGuiKey_RightArrow, ImGuiKey_UpArrow,
                              ImGuiKey_DownArrow, ImGuiKey_Home,       ImGuiKey_End};
  for (const ImGuiKey key : kTaken) {
    ImGui::SetKeyOwner(key, owner);
  }
  const auto pressed = [owner](ImGuiKey key) {
    return ImGui::IsKeyPressed(key, owner, ImGuiInputFlags_Repeat) ? 1 : 0;
  };
  keys.right = pressed(ImGuiKey_RightArrow) - pressed(ImGuiKey_LeftArrow);
  keys.up = pressed(ImGuiKey_UpArrow) - pressed(ImGuiKey_DownArrow);
  keys.home = pressed(ImGuiKey_Home) != 0;
  keys.end = pressed(ImGuiKey_End) != 0;
  keys.fine = ImGui::GetIO().KeyShift;
  return keys;
}

bool key_hit(ImGuiKey key) {
  return ImGui::IsKeyPressed(key, ImGuiKeyOwner_Any, ImGuiInputFlags_None);
}

void begin_scroll(const char* id, ImVec2 size) {
  ImGui::BeginChild(id, size, ImGuiChildFlags_None, ImGuiWindowFlags_NavFlattened);
}

namespace {

// A finger moves the page under it. What it came down on is let go of, unless it is dragged itself.
void follow_finger(const Canvas& canvas) {
  constexpr float kStart_px = 10.0F;
  constexpr ImGuiID kFollows = 1;  // in the child's own storage
  ImGuiContext& context = *ImGui::GetCurrentContext();
  const ImGuiIO& io = context.IO;
  ImGuiWindow* window = context.CurrentWindow;
  if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
    const std::uint32_t held = context.ActiveId;
    const ScreenItem* item = canvas.items.find(held);
    const bool is_dragged = item != nullptr && item->role == Role::kSlider && item->is_dragged;
    const bool is_bar = held == ImGui::GetWindowScrollbarID(window, ImGuiAxis_Y);
    window->StateStorage.SetBool(
        kFollows, canvas.is_touch && context.HoveredWindow == window && !is_dragged && !is_bar);
  }
  if (ImGui::IsMouseDragging(ImGuiMouseButton_Left, canvas.px(kStart_px)) &&
      window->StateStorage.GetBool(kFollows)) {
    ImGui::ClearActiveID();
    ImGui::SetScrollY(ImGui::GetScrollY() - io.MouseDelta.y);
  }
}

}  // namespace

void end_scroll(const Canvas& canvas, Rgb back) {
  constexpr float kFade_px = 30.0F;
  follow_finger(canvas);
  if (ImGui::GetScrollY() < ImGui::GetScrollMaxY() - 1.0F) {
    const ImVec2 at = ImGui::GetWindowPos();
    const ImVec2 size = ImGui::GetWindowSize();
    const float right = at.x + size.x - ImGui::GetStyle().ScrollbarSize;
    const float bottom = at.y + size.y;
    const ImU32 clear = color_of(back, 0.0F);
    const ImU32 solid = color_of(back);
    ImGui::GetWindowDrawList()->AddRectFilledMultiColor(
        {at.x, bottom - canvas.px(kFade_px)}, {right, bottom}, clear, clear, solid, solid);
  }
  ImGui::EndChild();
}

ScrolledPage begin_page(const Canvas& canvas, const char* id, const Rect& room, bool keeps_place) {
  constexpr float kWidest_px = 1240.0F;
  constexpr float kEndless = 1'000'000.0F;
  ImGui::SetCursorScreenPos({room.x, room.y});
  begin_scroll(id, {room.width, room.height});
  if (!keeps_place && ImGui::IsWindowAppearing()) {
    ImGui::SetScrollY(0.0F);
  }
  const ImVec2 origin = ImGui::GetCursorScreenPos();
  const Rect column =
      centred_column({origin.x, origin.y, room.width, kEndless}, canvas.px(kWidest_px));
  return {origin, inset(column, canvas.px(kGapLarge_px), canvas.px(kGap_px))};
}

void end_page(const Canvas& canvas, const ScrolledPage& page, float bottom) {
  ImGui::SetCursorScreenPos(page.origin);
  ImGui::Dummy({1.0F, bottom - page.origin.y});
  end_scroll(canvas, canvas.colors.page);
}

Touch picture(Canvas& canvas, const Rect& box, const Image& image, std::string_view name,
              std::string_view description, std::string_view value) {
  ScreenItem about;
  about.value = std::string(value);
  about.role = Role::kImage;
  about.description = std::string(description);
  const Touch touch = item(canvas, box, name, about);
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (image.texture != 0) {
    // Textures have their origin at the bottom left.
    list->AddImageRounded(reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(image.texture)),
                          low(box), high(box), {0.0F, 1.0F}, {1.0F, 0.0F},
                          IM_COL32(255, 255, 255, 255), canvas.px(kRadiusSmall_px));
  } else {
    fill(canvas, box, canvas.colors.raised, kRadiusSmall_px);
  }
  if (touch.focused) {
    focus_ring(canvas, box, kRadiusSmall_px);
  }
  return touch;
}

}  // namespace driftbench::ui
