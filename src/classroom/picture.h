// One chart as shapes: drawn as SVG in the report and by the screens, the same shapes in both.
#pragma once

#include "classroom/entry.h"
#include "math/vec.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

enum class Anchor : std::uint8_t { kStart, kMiddle, kEnd };

/// One shape. What `a` and `b` are depends on the kind.
struct Shape {
  enum class Kind : std::uint8_t {
    kLine,       ///< to (a, b)
    kCircle,     ///< radius a
    kRect,       ///< a wide, b high
    kEllipse,    ///< half axes a and b
    kPath,       ///< through `points`
    kText,       ///< `words`
    kBeginClip,  ///< to a rectangle a wide, b high
    kEndClip,
  };

  Kind kind = Kind::kLine;
  Anchor anchor = Anchor::kStart;
  bool is_closed = false;
  double x = 0.0;
  double y = 0.0;
  double a = 0.0;
  double b = 0.0;
  double angle_deg = 0.0;  ///< from +x toward +y of the picture
  std::string style;       ///< classes of the report's style sheet, separated by spaces
  std::string words;
  std::vector<math::Vec2> points;
};

/// Builds one chart. Coordinates are in picture units, y down.
class Picture {
 public:
  /// `title` and `words` are what assistive tools read instead of the picture.
  Picture(double width, double height, std::string_view title, std::string_view words);

  /// `style` is a class of the report's style sheet: "axis", "grid", "limit", "link" ...
  void line(double x1, double y1, double x2, double y2, std::string_view style);
  void circle(double x, double y, double radius, std::string_view style);
  void rect(double x, double y, double width, double height, std::string_view style);
  /// Angle from +x toward +y of the picture, degrees.
  void ellipse(double x, double y, double rx, double ry, double angle_deg, std::string_view style);
  void path(std::vector<math::Vec2> points, bool is_closed, std::string_view style);
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

  [[nodiscard]] double width() const { return width_; }

  [[nodiscard]] double height() const { return height_; }

  [[nodiscard]] const std::string& title() const { return title_; }

  [[nodiscard]] const std::string& words() const { return words_; }

  [[nodiscard]] const std::vector<Shape>& shapes() const { return shapes_; }

 private:
  Shape& add(Shape::Kind kind, double x, double y, double a, double b, std::string_view style);

  double width_ = 0.0;
  double height_ = 0.0;
  std::string title_;
  std::string words_;
  std::vector<Shape> shapes_;
};

}  // namespace driftbench::classroom
