// Axes of charts: values onto picture units, round ends and ticks, the frame with its numbers.
#pragma once

#include "classroom/picture.h"

#include <string_view>

namespace driftbench::classroom {

/// Linear map of values onto picture units.
struct Scale {
  double low = 0.0;
  double high = 1.0;
  double from = 0.0;
  double to = 1.0;

  [[nodiscard]] double operator()(double value) const {
    return from + (value - low) / (high - low) * (to - from);
  }
};

/// A round number not below `largest`, at least `least`: end of an axis.
[[nodiscard]] double axis_end(double largest, double least);

/// Distance of ticks that gives about five of them.
[[nodiscard]] double tick_step(double range);

/// A rectangle with both axes, ticks, numbers and names.
struct Frame {
  Scale x;
  Scale y;
  std::string_view x_name;
  std::string_view y_name;
  bool has_x_ticks = true;
  bool has_whole_x = false;  ///< ticks at whole numbers only
};

void draw_frame(Picture& picture, const Frame& frame);

}  // namespace driftbench::classroom
