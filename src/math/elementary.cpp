// Series and reductions. Every operation below is exact IEEE-754 arithmetic, so the bits are the
// same wherever the file is compiled without contraction.
#include "math/elementary.h"

#include "base/contract.h"

#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace driftbench::math {
namespace {

constexpr double kHalfPi = 1.5707963267948966;
constexpr double kWholePi = 3.1415926535897931;
constexpr int kExponentBias = 1023;
constexpr unsigned kFractionBits = 52;

std::uint64_t bits_of(double x) {
  std::uint64_t bits = 0;
  std::memcpy(&bits, &x, sizeof bits);
  return bits;
}

double from_bits(std::uint64_t bits) {
  double x = 0.0;
  std::memcpy(&x, &bits, sizeof x);
  return x;
}

// 2^k for -1022 <= k <= 1023.
double power_of_two(std::int64_t k) {
  return from_bits(static_cast<std::uint64_t>(k + kExponentBias) << kFractionBits);
}

// Nearest whole number, ties to even, for |x| < 2^51: adding 1.5 * 2^52 leaves no room for
// fractions.
double nearest_whole(double x) {
  constexpr double kShift = 6755399441055744.0;
  return (x + kShift) - kShift;
}

// c[0] + c[1] z + c[2] z^2 ...
template <std::size_t N>
double polynomial(const std::array<double, N>& c, double z) {
  double sum = c[N - 1];
  for (std::size_t i = N - 1; i-- > 0;) {
    sum = sum * z + c[i];
  }
  return sum;
}

// sin r for |r| <= pi/4: r - r^3/3! + ... - r^15/15!.
double sin_near_zero(double r) {
  static constexpr std::array<double, 7> kSeries = {
      -1.0 / 6.0,        1.0 / 120.0,        -1.0 / 5040.0,         1.0 / 362880.0,
      -1.0 / 39916800.0, 1.0 / 6227020800.0, -1.0 / 1307674368000.0};
  const double z = r * r;
  return r + r * z * polynomial(kSeries, z);
}

// cos r for |r| <= pi/4: 1 - r^2/2 + r^4/4! - ... + r^16/16!, the rounding of 1 - r^2/2 made good.
double cos_near_zero(double r) {
  static constexpr std::array<double, 7> kSeries = {
      1.0 / 24.0,        -1.0 / 720.0,         1.0 / 40320.0,         -1.0 / 3628800.0,
      1.0 / 479001600.0, -1.0 / 87178291200.0, 1.0 / 20922789888000.0};
  const double z = r * r;
  const double half = 0.5 * z;
  const double leading = 1.0 - half;
  return leading + (((1.0 - leading) - half) + z * z * polynomial(kSeries, z));
}

// atan x for |x| <= tan(pi/16): x - x^3/3 + ... + x^25/25.
double atan_near_zero(double x) {
  static constexpr std::array<double, 12> kSeries = {
      -1.0 / 3.0,  1.0 / 5.0,  -1.0 / 7.0,  1.0 / 9.0,  -1.0 / 11.0, 1.0 / 13.0,
      -1.0 / 15.0, 1.0 / 17.0, -1.0 / 19.0, 1.0 / 21.0, -1.0 / 23.0, 1.0 / 25.0};
  const double z = x * x;
  return x + x * z * polynomial(kSeries, z);
}

// atan x for 0 <= x <= 1: take away pi/4 and then pi/8 as long as the rest is large.
double atan_of_fraction(double x) {
  constexpr double kTanPi8 = 0.41421356237309505;   // sqrt(2) - 1
  constexpr double kTanPi16 = 0.19891236737965801;  // sqrt(4 + 2 sqrt(2)) - sqrt(2) - 1
  double taken = 0.0;
  if (x > kTanPi8) {
    taken = kHalfPi / 2.0;
    x = (x - 1.0) / (x + 1.0);
  }
  if (x > kTanPi16) {
    taken += kHalfPi / 4.0;
    x = (x - kTanPi8) / (1.0 + x * kTanPi8);
  } else if (x < -kTanPi16) {
    taken -= kHalfPi / 4.0;
    x = (x + kTanPi8) / (1.0 - x * kTanPi8);
  }
  return taken + atan_near_zero(x);
}

}  // namespace

SinCos sincos(double x) {
  constexpr double kLargest = 1e5;
  DRIFTBENCH_EXPECTS(std::fabs(x) <= kLargest);
  // r = x - k pi/2 with pi/2 in three parts; the first two have 33 bits, so k times them is exact.
  constexpr double kTwoOverPi = 0.63661977236758138;
  constexpr double kHalfPi1 = 1.57079632673412561417;
  constexpr double kHalfPi2 = 6.07710050630396597660e-11;
  constexpr double kHalfPi3 = 2.02226624879595063154e-21;
  const double k = nearest_whole(x * kTwoOverPi);
  const double r = ((x - k * kHalfPi1) - k * kHalfPi2) - k * kHalfPi3;
  const double s = sin_near_zero(r);
  const double c = cos_near_zero(r);
  // The quarter turn decides which of the two is which.
  switch (static_cast<std::int64_t>(k) & 3) {
    case 0:
      return {s, c};
    case 1:
      return {c, -s};
    case 2:
      return {-s, -c};
    default:
      return {-c, s};
  }
}

