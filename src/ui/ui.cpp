#include "ui/ui.h"

#include "ui/fonts.h"
#include "ui/frame.h"
#include "ui/item_tree.h"
#include "ui/panels.h"
#include "ui/state.h"
#include "ui/strings.h"
#include "ui/style.h"
#include "ui/theme.h"
#include "ui/widgets.h"

#include <imgui.h>
#include <imgui_internal.h>

namespace driftbench::ui {

struct Ui::Impl {
  Theme theme = Theme::kDark;
  float scale = 1.0F;
  float pixel_ratio = 0.0F;
  Fonts fonts;
  State state;
  ItemTree items;
  PictureRects rects;
};

Ui::Ui() : impl_(std::make_unique<Impl>()) {}

Ui::~Ui() = default;

void Ui::apply_style(Theme theme, float scale, float pixel_ratio) {
  Impl& self = *impl_;
  const bool fonts_change = scale != self.scale || pixel_ratio != self.pixel_ratio;
  self.theme = theme;
  self.scale = scale;
  self.pixel_ratio = pixel_ratio;
  if (fonts_change) {
    self.fonts = build_fonts(scale, pixel_ratio);
  }

  set_style(theme, scale);
}

Actions Ui::draw(const Model& model) {
  Impl& self = *impl_;
  self.items.begin_frame();
  self.rects = PictureRects{};
  Actions actions;
  Frame frame{{palette(self.theme), self.fonts, self.scale, self.items, model.touch},
              model,
              self.state,
              self.rects,
              actions};

  const ImVec2 size = ImGui::GetIO().DisplaySize;
  begin_page();
  const Rect page{0.0F, 0.0F, size.x, size.y};
  if (self.state.last_screen != model.screen) {
    self.state.delete_armed.clear();
    self.state.debrief.compare_open = false;
  }
  switch (model.screen) {
    case Screen::kShelf:
      shelf(frame, page);
      break;
    case Screen::kLesson:
      lesson_page(frame, page);
      break;
    case Screen::kLogbook:
      logbook(frame, page);
      break;
    case Screen::kBriefing:
      briefing(frame, page);
      break;
    case Screen::kBench:
      bench(frame, page);
      break;
    case Screen::kEstimate:
      estimate(frame, page);
      break;
    case Screen::kDebrief:
      if (model.shown == lesson::Shown::kEverything && model.reveal_in_s <= 0.0) {
        debrief(frame, page);
      } else {
        quiet_debrief(frame, page);
      }
      break;
    case Screen::kStudy:
      study(frame, page);
      break;
    case Screen::kExample:
      worked_example(frame, page);
      break;
    case Screen::kPrediction:
      prediction(frame, page);
      break;
  }
  notice(frame, page);
  forget_gone_focus();
  self.state.last_screen = model.screen;
  self.state.adjust.reset();
  ImGui::End();
  return actions;
}

const PictureRects& Ui::rects() const {
  return impl_->rects;
}

std::string Ui::items_json() const {
  return impl_->items.json();
}

void Ui::activate(std::uint32_t item_id) {
  ImGui::ActivateItemByID(item_id);
}

void Ui::focus(std::uint32_t item_id) {
  focus_item(item_id);
}

void Ui::adjust(std::uint32_t item_id, int steps) {
  impl_->state.adjust = PendingAdjust{item_id, steps};
}

void Ui::release() {
  if (impl_->state.last_screen == Screen::kBench) {
    impl_->state.bench.controls.release();
    impl_->state.bench.fingers.release();
  }
  impl_->state.study.grip = StudyGrip::kNone;
}

}  // namespace driftbench::ui
