// One chart as inline SVG: lines, words, and the marks that the program uses everywhere.
#pragma once

#include "classroom/entry.h"

#include <string>
#include <string_view>

namespace driftbench::classroom {

enum class Anchor { kStart, kMiddle, kEnd };

/// Builds one chart. Coordinates are in picture units, y down; numbers are written with two
/// decimals so that equal data give equal bytes.
class Svg {
 public:
  /// `title` and `words` are what assistive tools read instead of the picture.
  Svg(double width, double height, std::string_view title, std::string_view words);

  /// `style` is a class of the report's style sheet: "axis", "grid", "limit", "link" ...
  void line(double x1, double y1, double x2, double y2, std::string_view style);
  void circle(double x, double y, double radius, std::string_view style);
  void rect(double x, double y, double width, double height, std::string_view style);
  /// Angle from +x toward +y of the picture, degrees.
  void ellipse(double x, double y, double rx, double ry, double angle_deg, std::string_view style);
  void path(std::string_view data, std::string_view style);
  void text(double x, double y, std::string_view words, Anchor anchor = Anchor::kStart,
            std::string_view style = "");
  void arrow(double x1, double y1, double x2, double y2, std::string_view style);

  /// Free-hand circle, sleeve diamond, pilot triangle; real blocks have a white dot inside.
  void mark(double x, double y, double radius, stats::Approach approach, Source source,
            std::string_view style = "");
  /// Own estimate: a hollow square.
  void estimate_mark(double x, double y, double radius);
  /// The plan: dashed ring and cross-hair, white core in a black casing.
  void plan(double x, double y, double radius);

  /// What is drawn between the two is cut off outside of the rectangle.
  void begin_clip(double x, double y, double width, double height);
  void end_clip();

  [[nodiscard]] std::string take();

 private:
  std::string text_;
};

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

void draw_frame(Svg& svg, const Frame& frame);

/// The path text of open lines through points already in picture units.
class PathText {
 public:
  void add(double x, double y);

  [[nodiscard]] const std::string& data() const { return data_; }

 private:
  std::string data_;
};

}  // namespace driftbench::classroom
