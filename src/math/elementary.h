// Elementary functions with the same bits in every build: only + - * / sqrt, comparisons and moves
// of exponent bits. Error bounds are against the exact value; the tests sweep them against libm.
#pragma once

namespace driftbench::math {

/// Sine and cosine of one angle.
struct SinCos {
  double sin = 0.0;
  double cos = 1.0;
};

/// Sine and cosine together.
///
/// Unit:   x in rad, |x| <= 1e5
/// Errors: none; asserts the range
/// Source: three-part reduction by pi/2 (Cody, Waite 1980, ch. 8), Taylor series on |r| <= pi/4;
///         absolute error <= 3e-16
[[nodiscard]] SinCos sincos(double x);

/// Sine; domain and error as sincos.
[[nodiscard]] double sin(double x);

/// Cosine; domain and error as sincos.
[[nodiscard]] double cos(double x);

/// Tangent: sin/cos; |x| <= 1e5, relative error <= 1e-15 away from the poles and zeros beyond pi.
[[nodiscard]] double tan(double x);

/// Exponential for any finite x; 0 below -708, contract x <= 709. Relative error <= 4 ulp.
///
/// Source: reduction by ln 2 in two parts (Cody, Waite 1980, ch. 6), Taylor series on |r| <= ln2/2
[[nodiscard]] double exp(double x);

/// Natural logarithm. Contract: x > 0, finite; subnormal x is scaled first. Error <= 4 ulp.
///
/// Source: x = 2^k m, log m = 2 artanh((m-1)/(m+1)), series to s^23
[[nodiscard]] double log(double x);

/// x to the power y as exp(y log x). Contract: x > 0, result in the range of exp.
/// Relative error <= 1e-15 * (1 + |y log x|).
[[nodiscard]] double pow(double x, double y);

/// Arc tangent in [-pi/2, pi/2]; error <= 4 ulp.
///
/// Source: addition theorem down to |x| <= tan(pi/16), then the series to x^33
[[nodiscard]] double atan(double x);

/// Angle of the point (x, y) in [-pi, pi], all quadrants. Contract: both finite.
///
/// Zeros have no sign here: y = -0 counts as +0, so (0, x<0) gives +pi; atan2(0, 0) = 0.
/// Error <= 4 ulp.
[[nodiscard]] double atan2(double y, double x);

/// Arc cosine in [0, pi] as atan2(sqrt((1-x)(1+x)), x). Contract: |x| <= 1. Error <= 1e-15
/// absolute.
[[nodiscard]] double acos(double x);

}  // namespace driftbench::math
