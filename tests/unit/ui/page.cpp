#include "page.h"

#include "base/json.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::ui_test {

Page::Page(float width, float height, float scale, ui::Theme theme)
    : context_(ImGui::CreateContext()) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {width, height};
  io.DeltaTime = 1.0F / 60.0F;
  ui_.apply_style(theme, scale, 1.0F);
}

Page::~Page() {
  ImGui::DestroyContext(context_);
}

ui::Actions Page::frame(const ui::Model& model) {
  ImGui::SetCurrentContext(context_);
  ImGui::NewFrame();
  ui::Actions actions = ui_.draw(model);
  ImGui::Render();
  return actions;
}

namespace {

void append(ui::Actions& to, ui::Actions more) {
  to.insert(to.end(), more.begin(), more.end());
}

}  // namespace

ui::Actions Page::click(const ui::Model& model, float x, float y) {
  ImGuiIO& io = ImGui::GetIO();
  ui::Actions actions;
  io.AddMousePosEvent(x, y);
  append(actions, frame(model));
  io.AddMouseButtonEvent(0, true);
  append(actions, frame(model));
  io.AddMouseButtonEvent(0, false);
  append(actions, frame(model));
  append(actions, frame(model));
  return actions;
}

ui::Actions Page::click(const ui::Model& model, std::string_view label) {
  const Item item = find(label);
  EXPECT_NE(item.id, 0U) << "nothing is called " << label;
  return click(model, item.x + 0.5F * item.w, item.y + 0.5F * item.h);
}

ui::Actions Page::key(const ui::Model& model, ImGuiKey key) {
  ImGuiIO& io = ImGui::GetIO();
  ui::Actions actions;
  io.AddKeyEvent(key, true);
  append(actions, frame(model));
  io.AddKeyEvent(key, false);
  append(actions, frame(model));
  append(actions, frame(model));
  return actions;
}

std::vector<Item> Page::items() const {
  std::vector<Item> items;
  const auto tree = base::parse_json(ui_.items_json(), "items");
  EXPECT_TRUE(tree.has_value());
  if (!tree.has_value()) {
    return items;
  }
  for (const base::JsonValue& entry : tree->items()) {
    const auto number = [&entry](std::string_view name) {
      return static_cast<float>(entry.find(name)->as_double());
    };
    Item item;
    item.id = static_cast<std::uint32_t>(entry.find("id")->as_int64());
    item.role = entry.find("role")->as_string();
    item.label = entry.find("label")->as_string();
    item.value = entry.find("value")->as_string();
    item.x = number("x");
    item.y = number("y");
    item.w = number("w");
    item.h = number("h");
    item.visible = entry.find("visible")->as_bool();
    item.enabled = entry.find("enabled")->as_bool();
    item.focused = entry.find("focused")->as_bool();
    item.checked = entry.find("checked")->as_bool();
    items.push_back(std::move(item));
  }
  return items;
}

Item Page::find(std::string_view label) const {
  const auto all = items();
  const auto found = std::find_if(all.begin(), all.end(),
                                  [label](const Item& item) { return item.label == label; });
  return found == all.end() ? Item{} : *found;
}

bool Page::tab_to(const ui::Model& model, std::string_view label) {
  constexpr int kMostControls = 60;
  for (int i = 0; i < kMostControls && !find(label).focused; ++i) {
    static_cast<void>(key(model, ImGuiKey_Tab));
  }
  return find(label).focused;
}

}  // namespace driftbench::ui_test