double sin(double x) {
  return sincos(x).sin;
}

double cos(double x) {
  return sincos(x).cos;
}

double tan(double x) {
  const SinCos both = sincos(x);
  return both.sin / both.cos;
}

double exp(double x) {
  constexpr double kLargest = 709.0;
  constexpr double kSmallest = -708.0;  // below it the result would be subnormal or nearly so
  DRIFTBENCH_EXPECTS(x <= kLargest);
  if (x < kSmallest) {
    return 0.0;
  }
  // x = k ln 2 + r; the high part of ln 2 has zeros at its end, so k times it is exact.
  constexpr double kOneOverLn2 = 1.44269504088896340736;
  constexpr double kLn2High = 6.93147180369123816490e-01;
  constexpr double kLn2Low = 1.90821492927058770002e-10;
  const double k = nearest_whole(x * kOneOverLn2);
  const double r = (x - k * kLn2High) - k * kLn2Low;
  // 1 + r + r^2/2! + ... + r^13/13!.
  static constexpr std::array<double, 12> kSeries = {
      1.0 / 2.0,       1.0 / 6.0,        1.0 / 24.0,        1.0 / 120.0,
      1.0 / 720.0,     1.0 / 5040.0,     1.0 / 40320.0,     1.0 / 362880.0,
      1.0 / 3628800.0, 1.0 / 39916800.0, 1.0 / 479001600.0, 1.0 / 6227020800.0};
  const double fraction = 1.0 + (r + r * r * polynomial(kSeries, r));
  return fraction * power_of_two(static_cast<std::int64_t>(k));
}

double log(double x) {
  DRIFTBENCH_EXPECTS(x > 0.0 && std::isfinite(x));
  // x = 2^k m with sqrt(1/2) < m <= sqrt(2).
  constexpr double kSmallestNormal = 2.2250738585072014e-308;
  constexpr std::int64_t kScale = 54;
  constexpr double kSqrt2 = 1.4142135623730951;
  std::int64_t exponent = 0;
  if (x < kSmallestNormal) {
    x *= power_of_two(kScale);
    exponent = -kScale;
  }
  const std::uint64_t bits = bits_of(x);
  exponent += static_cast<std::int64_t>(bits >> kFractionBits) - kExponentBias;
  double m = from_bits((bits & 0x000fffffffffffffU) | 0x3ff0000000000000U);
  if (m > kSqrt2) {
    m *= 0.5;
    ++exponent;
  }
  // log m = 2 artanh s = 2 s + s R with s = f/(2+f); since 2 s = f - s f it is f - s (f - R).
  constexpr double kLn2High = 6.93147180369123816490e-01;
  constexpr double kLn2Low = 1.90821492927058770002e-10;
  static constexpr std::array<double, 11> kSeries = {2.0 / 3.0,  2.0 / 5.0,  2.0 / 7.0,  2.0 / 9.0,
                                                     2.0 / 11.0, 2.0 / 13.0, 2.0 / 15.0, 2.0 / 17.0,
                                                     2.0 / 19.0, 2.0 / 21.0, 2.0 / 23.0};
  const double f = m - 1.0;
  const double s = f / (2.0 + f);
  const double z = s * s;
  const double rest = z * polynomial(kSeries, z);
  const auto k = static_cast<double>(exponent);
  return k * kLn2High + (f - (s * (f - rest) - k * kLn2Low));
}

double pow(double x, double y) {
  return exp(y * log(x));
}

double atan(double x) {
  const double size = std::fabs(x);
  const double angle = size > 1.0 ? kHalfPi - atan_of_fraction(1.0 / size) : atan_of_fraction(size);
  return x < 0.0 ? -angle : angle;
}

double atan2(double y, double x) {
  DRIFTBENCH_EXPECTS(std::isfinite(y) && std::isfinite(x));
  const double width = std::fabs(x);
  const double height = std::fabs(y);
  if (width == 0.0 && height == 0.0) {
    return 0.0;
  }
  // The smaller over the larger never overflows; the quadrant follows from the signs.
  double angle = height > width ? kHalfPi - atan_of_fraction(width / height)
                                : atan_of_fraction(height / width);
  if (x < 0.0) {
    angle = kWholePi - angle;
  }
  return y < 0.0 ? -angle : angle;
}

double acos(double x) {
  DRIFTBENCH_EXPECTS(x >= -1.0 && x <= 1.0);
  return atan2(std::sqrt((1.0 - x) * (1.0 + x)), x);
}

}  // namespace driftbench::math
