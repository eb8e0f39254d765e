// Eigenvectors of symmetric 3 x 3 matrices by Jacobi rotations.
#include "math/solve.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace driftbench::math {
namespace {

using Matrix3 = Matrix<3>;

// Turns the p-q plane so that a[p][q] becomes zero; v collects the turns.
void rotate_away(Matrix3& a, Matrix3& v, std::size_t p, std::size_t q) {
  if (a[p][q] == 0.0) {
    return;
  }
  const double tau = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
  const double t = (tau >= 0.0 ? 1.0 : -1.0) / (std::fabs(tau) + std::sqrt(1.0 + tau * tau));
  const double c = 1.0 / std::sqrt(1.0 + t * t);
  const double s = t * c;
  for (std::size_t k = 0; k < 3; ++k) {
    const double kp = a[k][p];
    const double kq = a[k][q];
    a[k][p] = c * kp - s * kq;
    a[k][q] = s * kp + c * kq;
  }
  for (std::size_t k = 0; k < 3; ++k) {
    const double pk = a[p][k];
    const double qk = a[q][k];
    a[p][k] = c * pk - s * qk;
    a[q][k] = s * pk + c * qk;
    const double vp = v[k][p];
    const double vq = v[k][q];
    v[k][p] = c * vp - s * vq;
    v[k][q] = s * vp + c * vq;
  }
  a[p][q] = 0.0;
  a[q][p] = 0.0;
}

// The direction whose largest component (the first of equals) is positive.
Vec3 with_fixed_sign(const Vec3& v) {
  const double x = std::fabs(v.x);
  const double y = std::fabs(v.y);
  const double z = std::fabs(v.z);
  double largest = v.z;
  if (x >= y && x >= z) {
    largest = v.x;
  } else if (y >= z) {
    largest = v.y;
  }
  return largest < 0.0 ? -v : v;
}

}  // namespace

SymmetricEigen3 symmetric_eigen3(const Mat3& a) {
  DRIFTBENCH_EXPECTS(is_finite(a[0]) && is_finite(a[1]) && is_finite(a[2]));
  Matrix3 m = {
      {{a[0][0], a[1][0], a[2][0]}, {a[1][0], a[1][1], a[2][1]}, {a[2][0], a[2][1], a[2][2]}}};
  Matrix3 v = {{{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}}};
  // Convergence is quadratic: a 3 x 3 matrix needs four or five sweeps, the limit is never met.
  constexpr int kMaxSweeps = 20;
  const double size = std::fabs(m[0][0]) + std::fabs(m[1][1]) + std::fabs(m[2][2]);
  for (int sweep = 0; sweep < kMaxSweeps; ++sweep) {
    const double off = std::fabs(m[0][1]) + std::fabs(m[0][2]) + std::fabs(m[1][2]);
    if (size + off == size) {
      break;  // one more sweep could not change a digit of the eigenvalues
    }
    rotate_away(m, v, 0, 1);
    rotate_away(m, v, 0, 2);
    rotate_away(m, v, 1, 2);
  }
  // Falling order; equal values keep their order.
  std::array<std::size_t, 3> order = {0, 1, 2};
  std::stable_sort(order.begin(), order.end(),
                   [&m](std::size_t i, std::size_t j) { return m[i][i] > m[j][j]; });
  const auto column = [&v](std::size_t j) { return unit(Vec3(v[0][j], v[1][j], v[2][j])); };
  const Vec3 first = with_fixed_sign(column(order[0]));
  const Vec3 second = with_fixed_sign(column(order[1]));
  return {Vec3(m[order[0]][order[0]], m[order[1]][order[1]], m[order[2]][order[2]]),
          Mat3(first, second, unit(cross(first, second)))};
}

}  // namespace driftbench::math
