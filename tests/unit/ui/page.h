// A page without a window: draws the interface into nothing, presses what a person would press.
#pragma once

#include "ui/item_tree.h"
#include "ui/ui.h"

#include <imgui.h>

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::ui_test {

/// One thing of the item tree, as the page's mirror would read it.
struct Item {
  std::uint32_t id = 0;
  std::string role;
  std::string label;
  std::string value;
  float x = 0, y = 0, w = 0, h = 0;
  bool visible = false, enabled = false, focused = false, checked = false;
};

/// Owns a Dear ImGui context and a Ui; input goes through the same queues as in the app.
class Page {
 public:
  Page(float width, float height, float scale = 1.0F, ui::Theme theme = ui::Theme::kDark);
  ~Page();
  Page(const Page&) = delete;
  Page& operator=(const Page&) = delete;

  /// Draws one frame of 1/60 s and gives what was asked for.
  ui::Actions frame(const ui::Model& model);

  /// Moves there, presses and lets go of a mouse button; gives all actions of those frames.
  ui::Actions click(const ui::Model& model, float x, float y);

  /// Clicks the middle of the item with this label. Fails the test when there is none.
  ui::Actions click(const ui::Model& model, std::string_view label);

  /// Presses and lets go of a key.
  ui::Actions key(const ui::Model& model, ImGuiKey key);

  [[nodiscard]] std::vector<Item> items() const;

  /// The item whose label is `label`; an empty item (id 0) when there is none.
  [[nodiscard]] Item find(std::string_view label) const;

  /// Presses Tab until the item with this label has the focus; false when it never does.
  [[nodiscard]] bool tab_to(const ui::Model& model, std::string_view label);

  [[nodiscard]] ui::Ui& interface() { return ui_; }

 private:
  ImGuiContext* context_;
  ui::Ui ui_;
};

/// The actions of one kind.
template <class T>
[[nodiscard]] std::vector<T> of_kind(const ui::Actions& actions) {
  std::vector<T> found;
  for (const ui::Action& action : actions) {
    if (const T* match = std::get_if<T>(&action)) {
      found.push_back(*match);
    }
  }
  return found;
}

}  // namespace driftbench::ui_test
