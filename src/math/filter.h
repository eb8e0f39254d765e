// Critically damped second-order low-pass, stepped exactly at a fixed time step.
#pragma once

#include "math/vec.h"

namespace driftbench::math {

/// What the filter remembers; T is double, Vec2 or Vec3.
template <class T>
struct LowPassState {
  T value{};       ///< filtered quantity
  T rate_per_s{};  ///< its time derivative
};

/// Coefficients for one cut-off and one time step.
struct LowPass {
  double omega_rad_per_s = 0.0;  ///< natural frequency
  double step_s = 0.0;
  double decay = 1.0;  ///< exp(-omega * step)
};

/// Filter whose gain has fallen to 1/sqrt(2) at the cut-off.
///
/// The natural frequency is 2 pi f / sqrt(sqrt(2) - 1), from |H| = 1 / (1 + (f/f0)^2).
/// Contract: cutoff_hz > 0, step_s > 0, product below 0.5.
[[nodiscard]] LowPass make_low_pass(double cutoff_hz, double step_s);

/// One time step towards an input that is held constant during the step; exact for any step.
///
/// Source: solution of y'' + 2 w y' + w^2 y = w^2 u for constant u
template <class T>
void advance(const LowPass& filter, LowPassState<T>& state, const T& input) {
  const double w = filter.omega_rad_per_s;
  const T offset = state.value - input;
  const T slope = state.rate_per_s + w * offset;
  state.value = input + (offset + slope * filter.step_s) * filter.decay;
  state.rate_per_s = (state.rate_per_s - w * (slope * filter.step_s)) * filter.decay;
}

}  // namespace driftbench::math
