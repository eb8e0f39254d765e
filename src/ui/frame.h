// What every panel works with in one frame.
#pragma once

#include "ui/action.h"
#include "ui/canvas.h"
#include "ui/model.h"
#include "ui/state.h"
#include "ui/ui.h"

#include <array>
#include <cstdint>
#include <utility>

namespace driftbench::ui {

struct Frame : Canvas {
  const Model& model;
  State& state;
  PictureRects& rects;
  Actions& actions;

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
