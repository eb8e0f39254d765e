#include "classroom/axes.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace driftbench::classroom {

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

void draw_frame(Picture& picture, const Frame& frame) {
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
    picture.line(x.from, y(value), x.to, y(value), "grid");
    picture.text(x.from - kGap, y(value) + kGap - 2.0, words, Anchor::kEnd);
  });
  if (frame.has_x_ticks) {
    ticks(x, frame.has_whole_x, [&](double value, const std::string& words) {
      picture.line(x(value), y.from, x(value), y.to, "grid");
      picture.text(x(value), y.from + kBelow, words, Anchor::kMiddle);
    });
  }
  picture.line(x.from, y.from, x.to, y.from, "axis");
  picture.line(x.from, y.from, x.from, y.to, "axis");
  picture.text(0.5 * (x.from + x.to), y.from + 2.2 * kBelow, frame.x_name, Anchor::kMiddle, "name");
  picture.text(x.from, y.to - 1.5 * kGap, frame.y_name, Anchor::kStart, "name");
}

}  // namespace driftbench::classroom
