// Small dense symmetric problems without allocation: linear systems and 3 x 3 eigenvectors.
#pragma once

#include "math/vec.h"

#include <array>
#include <cstddef>

namespace driftbench::math {

template <std::size_t N>
using Vector = std::array<double, N>;

template <std::size_t N>
using Matrix = std::array<std::array<double, N>, N>;  ///< m[row][column]

/// Solves a x = b for a symmetric positive definite matrix by L D L^T; reads the lower triangle
/// only.
///
/// Errors: false when a pivot is not positive (x is then left alone)
/// Source: Golub, Van Loan, Matrix Computations, 4th ed., section 4.1.2
template <std::size_t N>
[[nodiscard]] bool solve_spd(const Matrix<N>& a, const Vector<N>& b, Vector<N>& x) {
  Matrix<N> l{};   // unit lower triangle, diagonal not stored
  Vector<N> d{};   // pivots
  Vector<N> ld{};  // one row of L times D
  // Factor row by row.
  for (std::size_t i = 0; i < N; ++i) {
    double pivot = a[i][i];
    for (std::size_t j = 0; j < i; ++j) {
      double sum = a[i][j];
      for (std::size_t k = 0; k < j; ++k) {
        sum -= ld[k] * l[j][k];
      }
      ld[j] = sum;
      l[i][j] = sum / d[j];
      pivot -= sum * l[i][j];
    }
    if (!(pivot > 0.0)) {
      return false;
    }
    d[i] = pivot;
  }
  // Forward, diagonal and backward substitution.
  Vector<N> y = b;
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      y[i] -= l[i][k] * y[k];
    }
  }
  for (std::size_t i = N; i-- > 0;) {
    double sum = y[i] / d[i];
    for (std::size_t k = i + 1; k < N; ++k) {
      sum -= l[k][i] * y[k];
    }
    y[i] = sum;
  }
  x = y;
  return true;
}

/// Eigenvalues in falling order with their unit eigenvectors as matrix columns.
struct SymmetricEigen3 {
  Vec3 values{0.0};
  Mat3 vectors{1.0};  ///< right-handed; in columns 0 and 1 the largest component is positive
};

/// Eigen-decomposition of a symmetric 3 x 3 matrix (its upper triangle is read).
///
/// Source: cyclic Jacobi rotations, Golub, Van Loan, 4th ed., section 8.5. Contract: finite.
[[nodiscard]] SymmetricEigen3 symmetric_eigen3(const Mat3& a);

}  // namespace driftbench::math
