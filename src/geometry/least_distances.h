// Damped Gauss-Newton steps to the least sum of squared distances of points from a curve.
#pragma once

#include "math/solve.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace driftbench::geometry {

/// Sums over all points at one place of the parameters.
template <std::size_t N>
struct DistanceSums {
  math::Matrix<N> normal{};  ///< derivatives of the distances, multiplied in pairs
  math::Vector<N> right{};   ///< derivatives times distances
  double squares = 0.0;

  void add(double distance, const std::array<double, N>& gradient) {
    squares += distance * distance;
    for (std::size_t j = 0; j < N; ++j) {
      right[j] += gradient[j] * distance;
      for (std::size_t k = 0; k < N; ++k) {
        normal[j][k] += gradient[j] * gradient[k];
      }
    }
  }
};

/// Moves `parameters` to the nearest minimum; `sums_at(parameters)` gives DistanceSums<N>, and
/// `is_allowed(parameters)` keeps sizes positive. False when there is none within the rounds.
///
/// Source: Marquardt (1963), J. SIAM 11, 431, with damping relative to the mean of the diagonal
template <std::size_t N, class SumsAt, class IsAllowed>
[[nodiscard]] bool least_distances(std::array<double, N>& parameters, double size,
                                   const SumsAt& sums_at, const IsAllowed& is_allowed) {
  constexpr int kMaxRounds = 200;
  constexpr double kFirstDamping = 1e-4;
  constexpr double kStep = 10.0;
  constexpr double kMaxDamping = 1e12;
  constexpr double kConverged = 1e-13;
  constexpr double kRounding = 1e-13;
  DistanceSums<N> sums = sums_at(parameters);
  double damping = kFirstDamping;
  double last_change = std::numeric_limits<double>::infinity();
  for (int round = 0; round < kMaxRounds; ++round) {
    double trace = 0.0;
    for (std::size_t j = 0; j < N; ++j) {
      trace += sums.normal[j][j];
    }
    math::Matrix<N> damped = sums.normal;
    for (std::size_t j = 0; j < N; ++j) {
      damped[j][j] += damping * trace / static_cast<double>(N);
    }
    math::Vector<N> step{};
    std::array<double, N> next = parameters;
    double change = std::numeric_limits<double>::infinity();
    bool is_better = false;
    if (math::solve_spd<N>(damped, sums.right, step)) {
      change = 0.0;
      for (std::size_t j = 0; j < N; ++j) {
        next[j] -= step[j];
        change += std::fabs(step[j]);
      }
      if (std::isfinite(change) && is_allowed(next)) {
        DistanceSums<N> tried = sums_at(next);
        // At the minimum rounding alone decides which sum is smaller.
        if (tried.squares <= sums.squares * (1.0 + kRounding)) {
          sums = tried;
          parameters = next;
          is_better = true;
        }
      }
    }
    if (change <= kConverged * size) {
      return true;
    }
    damping = is_better ? damping / kStep : damping * kStep;
    if (damping > kMaxDamping) {
      return std::isfinite(sums.squares);
    }
    last_change = change;
  }
  constexpr double kSlowButSure = 1e-9;
  return last_change <= kSlowButSure * size;
}

}  // namespace driftbench::geometry
