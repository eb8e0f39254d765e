#include "classroom/picture.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace driftbench::classroom {

using math::Vec2;

Picture::Picture(double width, double height, std::string_view title, std::string_view words)
    : width_(width), height_(height), title_(title), words_(words) {}

Shape& Picture::add(Shape::Kind kind, double x, double y, double a, double b,
                    std::string_view style) {
  Shape& shape = shapes_.emplace_back();
  shape.kind = kind;
  shape.x = x;
  shape.y = y;
  shape.a = a;
  shape.b = b;
  shape.style = style;
  return shape;
}

void Picture::line(double x1, double y1, double x2, double y2, std::string_view style) {
  add(Shape::Kind::kLine, x1, y1, x2, y2, style);
}

void Picture::circle(double x, double y, double radius, std::string_view style) {
  add(Shape::Kind::kCircle, x, y, radius, 0.0, style);
}

void Picture::rect(double x, double y, double width, double height, std::string_view style) {
  add(Shape::Kind::kRect, x, y, width, height, style);
}

void Picture::ellipse(double x, double y, double rx, double ry, double angle_deg,
                      std::string_view style) {
  add(Shape::Kind::kEllipse, x, y, rx, ry, style).angle_deg = angle_deg;
}

void Picture::path(std::vector<Vec2> points, bool is_closed, std::string_view style) {
  Shape& shape = add(Shape::Kind::kPath, 0.0, 0.0, 0.0, 0.0, style);
  shape.points = std::move(points);
  shape.is_closed = is_closed;
}

void Picture::text(double x, double y, std::string_view words, Anchor anchor,
                   std::string_view style) {
  Shape& shape = add(Shape::Kind::kText, x, y, 0.0, 0.0, style);
  shape.words = words;
  shape.anchor = anchor;
}

void Picture::arrow(double x1, double y1, double x2, double y2, std::string_view style) {
  constexpr double kHead = 9.0;
  constexpr double kSlim = 0.5;
  const double length = std::hypot(x2 - x1, y2 - y1);
  if (length < kHead) {
    return;
  }
  const double ux = (x2 - x1) / length;
  const double uy = (y2 - y1) / length;
  line(x1, y1, x2 - ux * kHead, y2 - uy * kHead, style);
  const double bx = x2 - ux * kHead;
  const double by = y2 - uy * kHead;
  path({Vec2(x2, y2), Vec2(bx - uy * kHead * kSlim, by + ux * kHead * kSlim),
        Vec2(bx + uy * kHead * kSlim, by - ux * kHead * kSlim)},
       true, "head");
}

void Picture::mark(double x, double y, double radius, stats::Approach approach, Source source,
                   std::string_view style) {
  const std::string classes =
      fmt::format("{}{}{}", stats::kApproachNames[static_cast<std::size_t>(approach)],
                  style.empty() ? "" : " ", style);
  constexpr double kReach = 1.25;  // a diamond or triangle looks as large as its circle
  const double r = radius * kReach;
  switch (approach) {
    case stats::Approach::kFreehand:
      circle(x, y, radius, classes);
      break;
    case stats::Approach::kSleeve:
      path({Vec2(x, y - r), Vec2(x + r, y), Vec2(x, y + r), Vec2(x - r, y)}, true, classes);
      break;
    case stats::Approach::kPilot:
      path({Vec2(x, y - r), Vec2(x + r, y + radius), Vec2(x - r, y + radius)}, true, classes);
      break;
  }
  if (source == Source::kBench) {
    constexpr double kDot = 0.4;
    circle(x, y, radius * kDot, "dot");
  }
}

void Picture::estimate_mark(double x, double y, double radius) {
  rect(x - radius, y - radius, 2.0 * radius, 2.0 * radius, "estimate");
}

void Picture::plan(double x, double y, double radius) {
  for (const std::string_view style : {"plan-casing", "plan-core"}) {
    circle(x, y, radius, style);
    line(x - radius, y, x + radius, y, style);
    line(x, y - radius, x, y + radius, style);
  }
}

void Picture::begin_clip(double x, double y, double width, double height) {
  add(Shape::Kind::kBeginClip, x, y, width, height, {});
}

void Picture::end_clip() {
  add(Shape::Kind::kEndClip, 0.0, 0.0, 0.0, 0.0, {});
}

}  // namespace driftbench::classroom
