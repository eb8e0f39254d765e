// Rectangles cut out of rectangles: the whole layout of the panels.
#pragma once

#include "ui/ui.h"

#include <algorithm>

namespace driftbench::ui {

/// Takes a strip off `from` and gives it; a strip never exceeds what is left.
inline Rect cut_top(Rect& from, float height) {
  const float taken = std::clamp(height, 0.0F, from.height);
  const Rect strip{from.x, from.y, from.width, taken};
  from.y += taken;
  from.height -= taken;
  return strip;
}

inline Rect cut_bottom(Rect& from, float height) {
  const float taken = std::clamp(height, 0.0F, from.height);
  from.height -= taken;
  return {from.x, from.y + from.height, from.width, taken};
}

inline Rect cut_left(Rect& from, float width) {
  const float taken = std::clamp(width, 0.0F, from.width);
  const Rect strip{from.x, from.y, taken, from.height};
  from.x += taken;
  from.width -= taken;
  return strip;
}

inline Rect cut_right(Rect& from, float width) {
  const float taken = std::clamp(width, 0.0F, from.width);
  from.width -= taken;
  return {from.x + from.width, from.y, taken, from.height};
}

[[nodiscard]] inline Rect inset(const Rect& rect, float horizontal, float vertical) {
  return {rect.x + horizontal, rect.y + vertical, std::max(0.0F, rect.width - 2.0F * horizontal),
          std::max(0.0F, rect.height - 2.0F * vertical)};
}

[[nodiscard]] inline Rect inset(const Rect& rect, float all) {
  return inset(rect, all, all);
}

/// Parts side by side from the top of a column, in as many rows as they need; cuts the rows off it.
class Rows {
 public:
  Rows(Rect& column, float height, float gap, float row_gap)
      : column_(column), height_(height), gap_(gap), row_gap_(row_gap) {}

  [[nodiscard]] float width() const { return column_.width; }

  /// Room for a part of this width; a part wider than the column gets a row.
  Rect next(float width) {
    if (!has_row_ || row_.width < width) {
      if (has_row_) {
        cut_top(column_, row_gap_);
      }
      row_ = cut_top(column_, height_);
      has_row_ = true;
    }
    const Rect part = cut_left(row_, width);
    cut_left(row_, gap_);
    return part;
  }

 private:
  Rect& column_;
  float height_;
  float gap_;
  float row_gap_;
  Rect row_;
  bool has_row_ = false;
};

/// The largest square in the middle of a rectangle.
[[nodiscard]] inline Rect centred_square(const Rect& rect) {
  const float side = std::min(rect.width, rect.height);
  return {rect.x + 0.5F * (rect.width - side), rect.y + 0.5F * (rect.height - side), side, side};
}

/// Column of at most `width` in the middle.
[[nodiscard]] inline Rect centred_column(const Rect& rect, float width) {
  const float taken = std::min(width, rect.width);
  return {rect.x + 0.5F * (rect.width - taken), rect.y, taken, rect.height};
}

[[nodiscard]] inline bool contains(const Rect& rect, float x, float y) {
  return x >= rect.x && x < rect.x + rect.width && y >= rect.y && y < rect.y + rect.height;
}

}  // namespace driftbench::ui
