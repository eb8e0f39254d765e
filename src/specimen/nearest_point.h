// Least value of a function of two parameters: a coarse grid, then ever finer ones round the best.
#pragma once

#include <algorithm>
#include <limits>

namespace driftbench::specimen {

/// Range of one parameter with the number of steps of the coarse grid; 0 steps: one value.
struct ParameterRange {
  double low = 0.0;
  double high = 0.0;
  int steps = 0;
};

struct LeastValue {
  double value = std::numeric_limits<double>::infinity();
  double u = 0.0;
  double v = 0.0;
};

/// Least of `value_at(u, v)` over a box. The coarse grid must be fine enough to find the right
/// valley; ten halvings then bring each parameter within 1/1000 of a coarse step.
///
/// Cost: (nu+1)(nv+1) + 250 evaluations. Deterministic: ties go to the first
template <class ValueAt>
[[nodiscard]] LeastValue least_value(const ParameterRange& u, const ParameterRange& v,
                                     ValueAt value_at) {
  LeastValue best;
  const auto look = [&](double a, double b) {
    const double value = value_at(a, b);
    if (value < best.value) {
      best = {value, a, b};
    }
  };
  const double du = u.steps > 0 ? (u.high - u.low) / u.steps : 0.0;
  const double dv = v.steps > 0 ? (v.high - v.low) / v.steps : 0.0;
  for (int i = 0; i <= u.steps; ++i) {
    for (int j = 0; j <= v.steps; ++j) {
      look(u.low + du * i, v.low + dv * j);
    }
  }
  constexpr int kHalvings = 10;
  double share = 0.5;
  for (int round = 0; round < kHalvings; ++round, share *= 0.5) {
    const LeastValue middle = best;
    for (int i = -2; i <= 2; ++i) {
      for (int j = -2; j <= 2; ++j) {
        look(std::clamp(middle.u + share * du * i, u.low, u.high),
             std::clamp(middle.v + share * dv * j, v.low, v.high));
      }
    }
  }
  return best;
}

}  // namespace driftbench::specimen
