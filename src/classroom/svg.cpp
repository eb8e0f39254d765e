#include "classroom/svg.h"

#include "base/text.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace driftbench::classroom {
namespace {

std::string at(double value) {
  constexpr int kDecimals = 2;
  return base::fixed(value, kDecimals);
}

std::string style_of(std::string_view style) {
  return style.empty() ? std::string() : fmt::format(" class=\"{}\"", style);
}

}  // namespace

Svg::Svg(double width, double height, std::string_view title, std::string_view words)
    : text_(
          fmt::format("<svg viewBox=\"0 0 {} {}\" role=\"img\"><title>{}</title><desc>{}</desc>\n",
                      at(width), at(height), escaped(title), escaped(words))) {}

void Svg::line(double x1, double y1, double x2, double y2, std::string_view style) {
  text_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{}/>\n", at(x1), at(y1),
                       at(x2), at(y2), style_of(style));
}

void Svg::circle(double x, double y, double radius, std::string_view style) {
  text_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>\n", at(x), at(y), at(radius),
                       style_of(style));
}

void Svg::rect(double x, double y, double width, double height, std::string_view style) {
  text_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}/>\n", at(x), at(y),
                       at(width), at(height), style_of(style));
}

void Svg::ellipse(double x, double y, double rx, double ry, double angle_deg,
                  std::string_view style) {
  text_ += fmt::format(
      "<ellipse cx=\"{0}\" cy=\"{1}\" rx=\"{2}\" ry=\"{3}\" transform=\"rotate({4} {0} "
      "{1})\"{5}/>\n",
      at(x), at(y), at(rx), at(ry), at(angle_deg), style_of(style));
}

void Svg::path(std::string_view data, std::string_view style) {
  text_ += fmt::format("<path d=\"{}\"{}/>\n", data, style_of(style));
}

void Svg::text(double x, double y, std::string_view words, Anchor anchor, std::string_view style) {
  constexpr std::array<std::string_view, 3> kAnchors{"start", "middle", "end"};
  text_ += fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\"{}>{}</text>\n", at(x), at(y),
                       kAnchors[static_cast<std::size_t>(anchor)], style_of(style), escaped(words));
}

void Svg::arrow(double x1, double y1, double x2, double y2, std::string_view style) {
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
  path(fmt::format("M{} {}L{} {}L{} {}Z", at(x2), at(y2), at(bx - uy * kHead * kSlim),
                   at(by + ux * kHead * kSlim), at(bx + uy * kHead * kSlim),
                   at(by - ux * kHead * kSlim)),
       "head");
}

void Svg::mark(double x, double y, double radius, stats::Approach approach, Source source,
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
      path(fmt::format("M{} {}L{} {}L{} {}L{} {}Z", at(x), at(y - r), at(x + r), at(y), at(x),
                       at(y + r), at(x - r), at(y)),
           classes);
      break;
    case stats::Approach::kPilot:
      path(fmt::format("M{} {}L{} {}L{} {}Z", at(x), at(y - r), at(x + r), at(y + radius),
                       at(x - r), at(y + radius)),
           classes);
      break;
  }
  if (source == Source::kBench) {
    constexpr double kDot = 0.4;
    circle(x, y, radius * kDot, "dot");
  }
}

void Svg::estimate_mark(double x, double y, double radius) {
  rect(x - radius, y - radius, 2.0 * radius, 2.0 * radius, "estimate");
}

void Svg::plan(double x, double y, double radius) {
  for (const std::string_view style : {"plan-casing", "plan-core"}) {
    circle(x, y, radius, style);
    line(x - radius, y, x + radius, y, style);
    line(x, y - radius, x, y + radius, style);
  }
}

void Svg::begin_clip(double x, double y, double width, double height) {
  text_ += fmt::format(
      "<svg class=\"clip\" x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{3}\" "
      "viewBox=\"{0} {1} {2} {3}\">\n",
      at(x), at(y), at(width), at(height));
}

void Svg::end_clip() {
  text_ += "</svg>\n";
}

std::string Svg::take() {
  return std::move(text_) + "</svg>\n";
}

double axis_end(double largest, double least) {
  const double wanted = std::max(largest, least);
  const double step = tick_step(wanted);
  return std::ceil(wanted / step - 1e-9) * step;
}

double tick_step(double range) {
  constexpr std::array<double, 3> kSteps{1.0, 2.0, 5.0};
  constexpr double kTicks = 6.0;
  double power = 0.001;
  while (true) {
    for (const double step : kSteps) {
      if (range / (step * power) <= kTicks + 1e-9) {
        return step * power;
      }
    }
    power *= 10.0;
  }
}

void draw_frame(Svg& svg, const Frame& frame) {
  const Scale& x = frame.x;
  const Scale& y = frame.y;
  constexpr double kGap = 8.0;
  constexpr double kBelow = 22.0;
  const auto ticks = [](const Scale& scale, bool is_whole, const auto& draw) {
    double step = tick_step(scale.high - scale.low);
    step = is_whole ? std::max(1.0, std::ceil(step)) : step;
    for (double i = std::ceil(scale.low / step - 1e-9); i * step <= scale.high + 1e-9 * step;
         i += 1.0) {
      draw(i * step, base::number(std::round(i * step * 1000.0) / 1000.0));
    }
  };
  ticks(y, false, [&](double value, const std::string& words) {
    svg.line(x.from, y(value), x.to, y(value), "grid");
    svg.text(x.from - kGap, y(value) + kGap - 2.0, words, Anchor::kEnd);
  });
  if (frame.has_x_ticks) {
    ticks(x, frame.has_whole_x, [&](double value, const std::string& words) {
      svg.line(x(value), y.from, x(value), y.to, "grid");
      svg.text(x(value), y.from + kBelow, words, Anchor::kMiddle);
    });
  }
  svg.line(x.from, y.from, x.to, y.from, "axis");
  svg.line(x.from, y.from, x.from, y.to, "axis");
  svg.text(0.5 * (x.from + x.to), y.from + 2.2 * kBelow, frame.x_name, Anchor::kMiddle, "name");
  svg.text(x.from, y.to - 1.5 * kGap, frame.y_name, Anchor::kStart, "name");
}

void PathText::add(double x, double y) {
  data_ += fmt::format("{}{} {}", data_.empty() ? "M" : "L", at(x), at(y));
}

}  // namespace driftbench::classroom
