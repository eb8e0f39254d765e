// Linear systems and eigenvectors against worked examples and defining equations.
#include "math/solve.h"

#include "base/random.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::math {
namespace {

template <std::size_t N>
Matrix<N> random_spd(base::Rng& rng, double ridge) {
  Matrix<N> root{};
  for (auto& row : root) {
    for (double& entry : row) {
      entry = rng.uniform(-1.0, 1.0);
    }
  }
  Matrix<N> a{};
  for (std::size_t i = 0; i < N; ++i) {
    for (std::size_t j = 0; j < N; ++j) {
      a[i][j] = i == j ? ridge : 0.0;
      for (std::size_t k = 0; k < N; ++k) {
        a[i][j] += root[i][k] * root[j][k];
      }
    }
  }
  return a;
}

// Worked by hand: A = L L^T with L = [[2,0,0],[6,1,0],[-8,5,3]], x = (1, 2, 3), b = A x.
TEST(SolveSpd, MeetsAWorkedExample) {
  const Matrix<3> a = {{{4, 12, -16}, {12, 37, -43}, {-16, -43, 98}}};
  const Vector<3> b = {4 + 24 - 48, 12 + 74 - 129, -16 - 86 + 294};
  Vector<3> x{};
  ASSERT_TRUE(solve_spd(a, b, x));
  EXPECT_NEAR(x[0], 1.0, 1e-12);
  EXPECT_NEAR(x[1], 2.0, 1e-12);
  EXPECT_NEAR(x[2], 3.0, 1e-12);
}

TEST(SolveSpd, SolutionMeetsTheEquation) {
  base::Rng rng(1);
  for (int round = 0; round < 1000; ++round) {
    const Matrix<5> a = random_spd<5>(rng, 0.1);
    Vector<5> b{};
    for (double& entry : b) {
      entry = rng.uniform(-1.0, 1.0);
    }
    Vector<5> x{};
    ASSERT_TRUE(solve_spd(a, b, x));
    for (std::size_t i = 0; i < 5; ++i) {
      double sum = 0.0;
      for (std::size_t j = 0; j < 5; ++j) {
        sum += a[i][j] * x[j];
      }
      EXPECT_NEAR(sum, b[i],
                  1e-13);  // backward stable: a few roundings of numbers of size 1 ... 50
    }
  }
}

TEST(SolveSpd, ReadsTheLowerTriangleOnly) {
  Matrix<2> a = {{{2.0, 99.0}, {1.0, 3.0}}};
  Vector<2> x{};
  ASSERT_TRUE(solve_spd(a, Vector<2>{3.0, 4.0}, x));
  EXPECT_NEAR(x[0], 1.0, 1e-15);
  EXPECT_NEAR(x[1], 1.0, 1e-15);
}

TEST(SolveSpd, RefusesWhatIsNotPositiveDefinite) {
  Vector<2> x = {7.0, 8.0};
  EXPECT_FALSE(solve_spd(Matrix<2>{{{1.0, 2.0}, {2.0, 1.0}}}, Vector<2>{1.0, 1.0}, x));
  EXPECT_FALSE(solve_spd(Matrix<2>{{{1.0, 1.0}, {1.0, 1.0}}}, Vector<2>{1.0, 1.0}, x));
  EXPECT_FALSE(solve_spd(Matrix<2>{{{std::nan(""), 0.0}, {0.0, 1.0}}}, Vector<2>{1.0, 1.0}, x));
  EXPECT_EQ(x, (Vector<2>{7.0, 8.0})) << "a refused system leaves x alone";
}

// Worked by hand: [[2,-1,0],[-1,2,-1],[0,-1,2]] has eigenvalues 2 + sqrt 2, 2, 2 - sqrt 2.
TEST(SymmetricEigen3, MeetsAWorkedExample) {
  const Mat3 a(Vec3(2, -1, 0), Vec3(-1, 2, -1), Vec3(0, -1, 2));
  const SymmetricEigen3 eigen = symmetric_eigen3(a);
  EXPECT_NEAR(eigen.values.x, 2.0 + std::sqrt(2.0), 1e-14);
  EXPECT_NEAR(eigen.values.y, 2.0, 1e-14);
  EXPECT_NEAR(eigen.values.z, 2.0 - std::sqrt(2.0), 1e-14);
  EXPECT_NEAR(eigen.vectors[0].y, std::sqrt(0.5), 1e-14);
  EXPECT_NEAR(std::fabs(eigen.vectors[1].y), 0.0, 1e-14);
}

TEST(SymmetricEigen3, PairsMeetTheDefiningEquation) {
  base::Rng rng(2);
  for (int round = 0; round < 1000; ++round) {
    const Matrix<3> m = random_spd<3>(rng, -0.2);
    const Mat3 a(Vec3(m[0][0], m[1][0], m[2][0]), Vec3(m[0][1], m[1][1], m[2][1]),
                 Vec3(m[0][2], m[1][2], m[2][2]));
    const SymmetricEigen3 eigen = symmetric_eigen3(a);
    EXPECT_GE(eigen.values.x, eigen.values.y);
    EXPECT_GE(eigen.values.y, eigen.values.z);
    for (int j = 0; j < 3; ++j) {
      EXPECT_LT(length(a * eigen.vectors[j] - eigen.values[j] * eigen.vectors[j]), 1e-13);
    }
    EXPECT_NEAR(dot(cross(eigen.vectors[0], eigen.vectors[1]), eigen.vectors[2]), 1.0, 1e-13);
    EXPECT_NEAR(eigen.values.x + eigen.values.y + eigen.values.z, m[0][0] + m[1][1] + m[2][2],
                1e-13);
  }
}

TEST(SymmetricEigen3, DiagonalAndEqualValuesAreFine) {
  const SymmetricEigen3 sorted =
      symmetric_eigen3(Mat3(Vec3(1, 0, 0), Vec3(0, 5, 0), Vec3(0, 0, 3)));
  EXPECT_EQ(sorted.values, Vec3(5, 3, 1));
  EXPECT_EQ(sorted.vectors[0], Vec3(0, 1, 0));
  EXPECT_EQ(symmetric_eigen3(Mat3(2.0)).values, Vec3(2.0));
  EXPECT_EQ(symmetric_eigen3(Mat3(0.0)).values, Vec3(0.0));
}

TEST(SymmetricEigen3, TinyMatricesKeepTheirDigits) {
  // A hole's axis: spread of 1 mm along, 1e-4 mm across.
  const Vec3 along = unit(Vec3(0.1, -0.2, 1.0));
  Mat3 a(0.0);
  for (int j = 0; j < 3; ++j) {
    a[j] = along * along[j];
    a[j][j] += 1e-8;
  }
  EXPECT_LT(length(cross(symmetric_eigen3(a).vectors[0], along)), 1e-14);
}

}  // namespace
}  // namespace driftbench::math
