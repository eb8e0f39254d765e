#include "classroom/svg.h"

#include "base/text.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <array>

namespace driftbench::classroom {
namespace {

std::string at(double value) {
  constexpr int kDecimals = 2;
  return base::fixed(value, kDecimals);
}

std::string style_of(std::string_view style) {
  return style.empty() ? std::string() : fmt::format(" class=\"{}\"", style);
}

std::string path_data(const Shape& shape) {
  std::string data;
  for (const math::Vec2& point : shape.points) {
    data += fmt::format("{}{} {}", data.empty() ? "M" : "L", at(point.x), at(point.y));
  }
  return data + (shape.is_closed ? "Z" : "");
}

std::string shape_text(const Shape& shape) {
  constexpr std::array<std::string_view, 3> kAnchors{"start", "middle", "end"};
  const std::string x = at(shape.x);
  const std::string y = at(shape.y);
  const std::string a = at(shape.a);
  const std::string b = at(shape.b);
  const std::string style = style_of(shape.style);
  switch (shape.kind) {
    case Shape::Kind::kLine:
      return fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{}/>\n", x, y, a, b, style);
    case Shape::Kind::kCircle:
      return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>\n", x, y, a, style);
    case Shape::Kind::kRect:
      return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}/>\n", x, y, a, b,
                         style);
    case Shape::Kind::kEllipse:
      return fmt::format(
          "<ellipse cx=\"{0}\" cy=\"{1}\" rx=\"{2}\" ry=\"{3}\" transform=\"rotate({4} {0} "
          "{1})\"{5}/>\n",
          x, y, a, b, at(shape.angle_deg), style);
    case Shape::Kind::kPath:
      return fmt::format("<path d=\"{}\"{}/>\n", path_data(shape), style);
    case Shape::Kind::kText:
      return fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\"{}>{}</text>\n", x, y,
                         kAnchors[static_cast<std::size_t>(shape.anchor)], style,
                         base::html_escaped(shape.words));
    case Shape::Kind::kBeginClip:
      return fmt::format(
          "<svg class=\"clip\" x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{3}\" "
          "viewBox=\"{0} {1} {2} {3}\">\n",
          x, y, a, b);
    case Shape::Kind::kEndClip:
      return "</svg>\n";
  }
  return {};
}

}  // namespace

std::string svg_text(const Picture& picture) {
  std::string text =
      fmt::format("<svg viewBox=\"0 0 {} {}\" role=\"img\"><title>{}</title><desc>{}</desc>\n",
                  at(picture.width()), at(picture.height()), base::html_escaped(picture.title()),
                  base::html_escaped(picture.words()));
  for (const Shape& shape : picture.shapes()) {
    text += shape_text(shape);
  }
  return text + "</svg>\n";
}

std::string svg_text(const std::vector<Picture>& pictures) {
  std::string text;
  for (const Picture& picture : pictures) {
    text += svg_text(picture);
  }
  return text;
}

}  // namespace driftbench::classroom
