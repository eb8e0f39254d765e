// What is on the screen as data: for tests and for the page's mirror that assistive tools read.
#pragma once

#include "ui/ui.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::ui {

enum class Role {
  kButton,
  kToggle,  ///< on or off
  kRadio,   ///< one of several
  kSlider,  ///< value moved by arrows or dragging
  kImage,
  kHeading,
  kText,
  kStatus  ///< changes by itself, worth announcing
};

/// One thing on the screen, in the order it was drawn (which is the order of Tab).
struct ScreenItem {
  std::uint32_t id = 0;  ///< of ImGui; 0 for text
  std::string label;     ///< stable name for people
  std::string value;
  std::string description;  ///< key, definition
  Role role = Role::kText;
  Rect rect;  ///< visible part, logical px
  bool enabled = true;
  bool focused = false;
  bool checked = false;
  bool cut = false;        ///< its words are wider than their room
  bool is_dragged = true;  ///< a slider that follows a finger
  bool described = false;  ///< a widget gave its role
};

/// Collects the items of a frame from Dear ImGui's item hooks and from the widgets themselves.
class ItemTree {
 public:
  /// Starts a frame and makes the hooks report to this tree.
  void begin_frame();

  /// A text without interaction.
  void add_text(Role role, std::string_view text, const Rect& rect, bool cut = false);

  /// Says what the item with this id is; it must have been submitted in this frame.
  void describe(std::uint32_t id, const ScreenItem& about);

  /// Called by the hooks.
  void add_item(std::uint32_t id, const Rect& rect);
  void label_item(std::uint32_t id, std::string_view label);

  [[nodiscard]] const std::vector<ScreenItem>& items() const { return items_; }

  /// Null when no item of this frame has the id.
  [[nodiscard]] const ScreenItem* find(std::uint32_t id) const;

  /// Array of objects: id, role, label, value, description, x, y, w, h, visible, enabled, focused,
  /// checked, cut where it is. Things scrolled out of sight have visible = false.
  [[nodiscard]] std::string json() const;

 private:
  [[nodiscard]] ScreenItem* find_own(std::uint32_t id);
  std::vector<ScreenItem> items_;
};

[[nodiscard]] std::string_view role_name(Role role);

}  // namespace driftbench::ui
