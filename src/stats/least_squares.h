// Non-linear least squares for curves with two or three parameters.
#pragma once

#include "base/result.h"
#include "math/solve.h"
#include "stats/series.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace driftbench::stats {

/// Height of a curve at one place and its derivatives by the parameters.
template <std::size_t N>
struct CurvePoint {
  double value = 0.0;
  std::array<double, N> gradient{};
};

/// Best parameters, their standard errors, and what is left.
template <std::size_t N>
struct CurveFit {
  std::array<double, N> parameters{};
  std::array<double, N> standard_errors{};
  double residual_squares = 0.0;
  std::size_t n = 0;
};

namespace detail {

template <std::size_t N>
struct NormalEquations {
  math::Matrix<N> matrix{};
  math::Vector<N> right{};
  math::Vector<N> scale{};  ///< lengths of the columns
  double squares = 0.0;
};

/// Columns are scaled to length 1, so that parameters of any size can be solved for.
template <std::size_t N, class Curve>
NormalEquations<N> normal_equations(const Curve& curve, const std::array<double, N>& parameters,
                                    std::span<const double> x, std::span<const double> y) {
  NormalEquations<N> e;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const CurvePoint<N> point = curve(x[i], parameters);
    const double residual = y[i] - point.value;
    e.squares += residual * residual;
    for (std::size_t j = 0; j < N; ++j) {
      e.right[j] += point.gradient[j] * residual;
      for (std::size_t k = 0; k < N; ++k) {
        e.matrix[j][k] += point.gradient[j] * point.gradient[k];
      }
    }
  }
  for (std::size_t j = 0; j < N; ++j) {
    e.scale[j] = e.matrix[j][j] > 0.0 ? std::sqrt(e.matrix[j][j]) : 1.0;
  }
  for (std::size_t j = 0; j < N; ++j) {
    e.right[j] /= e.scale[j];
    for (std::size_t k = 0; k < N; ++k) {
      e.matrix[j][k] /= e.scale[j] * e.scale[k];
    }
  }
  return e;
}

inline tl::unexpected<base::Error> not_determined() {
  return base::fail(base::ErrorCode::kInvalidArgument,
                    "found values that do not determine the curve, expected more or clearer ones");
}

}  // namespace detail

/// Fits from a starting point by damped Gauss-Newton steps. Contract: x and y of equal length.
///
/// Errors: kInvalidArgument when there are not more values than parameters, when the values do not
///         determine the parameters, or when no minimum is found
/// Source: Marquardt (1963), J. SIAM 11, 431
template <std::size_t N, class Curve>
[[nodiscard]] base::Result<CurveFit<N>> fit_curve(const Curve& curve,
                                                  std::array<double, N> parameters,
                                                  std::span<const double> x,
                                                  std::span<const double> y) {
  if (x.size() <= N) {
    return too_few(x.size(), N + 1, "value");
  }
  constexpr int kMaxRounds = 500;
  constexpr double kConverged = 1e-13;
  constexpr double kFirstDamping = 1e-3;
  constexpr double kDampingStep = 8.0;
  constexpr double kMaxDamping = 1e16;
  auto e = detail::normal_equations<N>(curve, parameters, x, y);
  double damping = kFirstDamping;
  bool is_converged = false;
  for (int round = 0; round < kMaxRounds && !is_converged; ++round) {
    math::Matrix<N> damped = e.matrix;
    for (std::size_t j = 0; j < N; ++j) {
      damped[j][j] *= 1.0 + damping;
    }
    math::Vector<N> step{};
    if (!std::isfinite(e.squares) || !math::solve_spd<N>(damped, e.right, step)) {
      return detail::not_determined();
    }
    std::array<double, N> next = parameters;
    double change = 0.0;
    for (std::size_t j = 0; j < N; ++j) {
      next[j] += step[j] / e.scale[j];
      change = std::max(change, std::abs(next[j] - parameters[j]) / std::abs(next[j]));
    }
    auto tried = detail::normal_equations<N>(curve, next, x, y);
    if (tried.squares <= e.squares) {
      parameters = next;
      e = tried;
      damping /= kDampingStep;
      is_converged = change <= kConverged;
    } else {
      // At the minimum rounding alone decides whether a step is better.
      constexpr double kRounding = 1e-9;
      is_converged = change <= kRounding && damping <= kFirstDamping;
      damping *= kDampingStep;
      if (damping > kMaxDamping) {
        is_converged = true;
      }
    }
  }
  if (!is_converged) {
    return detail::not_determined();
  }
  CurveFit<N> fit;
  fit.parameters = parameters;
  fit.residual_squares = e.squares;
  fit.n = x.size();
  const double variance = e.squares / real(x.size() - N);
  for (std::size_t j = 0; j < N; ++j) {
    math::Vector<N> unit{};
    unit[j] = 1.0;
    math::Vector<N> column{};
    if (!math::solve_spd<N>(e.matrix, unit, column)) {
      return detail::not_determined();
    }
    fit.standard_errors[j] = std::sqrt(variance * column[j]) / e.scale[j];
    if (!std::isfinite(fit.standard_errors[j]) || !std::isfinite(parameters[j])) {
      return detail::not_determined();
    }
  }
  return fit;
}

}  // namespace driftbench::stats
