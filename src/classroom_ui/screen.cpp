#include "classroom_ui/screen.h"

#include "classroom_ui/frame.h"
#include "classroom_ui/strings.h"

#include "ui/bars.h"
#include "ui/fonts.h"
#include "ui/style.h"

#include <imgui.h>
#include <imgui_internal.h>

namespace driftbench::classroom_ui {

struct Screen::Impl {
  ui::Theme theme = ui::Theme::kDark;
  float scale = 1.0F;
  float pixel_ratio = 0.0F;
  ui::Fonts fonts;
  ui::ItemTree items;
  State state;
  bool is_empty = true;
};

Screen::Screen() : impl_(std::make_unique<Impl>()) {}

Screen::~Screen() = default;

void Screen::apply_style(ui::Theme theme, float scale, float pixel_ratio) {
  Impl& self = *impl_;
  self.theme = theme;
  if (scale != self.scale || pixel_ratio != self.pixel_ratio) {
    self.scale = scale;
    self.pixel_ratio = pixel_ratio;
    self.fonts = ui::build_fonts(scale, pixel_ratio);
  }
  ui::set_style(theme, scale);
}

Actions Screen::draw(const Model& model) {
  Impl& self = *impl_;
  self.items.begin_frame();
  Actions actions;
  Frame frame{{ui::palette(self.theme), self.fonts, self.scale, self.items, model.is_touch},
              model,
              self.state,
              actions};
  const ImVec2 size = ImGui::GetIO().DisplaySize;
  ui::begin_page();
  const ui::Rect page{0.0F, 0.0F, size.x, size.y};
  self.is_empty = model.roster == nullptr;
  if (self.is_empty) {
    self.state = State{};
    empty_page(frame, page);
  } else {
    class_page(frame, page);
  }
  if (!model.notice.empty() &&
      ui::notice_card(frame, page, model.notice, model.notice_is_error, tr(Str::kClose))) {
    frame.emit(DismissNotice{});
  }
  ImGui::End();
  return actions;
}

void Screen::renew() {
  impl_->state.pictured.reset();
}

std::string Screen::items_json() const {
  return impl_->items.json();
}

std::string_view Screen::page_name() const {
  return impl_->is_empty ? "empty" : page_title(impl_->state.page);
}

void Screen::activate(std::uint32_t item_id) {
  ImGui::ActivateItemByID(item_id);
}

void Screen::focus(std::uint32_t item_id) {
  ui::focus_item(item_id);
}

}  // namespace driftbench::classroom_ui
