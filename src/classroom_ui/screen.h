// Draws one frame of the Classroom and returns what the person asked for.
#pragma once

#include "classroom_ui/action.h"
#include "classroom_ui/model.h"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace driftbench::classroom_ui {

class Screen {
 public:
  Screen();
  ~Screen();
  Screen(const Screen&) = delete;
  Screen& operator=(const Screen&) = delete;

  /// Loads fonts and style into the current ImGui context; the caller uploads the atlas anew.
  void apply_style(ui::Theme theme, float scale, float pixel_ratio);

  /// To be called between ImGui::NewFrame() and ImGui::Render().
  [[nodiscard]] Actions draw(const Model& model);

  /// The class has changed: its pictures are drawn anew.
  void renew();

  /// What the last frame showed, as JSON (see ui/item_tree.h).
  [[nodiscard]] std::string items_json() const;

  /// Name of the page that is shown, for tests.
  [[nodiscard]] std::string_view page_name() const;

  /// From the page's mirror: press or focus an item.
  void activate(std::uint32_t item_id);
  void focus(std::uint32_t item_id);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace driftbench::classroom_ui
