// The 5 x 5 linear system of one solve round, filled row by row.
#pragma once

#include "drilling/contact.h"
#include "math/solve.h"

namespace driftbench::drilling {

/// Component of a generalised velocity along a row.
[[nodiscard]] inline double along(const double (&row)[kDof], const math::Vector<kDof>& u) {
  return row[0] * u[0] + row[1] * u[1] + row[2] * u[2] + row[3] * u[3] + row[4] * u[4];
}

/// Advance along the drill's axis into the material.
[[nodiscard]] inline double feed_of(const DrillFrame& frame, const math::Vector<kDof>& u) {
  return -math::dot(math::Vec3(u[0], u[1], u[2]), frame.axis);
}

/// (sum of c row row^T) u = sum of f row; symmetric, only the lower triangle is kept.
class System {
 public:
  /// Resistance c >= 0 per velocity along a row.
  void add_stiff(const double (&row)[kDof], double c) {
    for (std::size_t i = 0; i < kDof; ++i) {
      const double scaled = c * row[i];
      for (std::size_t j = 0; j <= i; ++j) {
        matrix_[i][j] += scaled * row[j];
      }
    }
  }

  /// Force f along a row.
  void add_force(const double (&row)[kDof], double f) {
    for (std::size_t i = 0; i < kDof; ++i) {
      load_[i] += f * row[i];
    }
  }

  /// A force at the tip and moments about the two cross axes.
  void add_wrench(const math::Vec3& force, double moment_1, double moment_2) {
    load_[0] += force.x;
    load_[1] += force.y;
    load_[2] += force.z;
    load_[3] += moment_1;
    load_[4] += moment_2;
  }

  /// Everything that another system holds.
  void add(const System& other) {
    for (std::size_t i = 0; i < kDof; ++i) {
      for (std::size_t j = 0; j <= i; ++j) {
        matrix_[i][j] += other.matrix_[i][j];
      }
      load_[i] += other.load_[i];
    }
  }

  /// The velocity that balances, or `otherwise` when the system is not positive definite.
  [[nodiscard]] math::Vector<kDof> solved(const math::Vector<kDof>& otherwise) const {
    math::Vector<kDof> u = otherwise;
    return math::solve_spd(matrix_, load_, u) ? u : otherwise;
  }

 private:
  math::Matrix<kDof> matrix_{};
  math::Vector<kDof> load_{};
};

}  // namespace driftbench::drilling
