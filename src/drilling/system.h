// The 5 x 5 linear system of one solve round, filled row by row.
#pragma once

#include "drilling/contact.h"
#include "math/solve.h"

#include <cmath>
#include <utility>

namespace driftbench::drilling {

/// Component of a generalised velocity along a row.
[[nodiscard]] inline double along(const double (&row)[kDof], const math::Vector<kDof>& u) {
  return row[0] * u[0] + row[1] * u[1] + row[2] * u[2] + row[3] * u[3] + row[4] * u[4];
}

/// Resistance matrix times velocity = load. Not symmetric: a cutting force acts across the motion
/// that causes it.
class System {
 public:
  /// Resistance c >= 0 per velocity along a row, acting against that row.
  void add_stiff(const double (&row)[kDof], double c) { add_coupling(row, row, c); }

  /// Resistance c per velocity along `cause`, acting against `effect`.
  void add_coupling(const double (&effect)[kDof], const double (&cause)[kDof], double c) {
    for (std::size_t i = 0; i < kDof; ++i) {
      const double scaled = c * effect[i];
      for (std::size_t j = 0; j < kDof; ++j) {
        matrix_[i][j] += scaled * cause[j];
      }
    }
  }

  /// Force f along a row.
  void add_force(const double (&row)[kDof], double f) {
    for (std::size_t i = 0; i < kDof; ++i) {
      load_[i] += f * row[i];
    }
  }

  /// The velocity that balances, or `otherwise` when the system has no solution.
  ///
  /// Source: Gaussian elimination with row pivoting, Golub, Van Loan, 4th ed., section 3.4
  [[nodiscard]] math::Vector<kDof> solved(const math::Vector<kDof>& otherwise) const {
    math::Matrix<kDof> m = matrix_;
    math::Vector<kDof> b = load_;
    for (std::size_t k = 0; k < kDof; ++k) {
      std::size_t pivot = k;
      for (std::size_t i = k + 1; i < kDof; ++i) {
        if (std::fabs(m[i][k]) > std::fabs(m[pivot][k])) {
          pivot = i;
        }
      }
      if (!(std::fabs(m[pivot][k]) > 0.0)) {
        return otherwise;
      }
      std::swap(m[k], m[pivot]);
      std::swap(b[k], b[pivot]);
      for (std::size_t i = k + 1; i < kDof; ++i) {
        const double factor = m[i][k] / m[k][k];
        for (std::size_t j = k + 1; j < kDof; ++j) {
          m[i][j] -= factor * m[k][j];
        }
        b[i] -= factor * b[k];
      }
    }
    for (std::size_t i = kDof; i-- > 0;) {
      for (std::size_t j = i + 1; j < kDof; ++j) {
        b[i] -= m[i][j] * b[j];
      }
      b[i] /= m[i][i];
    }
    return b;
  }

 private:
  math::Matrix<kDof> matrix_{};
  math::Vector<kDof> load_{};
};

}  // namespace driftbench::drilling
