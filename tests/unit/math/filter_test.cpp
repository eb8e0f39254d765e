// The low-pass against its closed solution, its cut-off and step-size independence.
#include "math/filter.h"

#include "math/angle.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::math {
namespace {

TEST(LowPass, StepResponseIsTheClosedSolution) {
  // y(t) = 1 - (1 + w t) exp(-w t): any textbook on linear systems, critically damped case.
  const LowPass filter = make_low_pass(3.0, 0.001);
  LowPassState<double> state;
  for (int step = 1; step <= 500; ++step) {
    advance(filter, state, 1.0);
    const double wt = filter.omega_rad_per_s * 0.001 * step;
    EXPECT_NEAR(state.value, 1.0 - (1.0 + wt) * std::exp(-wt), 1e-12);
    EXPECT_NEAR(state.rate_per_s, filter.omega_rad_per_s * wt * std::exp(-wt), 1e-11);
  }
}

TEST(LowPass, NeverOvershootsAStep) {
  const LowPass filter = make_low_pass(3.0, 0.001);
  LowPassState<double> state;
  double previous = 0.0;
  for (int step = 0; step < 3000; ++step) {
    advance(filter, state, 1.0);
    EXPECT_GE(state.value, previous);
    EXPECT_LE(state.value, 1.0 + 1e-12);
    previous = state.value;
  }
  EXPECT_NEAR(state.value, 1.0, 1e-12);
}

TEST(LowPass, RestStaysRest) {
  const LowPass filter = make_low_pass(3.0, 0.001);
  LowPassState<Vec3> state{Vec3(1.0, -2.0, 3.0), Vec3(0.0)};
  for (int step = 0; step < 100; ++step) {
    advance(filter, state, Vec3(1.0, -2.0, 3.0));
  }
  EXPECT_EQ(state.value, Vec3(1.0, -2.0, 3.0));
  EXPECT_EQ(state.rate_per_s, Vec3(0.0));
}

TEST(LowPass, TwoHalfStepsAreOneStep) {
  const LowPass whole = make_low_pass(5.0, 0.002);
  const LowPass half = make_low_pass(5.0, 0.001);
  LowPassState<double> a{0.3, -4.0};
  LowPassState<double> b = a;
  advance(whole, a, 1.0);
  advance(half, b, 1.0);
  advance(half, b, 1.0);
  EXPECT_NEAR(a.value, b.value, 1e-14);
  EXPECT_NEAR(a.rate_per_s, b.rate_per_s, 1e-12);
}

TEST(LowPass, GainAtTheCutOffIsOneOverRootTwo) {
  constexpr double kCutoff_hz = 3.0;
  const LowPass filter = make_low_pass(kCutoff_hz, 0.001);
  LowPassState<double> state;
  double amplitude = 0.0;
  for (int step = 0; step < 20'000; ++step) {
    advance(filter, state, std::sin(2.0 * kPi * kCutoff_hz * 0.001 * step));
    if (step > 10'000) {
      amplitude = std::max(amplitude, std::fabs(state.value));
    }
  }
  // Holding the input over 1 ms changes the gain by (pi f dt)^2 / 6 = 1.5e-5.
  EXPECT_NEAR(amplitude, std::sqrt(0.5), 1e-4);
}

}  // namespace
}  // namespace driftbench::math
