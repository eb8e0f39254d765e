// Starting points by trying rates (the other parameters follow linearly), then least squares.
#include "stats/learning_curve.h"

#include "base/contract.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace driftbench::stats {
namespace {

CurvePoint<3> levelling(double x, const std::array<double, 3>& p) {
  const double decay = std::exp(-p[2] * (x - 1.0));
  return {p[0] + p[1] * decay, {1.0, decay, -p[1] * (x - 1.0) * decay}};
}

CurvePoint<2> saturating(double x, const std::array<double, 2>& p) {
  const double decay = std::exp(-p[1] * x);
  return {p[0] * (1.0 - decay), {1.0 - decay, p[0] * x * decay}};
}

CurvePoint<2> power(double x, const std::array<double, 2>& p) {
  const double shape = std::pow(x, p[1]);
  return {p[0] * shape, {shape, p[0] * shape * std::log(x)}};
}

// Best height of a shape, and what it leaves.
struct Line {
  double offset = 0.0;
  double height = 0.0;
  double squares = std::numeric_limits<double>::infinity();
};

// y = offset + height shape by least squares; without offset when `has_offset` is false.
Line best_line(std::span<const double> shape, std::span<const double> y, bool has_offset) {
  const double shape_mean = has_offset ? mean(shape) : 0.0;
  const double y_mean = has_offset ? mean(y) : 0.0;
  double ss = 0.0;
  double sy = 0.0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    ss += (shape[i] - shape_mean) * (shape[i] - shape_mean);
    sy += (shape[i] - shape_mean) * (y[i] - y_mean);
  }
  Line line;
  if (!(ss > 0.0)) {
    return line;
  }
  line.height = sy / ss;
  line.offset = y_mean - line.height * shape_mean;
  line.squares = 0.0;
  for (std::size_t i = 0; i < y.size(); ++i) {
    const double left = y[i] - line.offset - line.height * shape[i];
    line.squares += left * left;
  }
  return line;
}

struct Start {
  Line line;
  double rate = 0.0;
};

// Tries rates and keeps the best that has better neighbours on neither side; none when the best
// lies at an end: then the values do not bend.
template <class Shape>
std::optional<Start> best_start(const Shape& shape, std::span<const double> x,
                                std::span<const double> y, std::span<const double> rates,
                                bool has_offset) {
  std::optional<std::size_t> best;
  Start start;
  std::vector<double> heights(x.size());
  for (std::size_t i = 0; i < rates.size(); ++i) {
    for (std::size_t j = 0; j < x.size(); ++j) {
      heights[j] = shape(x[j], rates[i]);
    }
    const Line line = best_line(heights, y, has_offset);
    if (line.squares < start.line.squares) {
      start = {line, rates[i]};
      best = i;
    }
  }
  if (!best.has_value() || *best == 0 || *best + 1 == rates.size()) {
    return std::nullopt;
  }
  return start;
}

// Rates from almost straight to gone after the first value.
std::vector<double> rates_for(std::span<const double> x) {
  constexpr int kSteps = 80;
  constexpr double kSlowest = 0.02;
  constexpr double kFastest = 50.0;
  const auto [low, high] = std::minmax_element(x.begin(), x.end());
  const double width = *high > *low ? *high - *low : 1.0;
  std::vector<double> rates;
  for (int i = 0; i <= kSteps; ++i) {
    rates.push_back(kSlowest / width *
                    std::pow(kFastest / kSlowest, real(static_cast<std::size_t>(i)) / kSteps));
  }
  return rates;
}

}  // namespace

base::Result<CurveFit<3>> fit_levelling(std::span<const double> x, std::span<const double> y) {
  DRIFTBENCH_EXPECTS(x.size() == y.size());
  if (x.size() <= 3) {
    return too_few(x.size(), 4, "value");
  }
  const auto shape = [](double at, double rate) { return std::exp(-rate * (at - 1.0)); };
  const std::optional<Start> start = best_start(shape, x, y, rates_for(x), true);
  if (!start.has_value()) {
    return detail::not_determined();
  }
  return fit_curve<3>(levelling, {start->line.offset, start->line.height, start->rate}, x, y);
}

base::Result<CurveFit<2>> fit_saturating(std::span<const double> x, std::span<const double> y) {
  DRIFTBENCH_EXPECTS(x.size() == y.size());
  if (x.size() <= 2) {
    return too_few(x.size(), 3, "value");
  }
  const auto shape = [](double at, double rate) { return 1.0 - std::exp(-rate * at); };
  const std::optional<Start> start = best_start(shape, x, y, rates_for(x), false);
  if (!start.has_value()) {
    return detail::not_determined();
  }
  return fit_curve<2>(saturating, {start->line.height, start->rate}, x, y);
}

base::Result<CurveFit<2>> fit_power(std::span<const double> x, std::span<const double> y) {
  DRIFTBENCH_EXPECTS(x.size() == y.size());
  if (x.size() <= 2) {
    return too_few(x.size(), 3, "value");
  }
  if (*std::min_element(x.begin(), x.end()) <= 0.0) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found an attempt number of 0 or less, expected them from 1");
  }
  constexpr int kSteps = 64;
  constexpr double kSteepest = 8.0;
  std::vector<double> exponents;
  for (int i = -kSteps; i <= kSteps; ++i) {
    exponents.push_back(kSteepest * i / kSteps);
  }
  const auto shape = [](double at, double exponent) { return std::pow(at, exponent); };
  const std::optional<Start> start = best_start(shape, x, y, exponents, false);
  if (!start.has_value()) {
    return detail::not_determined();
  }
  return fit_curve<2>(power, {start->line.height, start->rate}, x, y);
}

}  // namespace driftbench::stats
