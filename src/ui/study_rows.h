// Rows that the tabs of the study are made of: a number to change, a switch.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"
#include "ui/stepper.h"
#include "ui/strings.h"

#include <array>
#include <string>
#include <utility>

namespace driftbench::ui {

/// What a number's row steps by.
struct RowSteps {
  double step = 0.5;
  double fine = 0.1;  ///< with Shift
};

/// A number with its name; gives by how much the person changed it. Shortens the column.
[[nodiscard]] double number_row(Frame& frame, Rect& column, Str name, std::string value, Str help,
                                RowSteps steps);

/// A switch of its own row. Shortens the column.
void switch_row(Frame& frame, Rect& column, Str words, Str help, bool& value);

/// One of several with their words, side by side in one of the rows where one has room.
template <class T, std::size_t N>
void choices(Frame& frame, Rows& rows, const std::array<std::pair<T, Str>, N>& all, T& value,
             std::string_view id) {
  const float gap = frame.px(4.0F);
  std::array<float, N> widths;
  float whole = 0.0F;
  for (std::size_t i = 0; i < N; ++i) {
    widths[i] = text_size(frame.fonts.strong, tr(all[i].second)).x + frame.px(22.0F);
    whole += widths[i] + gap;
  }
  const bool has_room = whole <= rows.width();
  Rect strip = has_room ? rows.next(whole) : Rect{};
  for (std::size_t i = 0; i < N; ++i) {
    const Rect box = has_room ? cut_left(strip, widths[i]) : rows.next(widths[i]);
    cut_left(strip, gap);
    if (choice(frame, box, tr(all[i].second), value == all[i].first, id)) {
      value = all[i].first;
    }
  }
}

/// Which densities the sections show between black and white.
void window_choices(Frame& frame, Rows& rows);

}  // namespace driftbench::ui
