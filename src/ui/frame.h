// What every panel works with in one frame.
#pragma once

#include "ui/action.h"
#include "ui/fonts.h"
#include "ui/item_tree.h"
#include "ui/model.h"
#include "ui/state.h"
#include "ui/theme.h"
#include "ui/ui.h"

#include <array>
#include <cstdint>
#include <utility>

namespace driftbench::ui {

struct Frame {
  const Model& model;
  const Palette& colors;
  const Fonts& fonts;
  float scale = 1.0F;
  State& state;
  ItemTree& items;
  PictureRects& rects;
  Actions& actions;

  /// Logical px of a size of the design system.
  [[nodiscard]] float px(float size) const { return size * scale; }

  template <class T>
  void emit(T action) {
    actions.emplace_back(std::move(action));
  }

  /// Asks the session for something.
  void send(record::Op op, std::array<std::int32_t, record::kMaxArguments> arguments = {}) {
    emit(Send{{op, arguments}});
  }
};

}  // namespace driftbench::ui
