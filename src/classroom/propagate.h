// How uncertain a result is because its inputs are.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>

namespace driftbench::classroom {

/// An input of a measurement, where it stands, and its standard uncertainty.
struct UncertainInput {
  double* value = nullptr;
  double sd = 0.0;
};

/// Standard uncertainties of what `evaluate()` gives: an optional std::array<double, N>, computed
/// from the inputs where they stand. Nothing when it cannot be computed beside an input's value.
///
/// With u_i that of input i:  u = sqrt( sum_i ( (f(x_i + u_i) - f(x_i - u_i)) / 2 )^2 )
/// Source: law of propagation of uncertainty for independent inputs, JCGM 100:2008 (GUM), 5.1.2, in
///         the numerical form of 5.1.3, note 2
template <std::size_t N, class Evaluate>
[[nodiscard]] std::optional<std::array<double, N>> standard_uncertainties(
    std::span<const UncertainInput> inputs, const Evaluate& evaluate) {
  std::array<double, N> squares{};
  for (const UncertainInput& input : inputs) {
    if (input.sd == 0.0) {
      continue;
    }
    const double value = *input.value;
    *input.value = value + input.sd;
    const std::optional<std::array<double, N>> above = evaluate();
    *input.value = value - input.sd;
    const std::optional<std::array<double, N>> below = evaluate();
    *input.value = value;
    if (!above.has_value() || !below.has_value()) {
      return std::nullopt;
    }
    for (std::size_t i = 0; i < N; ++i) {
      const double half = 0.5 * ((*above)[i] - (*below)[i]);
      squares[i] += half * half;
    }
  }
  for (double& square : squares) {
    square = std::sqrt(square);
  }
  return squares;
}

}  // namespace driftbench::classroom
