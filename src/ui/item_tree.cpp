#include "ui/item_tree.h"

#include "base/json_writer.h"
#include "base/text.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace driftbench::ui {

namespace {

ItemTree* current_tree = nullptr;  // of the frame being drawn; the hooks carry no user pointer

double rounded(float value) {
  return std::round(static_cast<double>(value) * 10.0) / 10.0;
}

Rect to_rect(const ImRect& box) {
  return {box.Min.x, box.Min.y, std::max(0.0F, box.GetWidth()), std::max(0.0F, box.GetHeight())};
}

}  // namespace

void ItemTree::begin_frame() {
  items_.clear();
  current_tree = this;
  ImGui::GetCurrentContext()->TestEngineHookItems = true;
}

void ItemTree::add_text(Role role, std::string_view text, const Rect& rect, bool cut) {
  ScreenItem item;
  item.role = role;
  item.label = std::string(text);
  item.rect = rect;
  item.cut = cut;
  item.described = true;
  const ImGuiWindow* window = ImGui::GetCurrentContext()->CurrentWindow;
  if (window != nullptr) {
    ImRect visible(rect.x, rect.y, rect.x + rect.width, rect.y + rect.height);
    visible.ClipWith(window->ClipRect);
    item.rect = to_rect(visible);
  }
  items_.push_back(std::move(item));
}

const ScreenItem* ItemTree::find(std::uint32_t id) const {
  const auto found = std::find_if(items_.rbegin(), items_.rend(),
                                  [id](const ScreenItem& item) { return item.id == id; });
  return found == items_.rend() ? nullptr : &*found;
}

ScreenItem* ItemTree::find_own(std::uint32_t id) {
  return const_cast<ScreenItem*>(find(id));
}

void ItemTree::add_item(std::uint32_t id, const Rect& rect) {
  ScreenItem item;
  item.id = id;
  item.rect = rect;
  items_.push_back(std::move(item));
}

void ItemTree::label_item(std::uint32_t id, std::string_view label) {
  ScreenItem* item = find_own(id);
  if (item != nullptr && item->label.empty()) {
    item->label = std::string(label.substr(0, label.find("##")));
  }
}

void ItemTree::describe(std::uint32_t id, const ScreenItem& about) {
  ScreenItem* item = find_own(id);
  if (item == nullptr) {
    return;  // scrolled out of sight
  }
  const Rect rect = item->rect;
  *item = about;
  item->id = id;
  item->rect = rect;
  item->described = true;
}

std::string_view role_name(Role role) {
  switch (role) {
    case Role::kButton:
      return "button";
    case Role::kToggle:
      return "switch";
    case Role::kRadio:
      return "radio";
    case Role::kSlider:
      return "slider";
    case Role::kImage:
      return "img";
    case Role::kHeading:
      return "heading";
    case Role::kText:
      return "text";
    case Role::kStatus:
      return "status";
  }
  return "text";
}

std::string ItemTree::json() const {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_array();
  for (const ScreenItem& item : items_) {
    if (!item.described) {
      continue;
    }
    out.begin_object();
    out.field("id", static_cast<std::int64_t>(item.id));
    out.field("role", role_name(item.role));
    out.field("label", item.label);
    out.field("value", item.value);
    out.field("description", item.description);
    out.field("x", rounded(item.rect.x));
    out.field("y", rounded(item.rect.y));
    out.field("w", rounded(item.rect.width));
    out.field("h", rounded(item.rect.height));
    out.field("visible", item.rect.width > 0.0F && item.rect.height > 0.0F);
    out.field("enabled", item.enabled);
    out.field("focused", item.focused);
    out.field("checked", item.checked);
    if (item.cut) {
      out.field("cut", true);
    }
    out.end_object();
  }
  out.end_array();
  return out.take();
}

}  // namespace driftbench::ui

// Hooks that Dear ImGui calls when it was compiled with IMGUI_ENABLE_TEST_ENGINE.

void ImGuiTestEngineHook_ItemAdd(ImGuiContext* context, ImGuiID id, const ImRect& box,
                                 const ImGuiLastItemData* data) {
  if (id == 0 || driftbench::ui::current_tree == nullptr) {
    return;
  }
  ImRect visible = data != nullptr ? data->Rect : box;
  if (context->CurrentWindow != nullptr) {
    visible.ClipWith(context->CurrentWindow->ClipRect);
  }
  driftbench::ui::current_tree->add_item(id, driftbench::ui::to_rect(visible));
}

void ImGuiTestEngineHook_ItemInfo(ImGuiContext* context, ImGuiID id, const char* label,
                                  ImGuiItemStatusFlags flags) {
  static_cast<void>(context);
  static_cast<void>(flags);
  if (driftbench::ui::current_tree != nullptr && label != nullptr) {
    driftbench::ui::current_tree->label_item(id, label);
  }
}

void ImGuiTestEngineHook_Log(ImGuiContext* context, const char* format, ...) {
  static_cast<void>(context);
  static_cast<void>(format);
}

const char* ImGuiTestEngine_FindItemDebugLabel(ImGuiContext* context, ImGuiID id) {
  static_cast<void>(context);
  static_cast<void>(id);
  return nullptr;
}
